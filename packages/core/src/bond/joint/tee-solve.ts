/**
 * Stresses in the T-section under a unit shear force and a unit moment per length of root, by plane-strain finite elements.
 *
 *   K u = F      σ = C̄ B u at the Gauss points      C̄: each layer's stiffness turned along its line
 *
 * Loads are odd about the fin's mid-plane (one face in tension as the other is in compression), so half the section is solved
 * and carries half of them. V acts on the fin towards −q and M opens the side q > 0: both are positive for an air load on the
 * fin towards −q. They enter on the cut fin (tee-loads.ts).
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
import { cutHeight, endForces, finBending, type UnitLoad } from './tee-loads.ts'
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

/** Fields under one unit load: 1 N/m or 1 N. */
export interface TeeCase {
  readonly load: UnitLoad
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
  readonly flexibility: RootFlexibility
}

/**
 * How much more the fin turns at its root than a fin clamped on the root line, rad: towards −q per N·m/m of M (1/N) and per
 * N/m of V (m/N). Work of the unit moment's forces less the bending of the fin between the root line and the cut; negative
 * where the fillets stiffen the fin by more than the joint and the tube's wall give.
 */
export interface RootFlexibility {
  readonly perMoment: number
  readonly perShear: number
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
  const fin = { shape, core: layers.core, skin: layers.skin }
  const factors = factorLdl(topology.analysis, K)
  invariant(factors.singularAt < 0 && factors.negativePivots === 0, 'the T-section is held and its layers are stable')
  const solve = (load: UnitLoad) => {
    const F = endForces(fin, { topology, X }, load)
    const b = new Float64Array(K.pattern.n)
    topology.unknown.forEach((i, component) => {
      if (i >= 0) b[i] = F[component]
    })
    const x = solveLdl(factors, b)
    const u = Float64Array.from(topology.unknown, (i) => (i < 0 ? 0 : x[i]))
    return { F, u, fields: { load, stress: stresses(topology, X, { u, stiffness }) } }
  }
  const [shear, moment] = [solve({ V: 1, M: 0 }), solve({ V: 0, M: 1 })]
  const work = (u: Float64Array): number => 2 * moment.F.reduce((sum, f, k) => sum + f * u[k], 0) // both halves
  const [L, { EI }] = [cutHeight(shape), finBending(fin)]
  const flexibility = { perMoment: work(moment.u) - L / EI, perShear: work(shear.u) + L ** 2 / (2 * EI) }
  return { shape, topology, X, shear: shear.fields, moment: moment.fields, flexibility }
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
