/**
 * The loads of the T-section: tractions of beam theory on the fin cut at height p, where the moment is M − V (p − R).
 *
 *   σp = E′ κ q      τ = (V / EI) ∫ E′ q dq from q to the outer face      E′ = E1 / (1 − ν12² E2 / E1)      EI = ∫ E′ q² dq
 *
 * The fin runs straight through to the cut, core and skins at one curvature κ. Per length of root: V N/m, M N, EI N·m.
 */
import type { LayerModuli } from './layer-moduli.ts'
import type { TeeShape } from './tee-shape.ts'
import type { TeeTopology } from './tee-topology.ts'

export interface UnitLoad {
  readonly V: number
  readonly M: number
}

export interface CutFin {
  readonly shape: TeeShape
  readonly core: LayerModuli
  readonly skin: LayerModuli
}

/** Length of fin between the root line and the cut, m. */
export const cutHeight = ({ section: { R, xc }, above }: TeeShape): number => xc + above - R

export interface FinBending {
  /** E′ of core and skin, Pa. */
  readonly core: number
  readonly skin: number
  readonly EI: number
}

export function finBending({ shape: { section, skin: t }, core, skin }: CutFin): FinBending {
  const [Ec, Es] = [bendingModulus(core), bendingModulus(skin)]
  const { h } = section
  return { core: Ec, skin: Es, EI: (2 / 3) * (Ec * h ** 3 + Es * ((h + t) ** 3 - h ** 3)) }
}

const bendingModulus = ({ E1, E2, nu12 }: LayerModuli): number => E1 / (1 - (nu12 ** 2 * E2) / E1)

/** Nodal forces on the half section, 2 per node. Three points integrate shear times shape function exactly. */
export function endForces(fin: CutFin, { topology, X }: { topology: TeeTopology; X: Float64Array }, load: UnitLoad) {
  const { V, M } = load
  const { section, skin } = fin.shape
  const { h } = section
  const H = h + skin
  const { core: Ec, skin: Es, EI } = finBending(fin)
  const kappa = (M - V * cutHeight(fin.shape)) / EI
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

/** Corner, middle, corner of the side that lies farthest out. */
function topEdge(nodes: Int32Array, X: Float64Array): readonly [number, number, number] {
  let best = 0
  for (let k = 1; k < 4; k++) if (X[2 * nodes[4 + k]] > X[2 * nodes[4 + best]]) best = k
  return [nodes[best], nodes[4 + best], nodes[(best + 1) % 4]]
}
