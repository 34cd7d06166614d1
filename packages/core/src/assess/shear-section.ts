/** The shear of every woven ply mapped to the assessment's keys, and what a builder must be told of it. */
import type { Point } from '../geometry/point.ts'
import type { Issue } from '../issue.ts'
import { type PlyShear, plyShears, type ShearRegion } from '../pattern/built/ply-shear.ts'
import type { Patterns } from '../pattern/patterns.ts'
import type { PatternInput } from '../pattern/schedule.ts'
import type { CanDesign } from './design.ts'

/** Of one woven ply, laid on the surface as built from the bay's middle outward. Bay axes; angles by which warp and weft close. */
export interface ShearFigures {
  readonly ply: string
  /** Greatest, without its sign, and where on the flat piece. */
  readonly greatest_deg: number
  readonly at_m: Point
  readonly region: ShearRegion
  /** What the weave gives before it wrinkles; a guess unless the plan states it. */
  readonly limit_deg: number
  readonly limitIsGuess: boolean
  /** Side of a square of the field; squares under half a degree are left out. */
  readonly cell_m: number
  /** Signed: positive where cloth grows along the sum of warp and weft. */
  readonly field: readonly { readonly at_m: Point; readonly shear_deg: number }[]
  /** Places on the piece that no net of rigid yarns covers. */
  readonly unreached_m: readonly Point[]
  /** Greatest distance along the root between where the piece lands and where the map has it; 0 for an exact map. */
  readonly mapError_m: number
}

/** Where a piece is cut so that its weave need not shear past its limit: a line from its net line inward. */
export interface ReliefFigures {
  readonly ply: string
  /** `trim`: stays near the net line and is cut off there, `from` to `to` deep. */
  readonly kind: 'cut' | 'trim'
  readonly from_m: Point
  readonly to_m: Point
  readonly shear_deg: number
  /** By which the lips part or lap at the mouth: an estimate. */
  readonly opening_m: number
  readonly area_m2: number
}

export interface ShearAssessed {
  readonly shear: readonly ShearFigures[]
  readonly relief: readonly ReliefFigures[]
  readonly issues: readonly Issue[]
}

export function shearSection(design: CanDesign, input: PatternInput, patterns: Patterns): ShearAssessed {
  const shears = plyShears(input, patterns)
  return {
    shear: shears.map(
      (ply): ShearFigures => ({
        ply: ply.ply,
        greatest_deg: degrees(Math.abs(ply.greatest.shear)),
        at_m: ply.greatest.at,
        region: ply.region,
        limit_deg: degrees(ply.limit.value),
        limitIsGuess: ply.limit.confidence !== 'plan',
        cell_m: ply.step,
        field: ply.field.map(({ at, shear }) => ({ at_m: rounded(at), shear_deg: toHundredths(degrees(shear)) })),
        unreached_m: ply.unreached.map(rounded),
        mapError_m: ply.mapError,
      }),
    ),
    relief: shears.flatMap(({ ply, cuts }) =>
      cuts.map(
        (cut): ReliefFigures => ({
          ply,
          kind: cut.kind,
          from_m: cut.from,
          to_m: cut.to,
          shear_deg: degrees(cut.shear),
          opening_m: cut.opening,
          area_m2: cut.area,
        }),
      ),
    ),
    issues: [
      ...shears.flatMap((ply) => limitIssue(design, ply)),
      ...shears.flatMap((ply) => mapIssue(ply, patterns)),
      ...airIssue(design),
    ],
  }
}

function limitIssue(design: CanDesign, { ply, greatest, region, limit, cuts, unreached }: PlyShear): Issue[] {
  const shear = Math.abs(greatest.shear)
  if (shear <= limit.value && unreached.length === 0) return []
  const index = design.plies.findIndex(({ id }) => id === ply)
  // a film hardly ever follows a run-out: its pattern and the lay-up sheet say where it is slit
  if (design.plies[index]?.role === 'film') return []
  const place = `${(greatest.at[0] * 1e3).toFixed(0)} mm aft and ${(greatest.at[1] * 1e3).toFixed(0)} mm across, ${regionName[region]}`
  const guess = limit.confidence === 'plan' ? '' : ', a guess'
  return [
    {
      code: 'pattern/shear-limit',
      path: `plies[${index}].cloth`,
      value: degrees(shear),
      message:
        shear > limit.value
          ? `${ply} must shear by ${degrees(shear).toFixed(1)}° at ${place}; its weave gives ${degrees(limit.value).toFixed(0)}° (${`materials.*.maximumShear${guess}`}). ${cuts.length === 1 ? 'One cut is' : `${cuts.length} cuts are`} proposed.`
          : `${ply} cannot be laid all over without a cut: in ${unreached.length} places no net of its yarns follows the surface.`,
      hint: 'Cut where it is proposed, lay a looser weave, make the run-out longer, or step the ply back there.',
    },
  ]
}

const regionName: { readonly [region in ShearRegion]: string } = {
  face: "on the fin's face",
  fillet: 'in the fillet',
  body: 'on the body',
  'run-out': "round the fillet's run-out",
}

/** A hand lays cloth to half a millimetre: a map that is further off says so. */
const handPlaces = 5e-4

function mapIssue({ ply, mapError }: PlyShear, { geometry }: Patterns): Issue[] {
  if (geometry.straight || mapError <= handPlaces) return []
  return [
    {
      code: 'pattern/map-error',
      path: 'fins.cant',
      value: mapError,
      message: `The bay does not unroll: pieces of ${ply} land up to ${(mapError * 1e3).toFixed(1)} mm from where the map has them along the root.`,
      hint: 'Leave that much more overhang, and lay by the ticks at the root first.',
    },
  ]
}

/** What the other questions take for granted. */
function airIssue({ tube, fins }: CanDesign): Issue[] {
  const told = [
    ...(tube.aftRadius === tube.outerRadius ? [] : ['the body under the root keeps its forward diameter']),
    ...(fins.cant === 0 ? [] : ['the fins stand along the axis']),
    ...(fins.fillet.radiusAft === fins.fillet.radius ? [] : ['the fillet keeps its forward radius']),
  ]
  if (told.length === 0) return []
  return [
    {
      code: 'pattern/only-patterns',
      path:
        tube.aftRadius === tube.outerRadius
          ? fins.cant === 0
            ? 'fins.fillet.radiusAft'
            : 'fins.cant'
          : 'tube.aftDiameter',
      value: null,
      message: `Loads, flutter, strength and the joint are computed as if ${told.join(' and ')}; only patterns and shear follow the shape as built.`,
      hint: 'Read their margins with that in mind.',
    },
  ]
}

const degrees = (angle: number): number => (angle * 180) / Math.PI
const toHundredths = (value: number): number => Math.round(value * 100) / 100
/** To a hundredth of a millimetre. */
const rounded = ([X, Y]: Point): Point => [Math.round(X * 1e5) / 1e5, Math.round(Y * 1e5) / 1e5]
