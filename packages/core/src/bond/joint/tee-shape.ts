/**
 * Half of the T-section laid out in blocks of rows and columns: core, base bond, fillet, tube wall and the skin along them.
 *
 * p runs outward along the fin's mid-plane from the tube's axis, q ≥ 0 square to it; circles and tangent points are those of
 * the bay section. The fillet is a fan: its columns run from the right angle (down the core's face, across the end of the base
 * bond, along the tube) to the matching points of the arc, and shrink to nothing at the arc's two ends. Every block is listed
 * at half steps, so that the middle nodes of quadratic elements lie on the true lines and circles.
 *
 * The base bond has one thickness everywhere: the core's end is taken to follow the tube.
 */
import type { BaySection } from '../section.ts'

export interface TeeShape {
  readonly section: BaySection
  /** Thickness of the skin on one face. */
  readonly skin: number
  /** Thickness of the adhesive under the core's end. */
  readonly bondLine: number
  readonly wall: number
  /** How much of the fin above the fillet is in the model. */
  readonly above: number
}

export type BlockName = 'core' | 'bond' | 'fillet' | 'wall' | 'skinFin' | 'skinArc' | 'skinBody'

export interface Block {
  readonly name: BlockName
  /** Points along and across, two a step and one more. */
  readonly columns: number
  readonly rows: number
  readonly at: (i: number, j: number) => readonly [number, number]
}

/**
 * Steps of each stretch, so many that the measures of docs/methods/bond-joint.md lie within 3 % of those of a converged mesh
 * and within 2 % where moment governs. `end` and `skin` are even, because a measure is taken half-way through each.
 */
export const steps = { fin: 3, leg: 10, end: 2, body: 5, core: 4, fillet: 4, skin: 2, wall: 3 } as const

/** Each step over the one before it; small ones at the corner between core, adhesive and tube. */
const grading = { fin: 0.7, leg: 0.85, arc: 0.95, body: 1.3, core: 0.72, fillet: 1.6, wall: 0.5 } as const

/** Share of the arc that faces the end of the base bond. */
const endShare = 0.06

/** `refine` multiplies every number of steps. */
export function teeBlocks(shape: TeeShape, refine = 1): readonly Block[] {
  const at = stations(shape, refine)
  const { R, h, r, xc } = shape.section
  const onArc = (rho: number, psi: number): Place => [xc - rho * Math.sin(psi), h + r - rho * Math.cos(psi)]
  const coreEnd = onCircle(R + shape.bondLine, h)
  // the two legs of the right angle with the end of the base bond between them, from the fin to the body
  const corner: readonly Place[] = [
    ...at.face.map((p): Place => [p, h]),
    ...at.end.slice(1).map((rho): Place => [onCircle(rho, h), h]),
    ...at.foot.slice(1).map((angle) => onTube(R, angle)),
  ]
  const heights = joined(at.fin, at.face)
  const rise = at.end.toReversed()
  const angles = joined(
    at.core.map((q) => Math.asin(q / R)),
    at.foot,
    at.body,
  )
  const block = (
    name: BlockName,
    [columns, rows]: readonly [{ length: number }, { length: number }],
    place: Block['at'],
  ): Block => ({ name, columns: columns.length, rows: rows.length, at: place })
  return [
    block('core', [heights, at.core], (i, j) => {
      const down = (heights[0] - heights[i]) / (heights[0] - coreEnd)
      return [heights[i] + (onCircle(R + shape.bondLine, at.core[j]) - coreEnd) * down, at.core[j]]
    }),
    block('bond', [at.core, rise], (i, j) => [onCircle(rise[j], at.core[i]), at.core[i]]),
    block('fillet', [corner, at.fan], (i, j) => {
      const [a, b] = [corner[i], onArc(r, at.arc[i])]
      return [a[0] + (b[0] - a[0]) * at.fan[j], a[1] + (b[1] - a[1]) * at.fan[j]]
    }),
    block('wall', [angles, at.wall], (i, j) => onTube(at.wall[j], angles[i])),
    block('skinFin', [at.fin, at.skin], (i, j) => [at.fin[i], h + at.skin[j]]),
    block('skinArc', [at.arc, at.skin], (i, j) => onArc(r - at.skin[j], at.arc[i])),
    block('skinBody', [at.body, at.skin], (i, j) => onTube(R + at.skin[j], at.body[i])),
  ]
}

type Place = readonly [number, number]

const onCircle = (rho: number, q: number): number => Math.sqrt(rho ** 2 - q ** 2)
const onTube = (rho: number, angle: number): Place => [rho * Math.cos(angle), rho * Math.sin(angle)]

/** Where the lines of the mesh cross each stretch: heights, radii, angles, distances from a face, and shares of the fan. */
function stations({ section, skin, bondLine, wall, above }: TeeShape, refine: number) {
  const graded = (n: number, ratio: number): number[] => geometric(n * refine, ratio ** (1 / refine))
  const { R, h, N, xc, theta, phi, a0 } = section
  const coreEnd = onCircle(R + bondLine, h)
  const half = graded(steps.leg, grading.arc).map((f) => (f * (1 - endShare)) / 2)
  const end = graded(steps.end, 1)
  const arc = joined(
    half,
    end.map((f) => (1 - endShare) / 2 + f * endShare),
    half.map((f) => 1 - f).reverse(),
  )
  return {
    fin: graded(steps.fin, grading.fin).map((f) => xc + above * (1 - f)),
    face: graded(steps.leg, grading.leg).map((f) => xc + (coreEnd - xc) * f),
    end: end.map((f) => R + bondLine * (1 - f)),
    foot: graded(steps.leg, 1 / grading.leg).map((f) => a0 + (theta - a0) * f),
    body: graded(steps.body, grading.body).map((f) => theta + (Math.PI / N - theta) * f),
    arc: arc.map((f) => f * phi),
    core: graded(steps.core, grading.core).map((f) => f * h),
    skin: graded(steps.skin, 1).map((f) => f * skin),
    wall: graded(steps.wall, grading.wall).map((f) => R - wall * (1 - f)),
    fan: graded(steps.fillet, grading.fillet),
  }
}

/** 0 … 1 at half steps; each of n steps is `ratio` times the one before, middles in the middle. */
function geometric(n: number, ratio: number): number[] {
  const step = (k: number): number => (ratio === 1 ? k / n : (ratio ** k - 1) / (ratio ** n - 1))
  return Array.from({ length: 2 * n + 1 }, (_, k) =>
    k % 2 === 0 ? step(k / 2) : (step((k - 1) / 2) + step((k + 1) / 2)) / 2,
  )
}

/** Lists end to end; the first member of each but the first is the last of the one before. */
const joined = (...lists: readonly number[][]): number[] => lists.flatMap((list, k) => (k === 0 ? list : list.slice(1)))
