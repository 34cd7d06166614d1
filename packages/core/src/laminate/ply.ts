/**
 * A cured ply of cloth: thickness, mass, stiffness and strength from the cloth, the resin and how much of it stays in.
 *
 * 1. Content: Wf = 1 / (1 + X), X the mass of resin over that of dry cloth; volume fractions and thickness by `content.ts`.
 * 2. Two unidirectional layers, warp and weft, by Halpin-Tsai (ξ = 2 for E2, 1 for G12). Voids count as matrix that
 *    carries nothing: its moduli are scaled by Vm / (Vm + Vv).
 * 3. The cloth is their 0/90 crossply, w of the fibre along the warp: Q = w Q(0) + (1 − w) Q(90); E1 and E2 are then
 *    multiplied by the crimp factor. G12 is not: it is already a low estimate.
 * 4. Transverse shear, the two layers in series: 1/G13 = w / G12ud + (1 − w) / G23ud, and 1/G23 the other way round, with
 *    G13ud = G12ud and G23ud from the series rule, which is the lower bound.
 * 5. A veil has no direction and no length of fibre to speak of: its ply is as stiff as its resin.
 * 6. Strength: the cloth's strengths, taken down in proportion to the fibre that runs that way, never up.
 *
 * Against published woven E-glass (Barkanov et al. 2018, p. 177, table 6) the moduli are 12 to 26 % low before the crimp
 * factor and 21 to 34 % low with it: the safe side for flutter.
 * Source of the formulas: see `micromechanics.ts` and `content.ts`; crossply idea as in docs/methods/laminate.md.
 */
import { invariant } from '../issue.ts'
import type { Cloth, Property, ResinSystem } from '../material/material.ts'
import { addScaled, zeros3 } from '../numeric/mat3.ts'
import { type Content, contentByMass, laminateDensity, plyThickness } from './content.ts'
import { inPlaneModuli, type Lamina, reducedStiffness, rotated } from './lamina.ts'
import type { PlyStrengths } from './layer.ts'
import { type MatrixStiffness, series, shearModulus, unidirectional } from './micromechanics.ts'

export interface PlyRecipe {
  readonly cloth: Cloth
  readonly resin: ResinSystem
  /** Mass of mixed resin left in the cloth over the mass of the dry cloth. */
  readonly resinPerCloth: number
  /** 0-1 by volume. */
  readonly voidFraction: number
}

export interface CuredPly {
  readonly lamina: Lamina
  /** Thickness, m. */
  readonly t: number
  readonly fibreVolumeFraction: number
  /** kg/m³. */
  readonly density: number
  /** Cloth and resin, kg/m². */
  readonly arealMass: number
  /** Null for a veil. */
  readonly strengths: PlyStrengths | null
}

/** Poisson ratio across the fibre, of the fibre: 0.25, carbon in NASA TM-83320, table 1 (recalled). It moves G23 by 1 %. */
const NU23_FIBRE = 0.25

/** Least share of the resin's strength that a ply keeps across its fibres when hardly any run that way: no source. */
const RESIN_SHARE = 0.5

/** Peel ply and film leave no ply; everything else does. */
export const staysInLaminate = ({ weave }: Cloth): boolean => weave !== 'peel ply' && weave !== 'film'

export function curedPly({ cloth, resin, resinPerCloth, voidFraction }: PlyRecipe): CuredPly {
  invariant(staysInLaminate(cloth), `${cloth.id} is pulled off after cure and is never a ply`)
  const densities = { fibre: cloth.fibre.density.value, matrix: resin.density.value }
  const content = contentByMass(densities, { fibreMass: 1 / (1 + resinPerCloth), voids: voidFraction })
  const solid = content.matrix / (content.matrix + voidFraction)
  const matrix = { E: resin.E.value * solid, nu: resin.nu.value }
  return {
    lamina: cloth.weave === 'veil' ? resinLamina(matrix) : clothLamina(cloth, matrix, content.fibre),
    t: plyThickness(cloth.arealMass.value, densities.fibre, content.fibre),
    fibreVolumeFraction: content.fibre,
    density: laminateDensity(densities, content),
    arealMass: cloth.arealMass.value * (1 + resinPerCloth),
    strengths: plyStrengths(cloth, resin, content.fibre),
  }
}

/** Stiffness of woven cloth in a matrix that fills what the fibre leaves; voids are in the matrix's modulus. */
export function clothLamina(cloth: Cloth, matrix: MatrixStiffness, Vf: number): Lamina {
  const { fibre, warpShare, crimpFactor } = cloth
  const w = warpShare.value
  const fibreStiffness = { E1: fibre.E1.value, E2: fibre.E2.value, G12: fibre.G12.value, nu12: fibre.nu12.value }
  const content: Content = { fibre: Vf, matrix: 1 - Vf }
  const ud = unidirectional(fibreStiffness, matrix, content)
  const G23f = fibre.E2.value / (2 * (1 + NU23_FIBRE))
  const G23 = series({ Mf: G23f, Mm: shearModulus(matrix), Vf })
  const Q = reducedStiffness({ ...ud, G13: ud.G12, G23 })
  const crossply = zeros3()
  addScaled(crossply, Q, w)
  addScaled(crossply, rotated(Q, Math.PI / 2), 1 - w)
  const { E1, E2, G12, nu12 } = inPlaneModuli(crossply)
  return {
    E1: E1 * crimpFactor.value,
    E2: E2 * crimpFactor.value,
    G12,
    nu12,
    G13: 1 / (w / ud.G12 + (1 - w) / G23),
    G23: 1 / ((1 - w) / ud.G12 + w / G23),
  }
}

function resinLamina(matrix: MatrixStiffness): Lamina {
  const G = shearModulus(matrix)
  return { E1: matrix.E, E2: matrix.E, G12: G, nu12: matrix.nu, G13: G, G23: G }
}

function plyStrengths({ strengths, warpShare }: Cloth, resin: ResinSystem, Vf: number): PlyStrengths | null {
  if (strengths === null) return null
  const reference = strengths.fibreFraction?.value ?? Vf
  const least = RESIN_SHARE * resin.strength.value
  /** `share` of the fibre runs this way, half of it in the cloth that was tested. */
  const lowered = ({ value, confidence }: Property, share: number) =>
    confidence === 'plan' ? value : Math.max(least, value * Math.min(1, (2 * share * Vf) / reference))
  const w = warpShare.value
  return {
    Xt: lowered(strengths.Xt, w),
    Xc: lowered(strengths.Xc, w),
    Yt: lowered(strengths.Yt, 1 - w),
    Yc: lowered(strengths.Yc, 1 - w),
    S: strengths.S.value,
  }
}
