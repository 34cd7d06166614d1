/**
 * The cross-section of one bay: half a fin, a fillet, the body, a fillet, half the next fin.
 *
 * Seen along the axis, with p outward along a fin's mid-plane from the tube's axis O and q square to it, the fin's face is
 * q = h (half the core's thickness), the body the circle of radius R about O, and the fillet the circle of radius r that
 * touches both, about C = (xc, h + r):
 *
 *   xc     = √((R + r)² − (h + r)²)          m      height = xc − √(R² − h²)           m, of the fillet on the fin's face
 *   theta  = asin((h + r) / (R + r))         rad    from the fin's mid-plane to the fillet's foot on the body
 *   phi    = π/2 − theta                     rad    arc of the fillet
 *   a0     = asin(h / R)                     rad    from the mid-plane to where the bare face meets the bare body
 *   area   = |O, (√(R² − h²), h), (xc, h), C| − r² phi / 2 − R² (theta − a0) / 2      m², of one fillet
 *   half   = R (π/N − theta) + r phi + (R + span − xc)                                m, from the bay's centre line to the tip
 *
 * |…| is the area of the polygon through those points; the span is measured on the mid-plane from the body's surface.
 * Plane geometry, derived here; nothing is approximated. Two fillets in a bay do not meet while theta < π/N, which is
 *
 *   r < (R sin(π/N) − h) / (1 − sin(π/N))
 *
 * and the fillet ends below the tip while xc < R + span, which is r < ((R + span)² − R² + h²) / (2 (R − h)).
 */
import { degrees, millimetres } from '../geometry/dimension-text.ts'
import { signedArea } from '../geometry/polygon.ts'
import type { Checked, Issue } from '../issue.ts'

export interface BaySectionInput {
  /** Outer radius of the body tube, as measured. */
  readonly tubeRadius: number
  readonly coreThickness: number
  /** A whole number, at least 2. */
  readonly finCount: number
  /** Exposed, from the body's surface to the tip. */
  readonly span: number
  readonly filletRadius: number
}

export interface BaySection {
  readonly R: number
  readonly h: number
  readonly N: number
  readonly span: number
  readonly r: number
  readonly xc: number
  readonly theta: number
  readonly phi: number
  readonly a0: number
  readonly filletHeight: number
  readonly filletArea: number
  /** Half width of the bay map on the bare surface at: the fillet's foot, the fillet's top, the tip. */
  readonly stations: { readonly filletFoot: number; readonly filletTop: number; readonly tip: number }
  /** From tip to tip on the bare surface. */
  readonly width: number
}

/** The section, or every reason why it cannot be made. */
export function baySection(input: BaySectionInput): Checked<BaySection> {
  const issues = [...rangeIssues(input)]
  if (issues.length === 0) issues.push(...fitIssues(input))
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: solved(input), warnings: [] }
}

/** The radius at which a fillet would touch its neighbour or reach the tip; a smaller one fits. Not positive: none fits. */
export function filletRadiusLimits({
  tubeRadius: R,
  coreThickness,
  finCount,
  span,
}: Omit<BaySectionInput, 'filletRadius'>): {
  readonly neighbour: number
  readonly tip: number
} {
  const h = coreThickness / 2
  const sine = finCount > 2 ? Math.sin(Math.PI / finCount) : 1
  return {
    neighbour: sine < 1 ? (R * sine - h) / (1 - sine) : Number.POSITIVE_INFINITY,
    tip: ((R + span) ** 2 - R ** 2 + h ** 2) / (2 * (R - h)),
  }
}

function solved({ tubeRadius: R, coreThickness, finCount: N, span, filletRadius: r }: BaySectionInput): BaySection {
  const h = coreThickness / 2
  const xc = Math.sqrt((R + r) ** 2 - (h + r) ** 2)
  const theta = Math.asin((h + r) / (R + r))
  const phi = Math.acos((h + r) / (R + r))
  const a0 = Math.asin(h / R)
  const bareRoot = Math.sqrt(R ** 2 - h ** 2)
  const hull = signedArea([
    [0, 0],
    [bareRoot, h],
    [xc, h],
    [xc, h + r],
  ])
  const filletFoot = R * (Math.PI / N - theta)
  const filletTop = filletFoot + r * phi
  const tip = filletTop + (R + span - xc)
  return {
    R,
    h,
    N,
    span,
    r,
    xc,
    theta,
    phi,
    a0,
    filletHeight: xc - bareRoot,
    filletArea: hull - (r ** 2 * phi) / 2 - (R ** 2 * (theta - a0)) / 2,
    stations: { filletFoot, filletTop, tip },
    width: 2 * tip,
  }
}

function rangeIssues(input: BaySectionInput): Issue[] {
  const lengths = [
    [
      'tube.outerDiameter',
      'The outer radius of the tube',
      input.tubeRadius,
      'Measure the tube and write its outer diameter.',
    ],
    [
      'fins.core.thickness',
      'The thickness of the core',
      input.coreThickness,
      'Write the measured thickness of the core sheet.',
    ],
    ['fins.outline', 'The exposed span', input.span, 'Give the outline a tip that lies outboard of the body.'],
    ['fins.fillet.radius', 'The fillet radius', input.filletRadius, 'Write the radius of the fillet tool.'],
  ] as const
  const issues: Issue[] = lengths
    .filter(([, , value]) => !(value > 0 && value < 1e3))
    .map(([path, name, value, hint]) => ({
      code: 'bond/length-range',
      path,
      value,
      message: `${name} is ${Number.isFinite(value) ? millimetres(value) : value}; it must be greater than zero and less than 1 km.`,
      hint,
    }))
  const { finCount } = input
  if (!(Number.isInteger(finCount) && finCount >= 2 && finCount <= 100))
    issues.push({
      code: 'bond/fin-count',
      path: 'fins.count',
      value: finCount,
      message: `The number of fins is ${finCount}; it must be a whole number of at least 2.`,
      hint: 'Write how many fins stand around the tube.',
    })
  return issues
}

function fitIssues(input: BaySectionInput): Issue[] {
  const { tubeRadius: R, coreThickness, finCount: N, filletRadius: r } = input
  if (!(coreThickness / 2 < R * Math.sin(Math.PI / N))) return [coreTooWide(input)]
  const limit = filletRadiusLimits(input)
  const largest = Math.min(limit.neighbour, limit.tip)
  const hint = fittingRadius(largest)
  const issues: Issue[] = []
  if (!(r < limit.neighbour)) {
    const theta = Math.asin((coreThickness / 2 + r) / (R + r))
    issues.push({
      code: 'bond/fillets-meet',
      path: 'fins.fillet.radius',
      value: r,
      message:
        `Fillets of ${millimetres(r)} meet in the middle of the bay: each reaches ${degrees(theta)} round the body from its fin, ` +
        `and half a bay of ${N} fins is ${degrees(Math.PI / N)}.`,
      hint,
    })
  }
  if (!(r < limit.tip))
    issues.push({
      code: 'bond/fillet-tall',
      path: 'fins.fillet.radius',
      value: r,
      message: `A fillet of ${millimetres(r)} reaches the tip of the fin, which is ${millimetres(input.span)} outboard of the body.`,
      hint,
    })
  return issues
}

/** The greatest radius to a tenth of a millimetre, rounded down so that it does fit. */
function fittingRadius(largest: number): string {
  const tenths = Math.ceil(largest * 1e4 - 1e-6) - 1
  return tenths > 0
    ? `The greatest radius that still fits is ${millimetres(tenths * 1e-4)}; leave some body between the fillets.`
    : 'No fillet fits between these fins; use fewer fins, a thinner core or a larger tube.'
}

function coreTooWide({ tubeRadius, coreThickness, finCount }: BaySectionInput): Issue {
  const widest = 2 * tubeRadius * Math.sin(Math.PI / finCount)
  return {
    code: 'bond/core-wide',
    path: 'fins.core.thickness',
    value: coreThickness,
    message:
      `A core of ${millimetres(coreThickness)} leaves no body between ${finCount} fins on a tube of ` +
      `${millimetres(2 * tubeRadius)} outer diameter; it must be thinner than ${millimetres(widest)}.`,
    hint: 'Check the units of the core thickness and of the tube diameter.',
  }
}
