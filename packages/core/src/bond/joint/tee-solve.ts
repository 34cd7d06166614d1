/**
 * Stresses in the T-section under a unit shear force and a unit moment per length of root, by plane-strain finite elements.
 *
 *   K u = F      σ = C̄ B u at the Gauss points      C̄: each layer's stiffness turned along its line
 *
 * Loads are odd about the fin's mid-plane (one face in tension as the other is in compression), so half the section is solved
 * and carries half of them. V acts on the fin towards −q and M opens the side q > 0: both are positive for an air load on the
 * fin towards −q. They enter as tractions of beam theory on the cut fin at height p, where the moment is M − V (p − R):
 *
 *   σp = E′ κ q      τ = (V / EI) ∫ E′ q dq from q to the outer face      E′ = E1 / (1 − ν12² E2 / E1)
 *
 * Elements and their quadrature: plane-element.ts. Saint-Venant: what the distribution at the cut gets wrong dies out within
 * about one thickness of the fin.
 */
import { invariant } from '../../issue.ts'
import { rotated } from '../../laminate/lamina.ts'
import { factorLdl, solveLdl } from '../../numeric/ldl.ts'
import { packed, zeroMatrix } from '../../numeric/sparse.ts'
import { type LayerModuli, planeStrainStiffness } from './layer-moduli.ts'
import { addStiffness, type ElementRule, gradients, quadrilateral, triangle } from './plane-element.ts'
import type { BlockName, TeeShape } from './tee-shape.ts'
import { type InsideTube, type TeeElement, type TeeTopology, teeCoordinates, teeTopology } from './tee-topology.ts'

export interface TeeLayers {
  readonly core: LayerModuli
  readonly skin: LayerModuli
  readonly wall: LayerModuli
  readonly adhesive: LayerModuli
}

export interface TeeInput {
  readonly shape: TeeShape
  readonly layers: TeeLayers
  readonly inside: InsideTube
  /** Multiplies the number of elements each way; to see what the mesh costs. Default 1. */
  readonly refine?: number
}

/** Fields under one unit load. */
export interface TeeCase {
  /** N/m and N: what is 1 in this case. */
  readonly load: { readonly V: number; readonly M: number }
  /** Pa, over (pp, qq, pq) at Gauss point g of element e: `stress[(4 e + g) 3]`. */
  readonly stress: Float64Array
}

export interface TeeSolution {
  readonly shape: TeeShape
  readonly topology: TeeTopology
  /** m, 2 per node. */
  readonly X: Float64Array
  readonly shear: TeeCase
  readonly moment: TeeCase
}

const layerOf: { readonly [block in BlockName]: keyof TeeLayers } = {
  core: 'core',
  bond: 'adhesive',
  fillet: 'adhesive',
  wall: 'wall',
  skinFin: 'skin',
  skinArc: 'skin',
  skinBody: 'skin',
}

export const ruleOf = ({ nodes }: TeeElement): ElementRule => (nodes.length === 8 ? quadrilateral : triangle)

export function solveTee({ shape, layers, inside, refine = 1 }: TeeInput): TeeSolution {
  const topology = teeTopology(inside, refine)
  const X = teeCoordinates(topology, shape)
  const stiffness = layerStiffness(shape, layers)
  const K = assemble(topology, X, stiffness)
  const factors = factorLdl(topology.analysis, K)
  invariant(factors.singularAt < 0 && factors.negativePivots === 0, 'the T-section is held and its layers are stable')
  const solve = (load: TeeCase['load']): TeeCase => {
    const F = endForces({ shape, layers, topology, X }, load)
    const b = new Float64Array(K.pattern.n)
    topology.unknown.forEach((i, component) => {
      if (i >= 0) b[i] = F[component]
    })
    const x = solveLdl(factors, b)
    const u = Float64Array.from(topology.unknown, (i) => (i < 0 ? 0 : x[i]))
    return { load, stress: stresses(topology, X, { u, stiffness }) }
  }
  return { shape, topology, X, shear: solve({ V: 1, M: 0 }), moment: solve({ V: 0, M: 1 }) }
}

/** C̄ of a block at a point, Pa, 3 × 3 row-major. */
type Stiffness = (block: BlockName, p: number, q: number) => ArrayLike<number>

function layerStiffness({ section }: TeeShape, layers: TeeLayers): Stiffness {
  const plain = (m: LayerModuli): Float64Array => {
    const { C11, C13, C33, G13 } = planeStrainStiffness(m)
    return Float64Array.of(C11, C13, 0, C13, C33, 0, 0, 0, G13)
  }
  const own = { core: plain(layers.core), skin: plain(layers.skin), wall: plain(layers.wall) }
  const adhesive = plain(layers.adhesive)
  const { xc, h, r } = section
  return (block, p, q) => {
    switch (block) {
      case 'bond':
      case 'fillet':
        return adhesive
      case 'core':
        return own.core
      case 'skinFin':
        return own.skin
      case 'skinArc': // along the circle about (xc, h + r)
        return rotated(own.skin, Math.atan2(xc - p, q - h - r))
      case 'skinBody':
      case 'wall': // along the circle about the tube's axis
        return rotated(own[layerOf[block] === 'skin' ? 'skin' : 'wall'], Math.atan2(p, -q))
    }
  }
}

/** Coordinates of an element's nodes into `out`. */
function elementCoordinates({ nodes }: TeeElement, X: Float64Array, out: Float64Array): void {
  for (let a = 0; a < nodes.length; a++) {
    out[2 * a] = X[2 * nodes[a]]
    out[2 * a + 1] = X[2 * nodes[a] + 1]
  }
}

/** Where Gauss point `k` lies. */
function pointOf({ N, nodes }: ElementRule, k: number, own: Float64Array): readonly [number, number] {
  let [p, q] = [0, 0]
  for (let a = 0; a < nodes; a++) {
    p += N[k][a] * own[2 * a]
    q += N[k][a] * own[2 * a + 1]
  }
  return [p, q]
}

function assemble({ elements, plan }: TeeTopology, X: Float64Array, stiffness: Stiffness) {
  const K = zeroMatrix(plan.pattern)
  const own = new Float64Array(16)
  const dN = new Float64Array(16)
  const Ke = new Float64Array(packed(16))
  elements.forEach((element, e) => {
    const rule = ruleOf(element)
    elementCoordinates(element, X, own)
    Ke.fill(0)
    for (let k = 0; k < rule.points.length; k++) {
      const w = gradients(rule, k, own, dN)
      invariant(w > 0, `element ${e} of the T-section (${element.block}) is turned inside out`)
      const [p, q] = pointOf(rule, k, own)
      addStiffness(Ke, rule.nodes, { dN, C: stiffness(element.block, p, q), w })
    }
    const from = e * packed(16)
    for (let k = 0; k < packed(2 * rule.nodes); k++) {
      const at = plan.slot[from + k]
      if (at >= 0) K.value[at] += Ke[k]
    }
  })
  return K
}

interface Deformed {
  readonly u: Float64Array
  readonly stiffness: Stiffness
}

function stresses({ elements }: TeeTopology, X: Float64Array, { u, stiffness }: Deformed): Float64Array {
  const stress = new Float64Array(12 * elements.length)
  const own = new Float64Array(16)
  const dN = new Float64Array(16)
  elements.forEach((element, e) => {
    const rule = ruleOf(element)
    elementCoordinates(element, X, own)
    for (let k = 0; k < rule.points.length; k++) {
      gradients(rule, k, own, dN)
      let [pp, qq, pq] = [0, 0, 0]
      element.nodes.forEach((node, a) => {
        pp += dN[2 * a] * u[2 * node]
        qq += dN[2 * a + 1] * u[2 * node + 1]
        pq += dN[2 * a + 1] * u[2 * node] + dN[2 * a] * u[2 * node + 1]
      })
      const [p, q] = pointOf(rule, k, own)
      const C = stiffness(element.block, p, q)
      for (let c = 0; c < 3; c++) stress[(4 * e + k) * 3 + c] = C[3 * c] * pp + C[3 * c + 1] * qq + C[3 * c + 2] * pq
    }
  })
  return stress
}

interface Loaded {
  readonly shape: TeeShape
  readonly layers: TeeLayers
  readonly topology: TeeTopology
  readonly X: Float64Array
}

/** Nodal forces of the tractions on the cut fin, 2 per node. Three points integrate shear times shape function exactly. */
function endForces({ shape, layers, topology, X }: Loaded, { V, M }: TeeCase['load']): Float64Array {
  const { R, h, xc } = shape.section
  const [Ec, Es] = [bendingModulus(layers.core), bendingModulus(layers.skin)]
  const H = h + shape.skin
  const EI = (2 / 3) * (Ec * h ** 3 + Es * (H ** 3 - h ** 3))
  const kappa = (M - V * (xc + shape.above - R)) / EI
  const shear = (q: number): number =>
    (V / (2 * EI)) * (Es * (H ** 2 - Math.max(q, h) ** 2) + Ec * (h ** 2 - Math.min(q, h) ** 2))
  const F = new Float64Array(X.length)
  for (const { block, i, nodes } of topology.elements) {
    if ((block !== 'core' && block !== 'skinFin') || i > 0) continue
    const E = block === 'core' ? Ec : Es
    const edge = topEdge(nodes, X)
    const [q0, q1] = [X[2 * edge[0] + 1], X[2 * edge[2] + 1]]
    for (const [s, weight] of threePoints) {
      const q = q0 + ((s + 1) / 2) * (q1 - q0)
      const w = (weight * Math.abs(q1 - q0)) / 2
      const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2]
      edge.forEach((node, a) => {
        F[2 * node] += N[a] * w * E * kappa * q
        F[2 * node + 1] -= N[a] * w * shear(q)
      })
    }
  }
  return F
}

const threePoints = [
  [-Math.sqrt(0.6), 5 / 9],
  [0, 8 / 9],
  [Math.sqrt(0.6), 5 / 9],
] as const

const bendingModulus = ({ E1, E2, nu12 }: LayerModuli): number => E1 / (1 - (nu12 ** 2 * E2) / E1)

/** Corner, middle, corner of the side that lies farthest out. */
function topEdge(nodes: Int32Array, X: Float64Array): readonly [number, number, number] {
  let best = 0
  for (let k = 1; k < 4; k++) if (X[2 * nodes[4 + k]] > X[2 * nodes[4 + best]]) best = k
  return [nodes[best], nodes[4 + best], nodes[(best + 1) % 4]]
}
