/**
 * How plies and laminates expand, and how a laminate that is not balanced warps as it cools.
 *
 * 1. A unidirectional layer, fibre f and matrix m (Schapery, J. Compos. Mater. 2 (1968) 380, recalled; across the fibre in the
 *    form for transversely isotropic fibres of Kaw, Mechanics of Composite Materials, 2nd ed., eq. 3.95, recalled):
 *
 *      α1 = (Vf Ef αf1 + Vm Em αm) / (Vf Ef + Vm Em)      α2 = (1 + νf) αf2 Vf + (1 + νm) αm Vm − α1 ν12         1/K
 *
 * 2. Cloth is the 0/90 crossply of two such layers, w of the fibre along the warp, as in `ply.ts`: free of force,
 *
 *      α = (w Q(0) + (1 − w) Q(90))⁻¹ (w Q(0) α(0) + (1 − w) Q(90) α(90))
 *
 * 3. A laminate, ΔT from the temperature at which it is free of stress (Jones, Mechanics of Composite Materials, sec. 4.4;
 *    Kaw, eqs 4.64 to 4.67; both recalled):
 *
 *      N = ΔT Σ Q̄ ᾱ (z₁ − z₀)   N/m     M = ΔT Σ Q̄ ᾱ (z₁² − z₀²) / 2   N     ᾱ = (α1 c² + α2 s², α1 s² + α2 c², 2 (α1 − α2) s c)
 *      ε⁰ = a N + b M                    κ = bᵀ N + d M                       1, 1/m
 *
 * Linear elastic: what resin relaxes while warm and what it shrinks as it sets are left out. The first makes the answer too
 * large; the second adds to it as if the temperature had fallen further.
 */

import { invariant } from '../issue.ts'
import { epoxyExpansion, fibreExpansion } from '../material/expansion.ts'
import type { Mat3 } from '../numeric/mat3.ts'
import { addScaled, apply3, inverse3, zeros3 } from '../numeric/mat3.ts'
import { type LaminateCompliance, type LaminateStrain, strainUnder } from './compliance.ts'
import { type Lamina, reducedStiffness, rotated, rotatedStiffness } from './lamina.ts'
import { type Layer, totalThickness } from './layer.ts'
import { unidirectional } from './micromechanics.ts'
import type { PlyRecipe } from './ply.ts'

/** Along axis 1 (warp, grain) and across it, 1/K. */
export interface PlyExpansion {
  readonly alpha1: number
  readonly alpha2: number
}

export interface ExpandingLayer extends Layer {
  readonly expansion: PlyExpansion
}

interface Constituents {
  readonly fibre: { readonly E1: number; readonly nu12: number; readonly along: number; readonly across: number }
  readonly matrix: { readonly E: number; readonly nu: number; readonly alpha: number }
  readonly Vf: number
}

/** Step 1. */
export function unidirectionalExpansion({ fibre, matrix, Vf }: Constituents): PlyExpansion {
  const Vm = 1 - Vf
  const alpha1 = (Vf * fibre.E1 * fibre.along + Vm * matrix.E * matrix.alpha) / (Vf * fibre.E1 + Vm * matrix.E)
  const nu12 = Vf * fibre.nu12 + Vm * matrix.nu
  const alpha2 = (1 + fibre.nu12) * fibre.across * Vf + (1 + matrix.nu) * matrix.alpha * Vm - alpha1 * nu12
  return { alpha1, alpha2 }
}

/** Steps 1 and 2: a cured ply of cloth; a veil expands as a mat of fibre in every direction. */
export function clothExpansion({ cloth, resin }: PlyRecipe, Vf: number): PlyExpansion {
  const { fibre, warpShare } = cloth
  const { along, across } = fibreExpansion(fibre)
  const matrix = { E: resin.E.value, nu: resin.nu.value, alpha: epoxyExpansion.value }
  const stiff = { E1: fibre.E1.value, E2: fibre.E2.value, G12: fibre.G12.value, nu12: fibre.nu12.value }
  const ud = unidirectional(stiff, matrix, { fibre: Vf, matrix: 1 - Vf })
  const { alpha1, alpha2 } = unidirectionalExpansion({
    fibre: { E1: stiff.E1, nu12: stiff.nu12, along: along.value, across: across.value },
    matrix,
    Vf,
  })
  const w = cloth.weave === 'veil' ? 0.5 : warpShare.value
  const Q0 = reducedStiffness({ ...ud, G13: ud.G12, G23: ud.G12 })
  const Q90 = rotated(Q0, Math.PI / 2)
  const Q = zeros3()
  addScaled(Q, Q0, w)
  addScaled(Q, Q90, 1 - w)
  const [force0, force90] = [apply3(Q0, [alpha1, alpha2, 0]), apply3(Q90, [alpha2, alpha1, 0])]
  const inverse = inverse3(Q)
  invariant(inverse !== null, 'the stiffness of a ply with positive moduli can be inverted')
  const alpha = apply3(
    inverse,
    force0.map((f, i) => w * f + (1 - w) * force90[i]!),
  )
  return { alpha1: alpha[0]!, alpha2: alpha[1]! }
}

/** Step 3: strain of the reference plane and curvature of a free laminate after a change of temperature, K. */
export function thermalStrain(
  layers: readonly ExpandingLayer[],
  compliance: LaminateCompliance,
  change: { readonly temperature: number; readonly reference?: number },
): LaminateStrain {
  const { temperature, reference = totalThickness(layers) / 2 } = change
  const N = new Float64Array(3)
  const M = new Float64Array(3)
  let z0 = -reference
  for (const { lamina, theta, t, expansion } of layers) {
    const z1 = z0 + t
    const force = thermalForce(lamina, theta, expansion)
    for (let i = 0; i < 3; i++) {
      N[i]! += temperature * force[i]! * (z1 - z0)
      M[i]! += (temperature * force[i]! * (z1 ** 2 - z0 ** 2)) / 2
    }
    z0 = z1
  }
  return strainUnder(compliance, { N, M })
}

/** Q̄ ᾱ, Pa/K. */
function thermalForce(lamina: Lamina, theta: number, { alpha1, alpha2 }: PlyExpansion): ArrayLike<number> {
  const c = Math.cos(theta)
  const s = Math.sin(theta)
  const Qbar: Mat3 = rotatedStiffness(lamina, theta)
  return apply3(Qbar, [alpha1 * c * c + alpha2 * s * s, alpha1 * s * s + alpha2 * c * c, 2 * (alpha1 - alpha2) * s * c])
}
