/**
 * The bay's geometry from the design: the section where it is checked, and the map of a ply at any build-up.
 *
 * A bay is straight where the fins have no cant, the body keeps its radius and the fillet its own: then its map is exact
 * (development.ts). Otherwise it is charted (built/bay-chart.ts). The section must fit at both ends of the root. A cant delta
 * brings the face nearer to the bay's middle at one end of the root, by half its length times sin delta, and the core counts
 * as that much thicker there: a fillet that fits there fits all along.
 */
import { type BaySection, baySection } from '../bond/section.ts'
import { finSpan, rootLength } from '../geometry/fin-outline.ts'
import type { Checked, Issue } from '../issue.ts'
import { type BayMap, straightMap } from './bay-map.ts'
import { type BayChart, bayChart } from './built/bay-chart.ts'
import { type BayShape, builtBay } from './built/built-bay.ts'
import { coreFace } from './built/core-face.ts'
import { development } from './development.ts'
import type { PatternInput } from './schedule.ts'

export interface BayGeometry {
  /** At the root's forward end. */
  readonly section: BaySection
  readonly straight: boolean
  /** Of the fillet, the lesser of its two ends. */
  readonly leastRadius: number
  readonly shape: BayShape
  /** With the core as flat as its middle and no run-outs: what the map is of. */
  readonly flatShape: BayShape
  readonly mapAt: (z: number) => BayMap
  /** Null for a straight bay, whose map is exact. */
  readonly chartAt: (z: number) => BayChart | null
}

type GeometryInput = Pick<PatternInput, 'tube' | 'fins'>

export function bayGeometry(input: GeometryInput): Checked<BayGeometry> {
  const { tube, fins } = input
  const root = rootLength(fins.outline)
  const taper = taperIssues(input)
  if (taper.length > 0) return { ok: false, issues: taper }
  const forward = sectionAt(input, tube.outerRadius, fins.fillet.radius)
  if (!forward.ok) return forward
  const straight =
    fins.cant === 0 && tube.aftRadius === tube.outerRadius && fins.fillet.radiusAft === fins.fillet.radius
  const aft = straight ? forward : sectionAt(input, tube.aftRadius, fins.fillet.radiusAft)
  if (!aft.ok) return { ok: false, issues: aft.issues.map(atAftEnd) }
  const x0 = fins.outline.points[0]![0]
  const shape: BayShape = {
    N: fins.count,
    R: tube.outerRadius,
    R1: tube.aftRadius,
    x0,
    x1: x0 + root,
    face: coreFace({ outline: fins.outline, thickness: fins.core.thickness, edges: fins.edges }),
    cant: fins.cant,
    r: fins.fillet.radius,
    r1: fins.fillet.radiusAft,
    runOut: {
      forward: (tube.ahead ?? 0) < 0 ? 0 : fins.fillet.runOut.forward,
      aft: (tube.behind ?? 0) < 0 ? 0 : fins.fillet.runOut.aft,
    },
  }
  // The map is of flat faces: shaped edges are laid flat in the outline itself.
  const flatShape: BayShape = { ...shape, face: () => fins.core.thickness / 2, runOut: { forward: 0, aft: 0 } }
  const plain = baySection({
    tubeRadius: tube.outerRadius,
    coreThickness: fins.core.thickness,
    finCount: fins.count,
    span: finSpan(fins.outline),
    filletRadius: fins.fillet.radius,
  })
  if (!plain.ok) return plain
  const section = plain.value
  const charts = new Map<number, BayChart>()
  const chartAt = (z: number): BayChart | null => {
    if (straight) return null
    const chart = charts.get(z) ?? bayChart(builtBay(flatShape, z))
    charts.set(z, chart)
    return chart
  }
  return {
    ok: true,
    value: {
      section,
      straight,
      leastRadius: Math.min(shape.r, shape.r1),
      shape,
      flatShape,
      mapAt: (z) => chartAt(z) ?? straightMap(development(section, z)),
      chartAt,
    },
    warnings: [],
  }
}

function sectionAt({ fins }: GeometryInput, tubeRadius: number, filletRadius: number) {
  const turned = Math.abs(Math.sin(fins.cant)) * rootLength(fins.outline)
  return baySection({
    tubeRadius,
    coreThickness: fins.core.thickness / Math.cos(fins.cant) + turned,
    finCount: fins.count,
    span: finSpan(fins.outline),
    filletRadius,
  })
}

const atAftEnd = (issue: Issue): Issue => ({ ...issue, message: `At the root's aft end: ${issue.message}` })

/** A body that narrows or widens by more than 30° is a nozzle or a step, not a tail. */
const steepest = Math.PI / 6
const mostCant = (10 * Math.PI) / 180

function taperIssues({ tube, fins }: GeometryInput): readonly Issue[] {
  const issues: Issue[] = []
  const sine = (tube.outerRadius - tube.aftRadius) / rootLength(fins.outline)
  if (!(tube.aftRadius > 0 && Math.abs(sine) <= Math.sin(steepest)))
    issues.push({
      code: 'pattern/body-steep',
      path: 'tube.aftDiameter',
      value: 2 * tube.aftRadius,
      message: `Under the root the body goes from ${(2e3 * tube.outerRadius).toFixed(1)} mm to ${(2e3 * tube.aftRadius).toFixed(1)} mm over ${(1e3 * rootLength(fins.outline)).toFixed(1)} mm; its sides may lean by at most 30°.`,
      hint: 'Measure the outer diameters at the two ends of the root.',
    })
  if (!(Math.abs(fins.cant) <= mostCant))
    issues.push({
      code: 'pattern/cant-range',
      path: 'fins.cant',
      value: fins.cant,
      message: `The fins are canted by ${((fins.cant * 180) / Math.PI).toFixed(2)}°; at most 10° can be drawn.`,
      hint: 'A designed cant is a degree or less; check its unit.',
    })
  if (!(fins.fillet.radiusAft > 0))
    issues.push({
      code: 'pattern/number-range',
      path: 'fins.fillet.radiusAft',
      value: fins.fillet.radiusAft,
      message: `The fillet radius at the root's aft end is ${fins.fillet.radiusAft}; it must be greater than zero.`,
      hint: 'Write the radius of the fillet tool there.',
    })
  return issues
}
