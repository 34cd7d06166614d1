/**
 * The inverse of a laminate's stiffness, and the moduli a test on the laminate would show.
 *
 *   ε⁰ = a N + b M      κ = bᵀ N + d M
 *   d = (D − B A⁻¹ B)⁻¹   N⁻¹m⁻¹        b = −A⁻¹ B d   N⁻¹        a = A⁻¹ − b B A⁻¹   m/N
 *   Ex = 1 / (h a11)   Ey = 1 / (h a22)   Gxy = 1 / (h a66)   νxy = −a12 / a11
 *   in bending: Ex = 12 / (h³ d11), and so on; νxy = −d12 / d11
 *
 * For a laminate that couples (B not zero) a and d are blocks of the full 6×6 inverse: the moduli of a strip that is free
 * to curl. Source: Nettles, NASA RP-1351 (1994); Jones, Mechanics of Composite Materials, sec. 4.3 (recalled).
 */
import { invariant } from '../issue.ts'
import { addScaled, apply3, inverse3, type Mat3, mat3, multiply3, scaled3, transpose3 } from '../numeric/mat3.ts'
import type { LaminateStiffness } from './stiffness.ts'

export interface LaminateCompliance {
  readonly a: Mat3
  readonly b: Mat3
  readonly d: Mat3
}

export interface EffectiveModuli {
  readonly Ex: number
  readonly Ey: number
  readonly Gxy: number
  readonly nuxy: number
}

/** Strains of the reference plane and curvatures over (xx, yy, xy); κxy is the engineering twist −2 ∂²w/∂x∂y. */
export interface LaminateStrain {
  readonly strain: ArrayLike<number>
  /** 1/m. */
  readonly curvature: ArrayLike<number>
}

/** Forces and moments on a unit of width over (xx, yy, xy). */
export interface LaminateLoad {
  /** N/m. */
  readonly N: ArrayLike<number>
  /** N. */
  readonly M: ArrayLike<number>
}

export function laminateCompliance({ A, B, D }: LaminateStiffness): LaminateCompliance {
  const Ainv = inverse(A, 'A')
  const AinvB = multiply3(Ainv, B)
  const Dstar = mat3(D)
  addScaled(Dstar, multiply3(B, AinvB), -1)
  const d = inverse(Dstar, 'D − B A⁻¹ B')
  const b = scaled3(multiply3(AinvB, d), -1)
  const a = mat3(Ainv)
  addScaled(a, multiply3(b, transpose3(AinvB)), -1)
  return { a, b, d }
}

/** The laminate's answer to a load. */
export function strainUnder({ a, b, d }: LaminateCompliance, { N, M }: LaminateLoad): LaminateStrain {
  return { strain: plus(apply3(a, N), apply3(b, M)), curvature: plus(apply3(transpose3(b), N), apply3(d, M)) }
}

/** Moduli in stretching of a laminate of thickness h, Pa. */
export const stretchingModuli = ({ a }: LaminateCompliance, h: number): EffectiveModuli => moduli(a, 1 / h)

/** Moduli in bending of a laminate of thickness h, Pa. */
export const bendingModuli = ({ d }: LaminateCompliance, h: number): EffectiveModuli => moduli(d, 12 / h ** 3)

const moduli = (m: Mat3, factor: number): EffectiveModuli => ({
  Ex: factor / m[0],
  Ey: factor / m[4],
  Gxy: factor / m[8],
  nuxy: -m[1] / m[0],
})

function inverse(A: Mat3, name: string): Mat3 {
  const inverted = inverse3(A)
  invariant(inverted !== null, `${name} of a laminate with positive thickness and moduli can be inverted`)
  return inverted
}

const plus = (u: Float64Array, v: Float64Array): Float64Array => u.map((ui, i) => ui + v[i])
