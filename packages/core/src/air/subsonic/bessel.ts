/**
 * Bessel functions of order 0 and 1 for a real argument x > 0, and z K₁(z), by power series and by Hankel's asymptotic series.
 *
 *   J₀ = Σ (−q)^m / m!²        J₁ = (x/2) Σ (−q)^m / (m! (m+1)!)                                q = x²/4
 *   Y₀ = (2/π) (ln(x/2) + γ) J₀ − (2/π) Σ_{m≥1} H_m (−q)^m / m!²                                H_m = 1 + 1/2 + … + 1/m
 *   Y₁ = (2/π) (ln(x/2) + γ) J₁ − 2/(π x) − (x/(2π)) Σ (H_m + H_{m+1}) (−q)^m / (m! (m+1)!)
 *   z K₁ = 1 + (z²/2) Σ (ln(z/2) + γ − (H_m + H_{m+1})/2) q^m / (m! (m+1)!)                     q = z²/4
 *   J_ν − i Y_ν = sqrt(2/(π x)) e^{−i(x − νπ/2 − π/4)} Σ a_m(ν) i^{−m} / x^m
 *   z K₁ = sqrt(π z/2) e^{−z} Σ a_m(1) / z^m                a_m = Π_{j=1…m} (4ν² − (2j − 1)²) / (m! 8^m)
 *
 * The asymptotic sums stop at their smallest term. Absolute error below 1e-10. Source: Abramowitz & Stegun, Handbook of
 * Mathematical Functions (1964), 9.1.10, 9.1.11, 9.1.13, 9.2.5 to 9.2.10, 9.6.11, 9.7.2 (numbers recalled; the tests compare
 * with the differential equation's Wronskian and with integrals).
 */
import { invariant } from '../../issue.ts'

export interface Bessel01 {
  readonly J0: number
  readonly J1: number
  readonly Y0: number
  readonly Y1: number
}

const euler = 0.577_215_664_901_532_9
/** Above it the power series of J and Y lose digits by cancellation and the asymptotic series has gained them. */
const seriesEnd = 12
/** The same for z K₁, where the absolute error counts. */
const seriesEndK = 9

export function bessel01(x: number): Bessel01 {
  invariant(x > 0 && Number.isFinite(x), `Bessel function of ${x}`)
  return x <= seriesEnd ? powerSeries(x) : asymptotic(x)
}

/** z K₁(z) for z ≥ 0, modified Bessel function of the second kind; 1 at z = 0. */
export function scaledK1(z: number): number {
  invariant(z >= 0, `modified Bessel function of ${z}`)
  if (z === 0) return 1
  if (z > seriesEndK) return Math.sqrt((Math.PI * z) / 2) * Math.exp(-z) * hankelSum(1, z)
  const q = (z * z) / 4
  const log = Math.log(z / 2) + euler
  let [term, sum, H] = [1, 0, 0]
  for (let m = 0; m < 60; m++) {
    const step = term * (log - H - 0.5 / (m + 1))
    sum += step
    H += 1 / (m + 1)
    term *= q / ((m + 1) * (m + 2))
    if (Math.abs(step) < 1e-18 && m > z) break
  }
  return 1 + ((z * z) / 2) * sum
}

function powerSeries(x: number): Bessel01 {
  const q = (x * x) / 4
  let [t0, t1, H] = [1, 1, 0]
  let [J0, sumJ1, sumY0, sumY1] = [0, 0, 0, 0]
  for (let m = 0; m < 80; m++) {
    J0 += t0
    sumJ1 += t1
    sumY0 += H * t0
    sumY1 += (2 * H + 1 / (m + 1)) * t1
    H += 1 / (m + 1)
    t0 *= -q / (m + 1) ** 2
    t1 *= -q / ((m + 1) * (m + 2))
    if (m > x && Math.abs(t0) < 1e-18) break
  }
  const J1 = (x / 2) * sumJ1
  const log = Math.log(x / 2) + euler
  const Y0 = (2 / Math.PI) * (log * J0 - sumY0)
  const Y1 = (2 / Math.PI) * (log * J1 - 1 / x - (x / 4) * sumY1)
  return { J0, J1, Y0, Y1 }
}

function asymptotic(x: number): Bessel01 {
  const [J0, Y0] = hankel(0, x)
  const [J1, Y1] = hankel(1, x)
  return { J0, J1, Y0, Y1 }
}

/** J and Y from the sum's even part P and odd part Q: J = A (P cos χ − Q sin χ), Y = A (P sin χ + Q cos χ). */
function hankel(nu: 0 | 1, x: number): [number, number] {
  let [P, Q, term, m] = [0, 0, 1, 0]
  for (let last = Number.POSITIVE_INFINITY; Math.abs(term) < last; m++) {
    last = Math.abs(term)
    const sign = m % 4 < 2 ? 1 : -1
    if (m % 2 === 0) P += sign * term
    else Q += sign * term
    term *= (4 * nu * nu - (2 * m + 1) ** 2) / (8 * (m + 1) * x)
  }
  const chi = x - (nu * Math.PI) / 2 - Math.PI / 4
  const A = Math.sqrt(2 / (Math.PI * x))
  return [A * (P * Math.cos(chi) - Q * Math.sin(chi)), A * (P * Math.sin(chi) + Q * Math.cos(chi))]
}

function hankelSum(nu: number, z: number): number {
  let [sum, term] = [0, 1]
  for (let m = 0, last = Number.POSITIVE_INFINITY; Math.abs(term) < last; m++) {
    last = Math.abs(term)
    sum += term
    term *= (4 * nu * nu - (2 * m + 1) ** 2) / (8 * (m + 1) * z)
  }
  return sum
}
