/**
 * Stiffness of a unidirectional layer from fibre, matrix and their volume fractions, by three sets of formulas.
 *
 *   rule of mixtures   E1 = Vf Ef1 + Vm Em      ν12 = Vf νf12 + Vm νm      (all three sets share these)
 *   series             1/M = Vf/Mf + Vm/Mm                                   (Reuss: the lowest possible)
 *   Halpin-Tsai        M = Mm (1 + ξ η Vf) / (1 − η Vf)   η = (Mf/Mm − 1) / (Mf/Mm + ξ)   ξ = 2 for E2, 1 for G12
 *   square root        M = Mm / (1 − √Vf (1 − Mm/Mf))
 *
 * Sources: Halpin & Kardos, Polym. Eng. Sci. 16 (1976) 344 (recalled); square root: Chamis, NASA TM-83320 (1983), figs 5
 * and 6; series and mixtures as in Kaw, Mechanics of Composite Materials, 2nd ed. (2006), ch. 3 (recalled).
 */
import type { Content } from './content.ts'

export interface FibreStiffness {
  readonly E1: number
  readonly E2: number
  readonly G12: number
  readonly nu12: number
}

export interface MatrixStiffness {
  readonly E: number
  readonly nu: number
}

/** Moduli of a unidirectional layer, Pa. */
export interface Unidirectional {
  readonly E1: number
  readonly E2: number
  readonly G12: number
  readonly nu12: number
}

/** A modulus across the fibres from those of fibre (Mf) and matrix (Mm) at the fibre volume fraction Vf. */
export type CrossRule = (modulus: { readonly Mf: number; readonly Mm: number; readonly Vf: number }) => number

/** Shape factors for round fibres. */
const XI_E2 = 2
const XI_G12 = 1

export const series: CrossRule = ({ Mf, Mm, Vf }) => 1 / (Vf / Mf + (1 - Vf) / Mm)

export const squareRoot: CrossRule = ({ Mf, Mm, Vf }) => Mm / (1 - Math.sqrt(Vf) * (1 - Mm / Mf))

export const halpinTsai =
  (xi: number): CrossRule =>
  ({ Mf, Mm, Vf }) => {
    const eta = (Mf / Mm - 1) / (Mf / Mm + xi)
    return (Mm * (1 + xi * eta * Vf)) / (1 - eta * Vf)
  }

/** The two rules across the fibres that a set of formulas is made of. */
export interface CrossRules {
  readonly E2: CrossRule
  readonly G12: CrossRule
}

export const halpinTsaiRules: CrossRules = { E2: halpinTsai(XI_E2), G12: halpinTsai(XI_G12) }
export const squareRootRules: CrossRules = { E2: squareRoot, G12: squareRoot }
export const seriesRules: CrossRules = { E2: series, G12: series }

export const shearModulus = ({ E, nu }: MatrixStiffness): number => E / (2 * (1 + nu))

export function unidirectional(
  fibre: FibreStiffness,
  matrix: MatrixStiffness,
  content: Content,
  rules: CrossRules = halpinTsaiRules,
): Unidirectional {
  const { fibre: Vf, matrix: Vm } = content
  return {
    E1: Vf * fibre.E1 + Vm * matrix.E,
    E2: rules.E2({ Mf: fibre.E2, Mm: matrix.E, Vf }),
    G12: rules.G12({ Mf: fibre.G12, Mm: shearModulus(matrix), Vf }),
    nu12: Vf * fibre.nu12 + Vm * matrix.nu,
  }
}

/** Longitudinal tensile strength that the fibres give: X = Sf (Vf + Vm Em / Ef1). Murthy & Chamis, NASA TP-2515 (1986). */
export const fibreStrength = (fibre: { S: number; E1: number }, matrix: MatrixStiffness, content: Content): number =>
  fibre.S * (content.fibre + (content.matrix * matrix.E) / fibre.E1)
