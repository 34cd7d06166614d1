/**
 * Tractions on the lines of the T-section along which it can come apart, and forces through the cut that severs the fin.
 *
 * A line is a chain of sides that two elements share. Stresses are carried bilinearly from the Gauss points of both elements
 * to two points of the side, and the mean of the two tractions is taken; beside a feather edge the full element stands alone.
 * Normal traction is positive in tension. Between its two points a side's traction is linear.
 *
 * 'base bond', 'throat' and 'skin cut' together sever the fin from the body: half-way through the bond's thickness, from its
 * end to the middle of the arc, and through the skin there. How far their forces are from balancing the load tells the mesh.
 */
import { gauss } from './plane-element.ts'
import { type BlockName, steps } from './tee-shape.ts'
import type { TeeCase, TeeSolution } from './tee-solve.ts'
import { beforeCut, type TeeElement, type TeeTopology } from './tee-topology.ts'

/** Where the adhesive or the laminate can part. */
export type LineName = 'fin face' | 'body' | 'throat' | 'skin' | 'inside the skin' | 'base bond' | 'skin cut'

/** A side shared by two elements, as side `k` of each; `reversed` when the line runs against the first one's own direction. */
interface SharedSide {
  readonly first: { readonly e: number; readonly k: number }
  readonly second: { readonly e: number; readonly k: number }
  readonly nodes: readonly [number, number, number]
  readonly reversed: boolean
}

/** Tractions at the two Gauss points of each side of a line, the line's running length first. */
export interface LineTraction {
  /** Length of each side, m. */
  readonly length: Float64Array
  /** Pa, two a side. */
  readonly normal: Float64Array
  readonly along: Float64Array
  /** m and Pa along p and q, four a side: where, and what acts on the first element. */
  readonly place: Float64Array
  readonly force: Float64Array
}

interface LineSides {
  readonly inBlock: (e: TeeElement) => boolean
  readonly beside: (e: TeeElement) => boolean
  /** Puts the sides in the order in which the line runs. */
  readonly order: (e: TeeElement) => number
}

const only =
  (block: BlockName, test: (e: TeeElement) => boolean = () => true) =>
  (e: TeeElement): boolean =>
    e.block === block && test(e)

/** Fin face and throat run away from the right angle; body too; the skin from the fin to the body. */
function lineSides(topology: TeeTopology): { readonly [line in LineName]: LineSides } {
  const { row, column } = beforeCut(topology)
  const half = (topology.refine * steps.skin) / 2
  return {
    'fin face': { inBlock: only('fillet'), beside: only('core'), order: (e) => -e.i },
    body: { inBlock: only('fillet'), beside: only('wall'), order: (e) => e.i },
    throat: {
      inBlock: only('fillet', (e) => e.i === column - 1),
      beside: only('fillet', (e) => e.i === column),
      order: (e) => e.j,
    },
    skin: { inBlock: only('fillet'), beside: only('skinArc'), order: (e) => e.i },
    'inside the skin': {
      inBlock: only('skinArc', (e) => e.j === half - 1),
      beside: only('skinArc', (e) => e.j === half),
      order: (e) => e.i,
    },
    'base bond': {
      inBlock: only('bond', (e) => e.j === row),
      beside: only('bond', (e) => e.j === row - 1),
      order: (e) => e.i,
    },
    'skin cut': {
      inBlock: only('skinArc', (e) => e.i === column - 1),
      beside: only('skinArc', (e) => e.i === column),
      order: (e) => e.j,
    },
  }
}

export const lineNames = [
  'fin face',
  'body',
  'throat',
  'skin',
  'inside the skin',
  'base bond',
  'skin cut',
] as const satisfies readonly LineName[]

const chains = new WeakMap<TeeTopology, ReadonlyMap<LineName, readonly SharedSide[]>>()

function chainsOf(topology: TeeTopology): ReadonlyMap<LineName, readonly SharedSide[]> {
  const sides = lineSides(topology)
  const found =
    chains.get(topology) ?? new Map(lineNames.map((name) => [name, sharedSides(topology, sides[name])] as const))
  chains.set(topology, found)
  return found
}

const sidesOf = ({ nodes }: TeeElement): readonly (readonly [number, number, number])[] => {
  const n = nodes.length / 2
  return Array.from({ length: n }, (_, k) => [nodes[k], nodes[n + k], nodes[(k + 1) % n]] as const)
}

function sharedSides({ elements }: TeeTopology, { inBlock, beside, order }: LineSides): SharedSide[] {
  const others = new Map<number, { e: number; k: number }>()
  elements.forEach((element, e) => {
    if (!beside(element)) return
    sidesOf(element).forEach(([, middle], k) => {
      others.set(middle, { e, k })
    })
  })
  const found: { side: SharedSide; at: number }[] = []
  elements.forEach((element, e) => {
    if (!inBlock(element)) return
    sidesOf(element).forEach((nodes, k) => {
      const second = others.get(nodes[1])
      if (second === undefined) return
      found.push({ side: { first: { e, k }, second, nodes, reversed: false }, at: order(element) })
    })
  })
  const sides = found.sort((a, b) => a.at - b.at).map(({ side }) => side)
  return sides.map((side, n) => {
    const next = sides[n + 1]
    const last = sides[n - 1]
    const runsOn = next === undefined ? last.nodes.includes(side.nodes[0]) : next.nodes.includes(side.nodes[2])
    return { ...side, reversed: !runsOn }
  })
}

export function lineTraction(solution: TeeSolution, { stress }: TeeCase, name: LineName): LineTraction {
  const { topology, X } = solution
  const sides = chainsOf(topology).get(name) as readonly SharedSide[]
  const length = new Float64Array(sides.length)
  const normal = new Float64Array(2 * sides.length)
  const along = new Float64Array(2 * sides.length)
  const place = new Float64Array(4 * sides.length)
  const force = new Float64Array(4 * sides.length)
  sides.forEach(({ first, second, nodes, reversed }, n) => {
    for (const [at, s] of [-gauss, gauss].entries()) {
      const [tp, tq] = tangent(X, nodes, s)
      const size = Math.hypot(tp, tq)
      const [np, nq] = [tq / size, -tp / size] // outward: the element's nodes run counter-clockwise
      const [pp, qq, pq] = meanStress(topology, stress, [
        { ...first, s },
        { ...second, s: -s },
      ])
      const [fp, fq] = [pp * np + pq * nq, pq * np + qq * nq]
      const k = 2 * n + (reversed ? 1 - at : at)
      normal[k] = fp * np + fq * nq
      along[k] = (fp * tp + fq * tq) / size
      place.set(onSide(X, nodes, s), 2 * k)
      force.set([fp, fq], 2 * k)
      length[n] += size
    }
  })
  return { length, normal, along, place, force }
}

/** ∂x/∂s of a side at s = −1 … 1: half its length where the middle node is in the middle. */
function tangent(X: Float64Array, [a, m, b]: SharedSide['nodes'], s: number): readonly [number, number] {
  const at = (c: number): number => (s - 0.5) * X[2 * a + c] - 2 * s * X[2 * m + c] + (s + 0.5) * X[2 * b + c]
  return [at(0), at(1)]
}

function onSide(X: Float64Array, [a, m, b]: SharedSide['nodes'], s: number): readonly [number, number] {
  const at = (c: number): number =>
    ((s * s - s) / 2) * X[2 * a + c] + (1 - s * s) * X[2 * m + c] + ((s * s + s) / 2) * X[2 * b + c]
  return [at(0), at(1)]
}

interface SidePoint {
  readonly e: number
  readonly k: number
  readonly s: number
}

function meanStress(
  { elements }: TeeTopology,
  stress: Float64Array,
  points: readonly SidePoint[],
): readonly [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0]
  let count = 0
  for (const { e, k, s } of points) {
    if (elements[e].nodes.length !== 8) continue
    const [x, y] = sidePoints[k](s)
    corners.forEach(([a, b], g) => {
      const weight = ((1 + (a * x) / gauss) * (1 + (b * y) / gauss)) / 4
      for (let c = 0; c < 3; c++) sum[c] += weight * stress[(4 * e + g) * 3 + c]
    })
    count++
  }
  return [sum[0] / count, sum[1] / count, sum[2] / count]
}

const corners = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
] as const
/** Natural coordinates along side k of a quadrilateral. */
const sidePoints: readonly ((s: number) => readonly [number, number])[] = [
  (s) => [s, -1],
  (s) => [1, s],
  (s) => [-s, 1],
  (s) => [-1, -s],
]

/** What acts on the fin's side of a line, on the side q > 0: N/m along p and q, and N about a point, from p towards q. */
export interface LineForce {
  readonly p: number
  readonly q: number
  readonly moment: number
}

export function lineForce({ length, force, place }: LineTraction, [p0, q0]: readonly [number, number]): LineForce {
  let [p, q, moment] = [0, 0, 0]
  for (let k = 0; k < force.length; k += 2) {
    const w = length[k >> 2] / 2
    const [fp, fq] = [w * force[k], w * force[k + 1]]
    p += fp
    q += fq
    moment += (place[k] - p0) * fq - (place[k + 1] - q0) * fp
  }
  return { p, q, moment }
}
