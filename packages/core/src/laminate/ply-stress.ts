/**
 * Stresses in the plies of a laminate that is stretched and bent: ε = ε⁰ + z κ, σ = Q̄ ε, then turned into ply axes.
 *
 *   σ1 = c² σx + s² σy + 2 s c τxy      σ2 = s² σx + c² σy − 2 s c τxy      τ12 = −s c σx + s c σy + (c² − s²) τxy
 *
 * Within a layer the stress is linear in z, so its two faces bound it. Source: Nettles, NASA RP-1351 (1994), eqs 10 and 22.
 */
import { apply3 } from '../numeric/mat3.ts'
import type { LaminateStrain } from './compliance.ts'
import { rotatedStiffness } from './lamina.ts'
import { type Layer, totalThickness } from './layer.ts'
import type { LaminateSection } from './stiffness.ts'

/** In a layer's own axes, Pa. */
export interface PlyStress {
  readonly s1: number
  readonly s2: number
  readonly t12: number
}

export interface FaceStress {
  /** Height above the reference plane, m. */
  readonly z: number
  /** Over (xx, yy, xy), Pa. */
  readonly global: Float64Array
  readonly ply: PlyStress
}

export interface LayerStress {
  readonly layer: Layer
  readonly bottom: FaceStress
  readonly top: FaceStress
}

/** Stresses at both faces of every layer, bottom layer first. */
export function plyStresses(
  { layers, reference = totalThickness(layers) / 2 }: LaminateSection,
  state: LaminateStrain,
): LayerStress[] {
  let z0 = -reference
  return layers.map((layer) => {
    const z1 = z0 + layer.t
    const bottom = stressAt(layer, z0, state)
    const top = stressAt(layer, z1, state)
    z0 = z1
    return { layer, bottom, top }
  })
}

/** Stress over (xx, yy, xy) turned by theta into ply axes. */
export function inPlyAxes(stress: ArrayLike<number>, theta: number): PlyStress {
  const sx = stress[0]
  const sy = stress[1]
  const txy = stress[2]
  const c = Math.cos(theta)
  const s = Math.sin(theta)
  return {
    s1: c * c * sx + s * s * sy + 2 * s * c * txy,
    s2: s * s * sx + c * c * sy - 2 * s * c * txy,
    t12: s * c * (sy - sx) + (c * c - s * s) * txy,
  }
}

function stressAt({ lamina, theta }: Layer, z: number, { strain, curvature }: LaminateStrain): FaceStress {
  const total = [0, 1, 2].map((i) => strain[i] + z * curvature[i])
  const global = apply3(rotatedStiffness(lamina, theta), total)
  return { z, global, ply: inPlyAxes(global, theta) }
}
