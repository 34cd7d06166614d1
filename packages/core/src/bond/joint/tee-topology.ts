/**
 * Which nodes make which elements of the half T-section, what is held, and where its unknowns stand in the matrix. The same
 * for every shape, so that it is found once and a new radius is only new coordinates.
 *
 * Nodes that blocks share are found by laying out one shape and merging what coincides.
 */
import { invariant } from '../../issue.ts'
import { analyseLdl, type LdlAnalysis } from '../../numeric/ldl.ts'
import { minimumDegree } from '../../numeric/minimum-degree.ts'
import { type AssemblyPlan, assemblyPlan } from '../../numeric/sparse.ts'
import { baySection } from '../section.ts'
import { type BlockName, steps, type TeeShape, teeBlocks } from './tee-shape.ts'

/** The tube's inner surface between the fins: free, or held as by a motor case or a plug that fills it. */
export type InsideTube = 'free' | 'held'

/**
 * What the neighbouring bay does to tube and skin at the bay's centre line:
 *   held    nothing moves there
 *   hinged  no radial movement, free to turn: all fins loaded the same way round
 *   even    no turn and no movement round the tube, radially free: every other fin loaded the other way round
 */
export type BayCentre = 'held' | 'hinged' | 'even'

export interface TeeElement {
  readonly block: BlockName
  /** Step along and across its block. */
  readonly i: number
  readonly j: number
  /** 8 nodes, or 6 where the fillet ends in a feather edge. */
  readonly nodes: Int32Array
}

export interface TeeTopology {
  readonly inside: InsideTube
  /** Nodes at the bay's centre line, held or not. */
  readonly centre: readonly number[]
  readonly refine: number
  readonly elements: readonly TeeElement[]
  /** Block, column and row (at half steps) that each node was first met at. */
  readonly nodes: readonly { readonly block: number; readonly i: number; readonly j: number }[]
  /** Of component k of a node at `2 node + k`: its place in the matrix, or −1 when held. */
  readonly unknown: Int32Array
  readonly plan: AssemblyPlan
  readonly analysis: LdlAnalysis
}

const known = new Map<string, TeeTopology>()

export interface TeeHolds {
  readonly inside: InsideTube
  /** False where the solution adds what holds the bay's centre line. */
  readonly centreHeld: boolean
}

/** A constant of the program for each way of holding and refinement, made on first use. */
export function teeTopology(holds: TeeHolds, refine = 1): TeeTopology {
  const key = `${holds.inside} ${holds.centreHeld} ${refine}`
  const found = known.get(key) ?? topology(holds, refine)
  known.set(key, found)
  return found
}

/** Coordinates of a shape, 2 per node. */
export function teeCoordinates({ nodes, refine }: TeeTopology, shape: TeeShape): Float64Array {
  const blocks = teeBlocks(shape, refine)
  const X = new Float64Array(2 * nodes.length)
  nodes.forEach(({ block, i, j }, node) => {
    const [p, q] = blocks[block].at(i, j)
    X[2 * node] = p
    X[2 * node + 1] = q
  })
  return X
}

/** Any shape will do whose blocks touch where they should and nowhere else. */
function sampleShape(): TeeShape {
  const section = baySection({ tubeRadius: 0.05, coreThickness: 4e-3, finCount: 4, span: 0.1, filletRadius: 0.015 })
  invariant(section.ok, 'the sample section exists')
  return { section: section.value, skin: 1e-3, bondLine: 5e-4, wall: 2e-3, above: 0.01 }
}

function topology(holds: TeeHolds, refine: number): TeeTopology {
  const shape = sampleShape()
  const { nodes, elements, X } = merged(shape, refine)
  const held = heldComponents(shape, X, holds)
  const centre = nodes.flatMap((_, node) => (isAtCentre(shape, X[2 * node], X[2 * node + 1]) ? [node] : []))
  const graph = Int32Array.from(
    elements.flatMap(({ nodes: own }) => Array.from({ length: 8 }, (_, k) => own[k] ?? own[0])),
  )
  const unknown = new Int32Array(X.length).fill(-1)
  let n = 0
  for (const node of minimumDegree({ n: nodes.length, elements: graph, perElement: 8 }))
    for (let k = 0; k < 2; k++) if (held[2 * node + k] === 0) unknown[2 * node + k] = n++
  const unknowns = Int32Array.from(
    elements.flatMap(({ nodes: own }) =>
      Array.from({ length: 16 }, (_, k) => (k < 2 * own.length ? unknown[2 * own[k >> 1] + (k & 1)] : -1)),
    ),
  )
  const plan = assemblyPlan({ n, size: 16, unknowns })
  return { inside: holds.inside, centre, refine, elements, nodes, unknown, plan, analysis: analyseLdl(plan.pattern) }
}

function merged(shape: TeeShape, refine: number) {
  const blocks = teeBlocks(shape, refine)
  const nodes: TeeTopology['nodes'][number][] = []
  const elements: TeeElement[] = []
  const X: number[] = []
  const find = new Map<string, number>()
  const nodeAt = (block: number, i: number, j: number): number => {
    const [p, q] = blocks[block].at(i, j)
    const [a, b] = [Math.round(p / apart), Math.round(q / apart)]
    for (let da = -1; da <= 1; da++)
      for (let db = -1; db <= 1; db++) {
        const found = find.get(`${a + da},${b + db}`)
        if (found !== undefined) return found
      }
    find.set(`${a},${b}`, nodes.length)
    X.push(p, q)
    return nodes.push({ block, i, j }) - 1
  }
  blocks.forEach(({ name, columns, rows }, block) => {
    for (let i = 0; i + 2 < columns; i += 2)
      for (let j = 0; j + 2 < rows; j += 2) {
        const ring = ringOf.map(([a, b]) => nodeAt(block, i + a, j + b))
        elements.push({ block: name, i: i / 2, j: j / 2, nodes: Int32Array.from(counterClockwise(collapsed(ring), X)) })
      }
  })
  return { nodes, elements, X }
}

/** Points of the sample shape closer than this are one, m; its nearest neighbours are 100 times farther apart. */
const apart = 1e-7
/** Corners, then middles of the sides, in half steps. */
const ringOf = [
  [0, 0],
  [2, 0],
  [2, 2],
  [0, 2],
  [1, 0],
  [2, 1],
  [1, 2],
  [0, 1],
] as const // prettier-ignore

/** A quadrilateral of which one side has shrunk to a point becomes a triangle. */
function collapsed(ring: number[]): number[] {
  const [a, b, c, d, ab, bc, cd, da] = ring
  if (a === d) return [a, b, c, ab, bc, cd]
  if (b === c) return [a, b, d, ab, cd, da]
  return ring
}

function counterClockwise(ring: number[], X: readonly number[]): number[] {
  const n = ring.length / 2
  let area = 0
  for (let k = 0; k < n; k++) {
    const [a, b] = [ring[k], ring[(k + 1) % n]]
    area += X[2 * a] * X[2 * b + 1] - X[2 * a + 1] * X[2 * b]
  }
  if (area > 0) return ring
  return [...ring.slice(0, n).reverse(), ...ring.slice(n, 2 * n - 1).reverse(), ring[2 * n - 1]]
}

const isAtCentre = ({ section: { N, R }, skin }: TeeShape, p: number, q: number): boolean => {
  const rho = Math.hypot(p, q)
  return Math.abs(Math.atan2(q, p) - Math.PI / N) * rho < apart && rho < R + skin + apart
}

/**
 * The loads are odd in q, so displacements along p are zero on the mid-plane; tube and skin may be held at the bay's centre
 * line; the inside as stated. 1 where a component is held.
 */
function heldComponents(shape: TeeShape, X: readonly number[], { inside, centreHeld }: TeeHolds): Uint8Array {
  const { section, wall } = shape
  const held = new Uint8Array(X.length)
  for (let node = 0; 2 * node < X.length; node++) {
    const [p, q] = [X[2 * node], X[2 * node + 1]]
    const rho = Math.hypot(p, q)
    const atCentre = centreHeld && isAtCentre(shape, p, q)
    const within = inside === 'held' && Math.abs(rho - (section.R - wall)) < apart
    if (q < apart || atCentre || within) held[2 * node] = 1
    if (atCentre || within) held[2 * node + 1] = 1
  }
  return held
}

/** The cut that severs the fin, half-way through the base bond and along the arc: the steps that lie before it. */
export const beforeCut = ({ refine }: TeeTopology): { readonly row: number; readonly column: number } => ({
  row: (refine * steps.end) / 2,
  column: refine * (steps.leg + steps.end / 2),
})
