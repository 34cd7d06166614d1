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
export function teeBlocks({ section, skin, bondLine, wall, above }: TeeShape, refine = 1): readonly Block[] {
  const graded = (n: number, ratio: number): number[] => geometric(n * refine, ratio ** (1 / refine))
  const { R, h, N, r, xc, theta, phi, a0 } = section
  const onCircle = (rho: number, q: number): number => Math.sqrt(rho ** 2 - q ** 2)
  const coreEnd = onCircle(R + bondLine, h)

  const fin = graded(steps.fin, grading.fin).map((f) => xc + above * (1 - f))
  const face = graded(steps.leg, grading.leg).map((f) => xc + (coreEnd - xc) * f)
  const end = graded(steps.end, 1).map((f) => R + bondLine * (1 - f))
  const foot = graded(steps.leg, 1 / grading.leg).map((f) => a0 + (theta - a0) * f)
  const body = graded(steps.body, grading.body).map((f) => theta + (Math.PI / N - theta) * f)
  const core = graded(steps.core, grading.core).map((f) => f * h)
  const across = graded(steps.skin, 1).map((f) => f * skin)
  const through = graded(steps.wall, grading.wall).map((f) => R - wall * (1 - f))
  const fan = graded(steps.fillet, grading.fillet)
  const half = graded(steps.leg, grading.arc).map((f) => (f * (1 - endShare)) / 2)
  const arc = joined(
    half,
    graded(steps.end, 1).map((f) => (1 - endShare) / 2 + f * endShare),
    half.map((f) => 1 - f).reverse(),
  ).map((f) => f * phi)

  const onTube = (rho: number, angle: number): readonly [number, number] => [
    rho * Math.cos(angle),
    rho * Math.sin(angle),
  ]
  const onArc = (rho: number, psi: number): readonly [number, number] => [
    xc - rho * Math.sin(psi),
    h + r - rho * Math.cos(psi),
  ]
  const corner = [
    ...face.map((p) => [p, h] as const),
    ...end.slice(1).map((rho) => [onCircle(rho, h), h] as const),
    ...foot.slice(1).map((angle) => onTube(R, angle)),
  ]
  const heights = joined(fin, face)
  const angles = joined(
    core.map((q) => Math.asin(q / R)),
    foot,
    body,
  )
  const rise = end.toReversed()
  const sag = (q: number): number => onCircle(R + bondLine, q) - coreEnd
  const blocks: Block[] = []
  const block = (name: BlockName, columns: number, rows: number, at: Block['at']) =>
    blocks.push({ name, columns, rows, at })
  block('core', heights.length, core.length, (i, j) => {
    const down = (heights[0] - heights[i]) / (heights[0] - coreEnd)
    return [heights[i] + sag(core[j]) * down, core[j]]
  })
  block('bond', core.length, rise.length, (i, j) => [onCircle(rise[j], core[i]), core[i]])
  block('fillet', corner.length, fan.length, (i, j) => {
    const [a, b] = [corner[i], onArc(r, arc[i])]
    return [a[0] + (b[0] - a[0]) * fan[j], a[1] + (b[1] - a[1]) * fan[j]]
  })
  block('wall', angles.length, through.length, (i, j) => onTube(through[j], angles[i]))
  block('skinFin', fin.length, across.length, (i, j) => [fin[i], h + across[j]])
  block('skinArc', arc.length, across.length, (i, j) => onArc(r - across[j], arc[i]))
  block('skinBody', body.length, across.length, (i, j) => onTube(R + across[j], body[i]))
  return blocks
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
