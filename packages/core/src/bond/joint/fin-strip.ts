/**
 * The fin near its root as a strip across it: bending and shear of core, fillets and skins, in plane strain.
 *
 *   EI = ∫ E′ z² dz      1/S = (1/EI²) ∫ (∫ E′ z dz)² / G dz      E′ = E1 / (1 − ν12² E2 / E1)
 *
 * and what a strip held on the root line gives at height L under V and M of the root line (M − V y at height y):
 *
 *   F = ∫₀ᴸ (y²/EI + 1/S    −y/EI) dy
 *           (−y/EI            1/EI)
 *
 * Per length of root: EI N·m, S N/m, F over (V, M).
 */
import { filletThickness } from '../fillet-layer.ts'
import type { BaySection } from '../section.ts'
import type { LayerModuli } from './layer-moduli.ts'

/** Symmetric 2 × 2 over (V, M): VV m²/N, VM m/N, MM 1/N. */
export interface Flexibility {
  readonly VV: number
  readonly VM: number
  readonly MM: number
}

export interface FinStrip {
  readonly section: BaySection
  readonly skin: { readonly t: number; readonly moduli: LayerModuli }
  readonly core: LayerModuli
  readonly adhesive: { readonly E: number; readonly G: number }
}

const bendingModulus = ({ E1, E2, nu12 }: LayerModuli): number => E1 / (1 - (nu12 ** 2 * E2) / E1)

/** EI and S of the fin with `e` of adhesive under each skin. */
export function stripSection({ section: { h }, skin, core, adhesive }: FinStrip, e: number): { EI: number; S: number } {
  const { E, G } = adhesive
  const layers = [
    { from: 0, to: h, E: bendingModulus(core), G: core.G13 },
    { from: h, to: h + e, E: E / (1 - (E / (2 * G) - 1) ** 2), G },
    { from: h + e, to: h + e + skin.t, E: bendingModulus(skin.moduli), G: skin.moduli.G13 },
  ]
  let EI = 0
  for (const layer of layers) EI += (2 / 3) * layer.E * (layer.to ** 3 - layer.from ** 3)
  let [outside, sum] = [0, 0] // ∫ E′ z dz from a layer's outer face to the skin's, and ∫ τ²/G for a shear force EI
  for (const { from, to, E: own, G: shear } of layers.toReversed()) {
    for (const [x, weight] of gauss3) {
      const z = from + x * (to - from)
      sum += (weight * (to - from) * (outside + (own * (to ** 2 - z ** 2)) / 2) ** 2) / shear
    }
    outside += (own * (to ** 2 - from ** 2)) / 2
  }
  return { EI, S: EI ** 2 / (2 * sum) }
}

const gauss3 = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 4 / 9],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const

/** Panels of three points over the fillet's height. */
const panels = 12

/** Up to height L, which lies above the fillet; `fillets` false leaves them out. */
export function stripFlexibility(strip: FinStrip, L: number, fillets: boolean): Flexibility {
  const top = fillets ? strip.section.xc - strip.section.R : 0
  const plain = stripSection(strip, 0)
  const above = L - top
  let [VV, VM, MM] = [
    (L ** 3 - top ** 3) / (3 * plain.EI) + above / plain.S,
    -(L ** 2 - top ** 2) / (2 * plain.EI),
    above / plain.EI,
  ]
  for (let panel = 0; panel < (top > 0 ? panels : 0); panel++)
    for (const [x, weight] of gauss3) {
      const y = ((panel + x) * top) / panels
      const { EI, S } = stripSection(strip, filletThickness(strip.section, y))
      const w = (weight * top) / panels
      VV += w * (y ** 2 / EI + 1 / S)
      VM -= (w * y) / EI
      MM += w / EI
    }
  return { VV, VM, MM }
}
