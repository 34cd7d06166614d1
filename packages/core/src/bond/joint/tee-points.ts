/**
 * What the elements of one T-section have at their Gauss points: derivatives of the shape functions, area, and the stiffness
 * of the layer turned along its line. Found once for a section and used by its stiffness, its stresses and its energy.
 */
import { invariant } from '../../issue.ts'
import { rotated } from '../../laminate/lamina.ts'
import { packed, type SymmetricMatrix, zeroMatrix } from '../../numeric/sparse.ts'
import { type LayerModuli, planeStrainStiffness } from './layer-moduli.ts'
import { addStiffness, type ElementRule, gradients, quadrilateral, triangle } from './plane-element.ts'
import type { BlockName, TeeShape } from './tee-shape.ts'
import type { TeeElement, TeeTopology } from './tee-topology.ts'

export interface TeeLayers {
  readonly core: LayerModuli
  readonly skin: LayerModuli
  readonly wall: LayerModuli
  readonly adhesive: LayerModuli
}

/** Point g of element e is number 4 e + g. */
export interface TeePoints {
  /** ∂N/∂p, ∂N/∂q of the element's nodes: 16 a point. */
  readonly dN: Float64Array
  /** Area that the point stands for, m²; zero where an element has no such point. */
  readonly area: Float64Array
  /** Pa over (pp, qq, pq), 3 × 3 row-major; one object where nothing turns. */
  readonly C: readonly ArrayLike<number>[]
}

export const ruleOf = ({ nodes }: TeeElement): ElementRule => (nodes.length === 8 ? quadrilateral : triangle)

export function teePoints({ elements }: TeeTopology, X: Float64Array, shape: TeeShape, layers: TeeLayers): TeePoints {
  const stiffness = layerStiffness(shape, layers)
  const dN = new Float64Array(64 * elements.length)
  const area = new Float64Array(4 * elements.length)
  const C: ArrayLike<number>[] = new Array(4 * elements.length)
  const own = new Float64Array(16)
  for (let e = 0; e < elements.length; e++) {
    const { block, nodes } = elements[e]
    const rule = ruleOf(elements[e])
    for (let a = 0; a < nodes.length; a++) {
      own[2 * a] = X[2 * nodes[a]]
      own[2 * a + 1] = X[2 * nodes[a] + 1]
    }
    for (let k = 0; k < rule.points.length; k++) {
      const at = 4 * e + k
      area[at] = gradients(rule, k, own, dN.subarray(16 * at, 16 * at + 16))
      invariant(area[at] > 0, `element ${e} of the T-section (${block}) is turned inside out`)
      let [p, q] = [0, 0]
      for (let a = 0; a < nodes.length; a++) {
        p += rule.N[k][a] * own[2 * a]
        q += rule.N[k][a] * own[2 * a + 1]
      }
      C[at] = stiffness(block, p, q)
    }
  }
  return { dN, area, C }
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
      case 'skinBody': // along the circle about the tube's axis
        return rotated(own.skin, Math.atan2(p, -q))
      case 'wall':
        return rotated(own.wall, Math.atan2(p, -q))
    }
  }
}

export function teeStiffness({ elements, plan }: TeeTopology, { dN, area, C }: TeePoints): SymmetricMatrix {
  const K = zeroMatrix(plan.pattern)
  const Ke = new Float64Array(packed(16))
  for (let e = 0; e < elements.length; e++) {
    const { nodes } = elements[e]
    Ke.fill(0)
    for (let at = 4 * e; at < 4 * e + 4; at++) {
      if (area[at] === 0) continue
      addStiffness(Ke, nodes.length, { dN: dN.subarray(16 * at, 16 * at + 16), C: C[at], w: area[at] })
    }
    const from = e * packed(16)
    for (let k = 0; k < packed(2 * nodes.length); k++) {
      const slot = plan.slot[from + k]
      if (slot >= 0) K.value[slot] += Ke[k]
    }
  }
  return K
}

/** Pa, over (pp, qq, pq): `stress[3 (4 e + g)]`. */
export function teeStresses({ elements }: TeeTopology, { dN, area, C }: TeePoints, u: Float64Array): Float64Array {
  const stress = new Float64Array(12 * elements.length)
  for (let e = 0; e < elements.length; e++) {
    const { nodes } = elements[e]
    for (let at = 4 * e; at < 4 * e + 4; at++) {
      if (area[at] === 0) continue
      let pp = 0
      let qq = 0
      let pq = 0
      for (let a = 0, d = 16 * at; a < nodes.length; a++, d += 2) {
        const up = u[2 * nodes[a]]
        const uq = u[2 * nodes[a] + 1]
        pp += dN[d] * up
        qq += dN[d + 1] * uq
        pq += dN[d + 1] * up + dN[d] * uq
      }
      const own = C[at]
      for (let c = 0; c < 3; c++) stress[3 * at + c] = own[3 * c] * pp + own[3 * c + 1] * qq + own[3 * c + 2] * pq
    }
  }
  return stress
}

/** Energy of displacements u against the stresses of another (or the same) case, by block, N: ∫ σ · ε dA of the half section. */
export function teeEnergy(
  { elements }: TeeTopology,
  { dN, area }: TeePoints,
  { u, stress }: { readonly u: Float64Array; readonly stress: Float64Array },
): { readonly [block in BlockName]: number } {
  const sum = { core: 0, bond: 0, fillet: 0, wall: 0, skinFin: 0, skinArc: 0, skinBody: 0 }
  for (let e = 0; e < elements.length; e++) {
    const { nodes, block } = elements[e]
    for (let at = 4 * e; at < 4 * e + 4; at++) {
      if (area[at] === 0) continue
      let work = 0
      for (let a = 0, d = 16 * at; a < nodes.length; a++, d += 2) {
        const [sp, sq, spq] = [stress[3 * at], stress[3 * at + 1], stress[3 * at + 2]]
        work += (sp * dN[d] + spq * dN[d + 1]) * u[2 * nodes[a]] + (sq * dN[d + 1] + spq * dN[d]) * u[2 * nodes[a] + 1]
      }
      sum[block] += area[at] * work
    }
  }
  return sum
}
