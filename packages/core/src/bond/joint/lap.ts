/**
 * Adhesive stresses in lap joints, closed forms; SI, P per width of joint (N/m), x from the middle of the overlap L (m).
 *
 * Volkersen, single lap, adherends stretch and the adhesive shears; adherend 1 is loaded at x = −L/2:
 *
 *   λ² = (G/ta) (1/(E1 t1) + 1/(E2 t2))      w = (E1 t1 − E2 t2) / (E1 t1 + E2 t2)      τm = P / L
 *   τ  = τm (λL/2) [cosh λx / sinh(λL/2) + w sinh λx / cosh(λL/2)]
 *
 * Source: Volkersen, Luftfahrtforschung 15 (1938) 41-47 (recalled).
 *
 * Goland & Reissner, single lap, two like adherends that also bend; p = P/t, c = L/2:
 *
 *   u2 = √(3(1−ν²)/2) √(p/E) / t      k = 1 / (1 + 2√2 tanh(u2 c))      k′ = (k c/t) √(3(1−ν²) p/E)
 *   β² = 8 G t / (E ta)               τ = (p t / 8c) {(βc/t)(1+3k) cosh(βx/t)/sinh(βc/t) + 3(1−k)}
 *   γ⁴ = 6 Ea t / (E ta)              λ = γ c / t      Δ = (sinh 2λ + sin 2λ) / 2
 *   R1 = cosh λ sin λ + sinh λ cos λ  R2 = sinh λ cos λ − cosh λ sin λ
 *   σ  = (p t² / c² Δ) {[R2 λ² k/2 + λ k′ cosh λ cos λ] cosh(λx/c) cos(λx/c)
 *                     + [R1 λ² k/2 + λ k′ sinh λ sin λ] sinh(λx/c) sin(λx/c)}
 *
 * Source: Goland & Reissner, J. Appl. Mech. 11 (1944) A17-A27, their case of a flexible bond (recalled).
 *
 * Double lap of inner adherend i and two outer ones o, elastic and then perfectly plastic adhesive, long overlap:
 *
 *   P = min{ √(4 ta τp (γe/2 + γp) Ei ti (1 + Ei ti / 2 Eo to)), √(8 ta τp (γe/2 + γp) Eo to (1 + 2 Eo to / Ei ti)) }
 *
 * Source: Hart-Smith, Adhesive-Bonded Double-Lap Joints, NASA CR-112235 (1973) (recalled; at γp = 0 it is Volkersen's).
 *
 * Neither elastic form has the stress fall to zero at the free end of the adhesive, as it must in the last bond thickness.
 */
export interface VolkersenLap {
  readonly P: number
  readonly L: number
  readonly G: number
  readonly ta: number
  /** E · t of the adherend loaded at x = −L/2 and of the other, N/m. */
  readonly Et: readonly [number, number]
}

export interface VolkersenShear {
  readonly lambda: number
  readonly mean: number
  readonly at: (x: number) => number
}

export function volkersenShear({ P, L, G, ta, Et: [Et1, Et2] }: VolkersenLap): VolkersenShear {
  const lambda = Math.sqrt((G / ta) * (1 / Et1 + 1 / Et2))
  const w = (Et1 - Et2) / (Et1 + Et2)
  const mean = P / L
  const half = (lambda * L) / 2
  const at = (x: number): number =>
    mean * half * (Math.cosh(lambda * x) / Math.sinh(half) + (w * Math.sinh(lambda * x)) / Math.cosh(half))
  return { lambda, mean, at }
}

export interface GolandReissnerLap {
  readonly P: number
  readonly L: number
  readonly E: number
  readonly nu: number
  readonly t: number
  /** Of the adhesive: tension, shear, thickness. */
  readonly Ea: number
  readonly Ga: number
  readonly ta: number
}

export interface GolandReissnerStress {
  /** Moment at the overlap's end over P t / 2. */
  readonly k: number
  /** Transverse force at the overlap's end over P t / c. */
  readonly kPrime: number
  readonly lambda: number
  readonly shear: (x: number) => number
  readonly peel: (x: number) => number
}

export function golandReissner({ P, L, E, nu, t, Ea, Ga, ta }: GolandReissnerLap): GolandReissnerStress {
  const [p, c] = [P / t, L / 2]
  const bending = 1 - nu ** 2
  const u2 = Math.sqrt((3 * bending) / 2) * (Math.sqrt(p / E) / t)
  const k = 1 / (1 + 2 * Math.SQRT2 * Math.tanh(u2 * c))
  const kPrime = ((k * c) / t) * Math.sqrt((3 * bending * p) / E)
  const beta = Math.sqrt((8 * Ga * t) / (E * ta))
  const gamma = ((6 * Ea * t) / (E * ta)) ** 0.25
  const lambda = (gamma * c) / t
  const { cosh, sinh, cos, sin } = Math
  const Delta = (sinh(2 * lambda) + sin(2 * lambda)) / 2
  const R1 = cosh(lambda) * sin(lambda) + sinh(lambda) * cos(lambda)
  const R2 = sinh(lambda) * cos(lambda) - cosh(lambda) * sin(lambda)
  const even = (R2 * lambda ** 2 * k) / 2 + lambda * kPrime * cosh(lambda) * cos(lambda)
  const odd = (R1 * lambda ** 2 * k) / 2 + lambda * kPrime * sinh(lambda) * sin(lambda)
  const shear = (x: number): number =>
    ((p * t) / (8 * c)) * ((((beta * c) / t) * (1 + 3 * k) * cosh((beta * x) / t)) / sinh((beta * c) / t) + 3 * (1 - k))
  const peel = (x: number): number => {
    const s = (lambda * x) / c
    return ((p * t ** 2) / (c ** 2 * Delta)) * (even * cosh(s) * cos(s) + odd * sinh(s) * sin(s))
  }
  return { k, kPrime, lambda, shear, peel }
}

export interface PlasticDoubleLap {
  /** E · t of the inner adherend and of each outer one, N/m. */
  readonly inner: number
  readonly outer: number
  readonly ta: number
  /** Shear strength of the adhesive, Pa; elastic strain to it and plastic strain beyond it. */
  readonly tauP: number
  readonly gammaE: number
  readonly gammaP: number
}

/** Load per width that the adhesive of a long double lap carries, N/m. */
export function doubleLapLoad({ inner, outer, ta, tauP, gammaE, gammaP }: PlasticDoubleLap): number {
  const energy = ta * tauP * (gammaE / 2 + gammaP)
  return Math.min(
    Math.sqrt(4 * energy * inner * (1 + inner / (2 * outer))),
    Math.sqrt(8 * energy * outer * (1 + (2 * outer) / inner)),
  )
}
