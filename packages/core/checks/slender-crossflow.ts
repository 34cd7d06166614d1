/**
 * Load of one of N equal fins on a round body in crossflow by slender-body theory, from vortices on the fins: our own computation,
 * independent of any printed factor.
 *
 *   in the plane across the body: circle of radius r, fins from r to r + s at 2πk/N, crossflow of unit speed square to fin 0
 *   each fin a row of m vortices Γ at R, an image −Γ at r²/R in the circle; no flow through the fins between them
 *   jump of potential over fin 0   Δφ(R) = Σ Γ outboard of R        load ∝ ∫ Δφ dR = Σ Γ (R − r)
 *
 * Stations stand at R = r + s sin θ, vortices at three quarters and no-flow points at a quarter of equal steps of θ: close together
 * towards the tip, where the sheet's strength has its square-root end. Over the same integral of the two joined fins alone,
 * ∫ 2 √(s² − y²) dy = π s²/2, the load is the factor K.
 */
import { complexLu, complexSolve } from '../src/numeric/complex-matrix.ts'

/** `tau` is r/(r + s). */
export function crossflowFactor(fins: number, tau: number, m = 60): number {
  const [r, s] = [tau, 1 - tau]
  const radius = (share: number) => (j: number) => r + s * Math.sin(((j + share) * Math.PI) / (2 * m))
  const [vortexAt, pointAt] = [radius(0.75), radius(0.25)]
  const n = fins * m
  const angle = (i: number) => (2 * Math.PI * Math.floor(i / m)) / fins
  const A = { n, re: new Float64Array(n * n), im: new Float64Array(n * n) }
  const b = { re: new Float64Array(n), im: new Float64Array(n) }
  for (let i = 0; i < n; i++) {
    const [R, a] = [pointAt(i % m), angle(i)]
    const [x, y] = [R * Math.cos(a), R * Math.sin(a)]
    const normal = [-Math.sin(a), Math.cos(a)]
    for (let j = 0; j < n; j++) {
      const [at, b0] = [vortexAt(j % m), angle(j)]
      A.re[i * n + j] = vortexFlow(x, y, at, b0, normal) - vortexFlow(x, y, (r * r) / at, b0, normal)
    }
    // Crossflow along +y past the circle: potential y (1 + r²/R²).
    const dipole = (r * r) / R ** 4
    const flow = [-2 * x * y * dipole, 1 + (x * x - y * y) * dipole]
    b.re[i] = -(flow[0] * normal[0] + flow[1] * normal[1])
  }
  const { re } = complexSolve(complexLu(A), b)
  let load = 0
  for (let j = 0; j < m; j++) load += re[j] * (vortexAt(j) - r)
  return Math.abs(load) / ((Math.PI * s * s) / 2)
}

/** Component along `normal` of the flow of a unit vortex at radius R and angle a. */
function vortexFlow(x: number, y: number, R: number, a: number, normal: readonly number[]): number {
  const [dx, dy] = [x - R * Math.cos(a), y - R * Math.sin(a)]
  return (-dy * normal[0] + dx * normal[1]) / (2 * Math.PI * (dx * dx + dy * dy))
}

/**
 * The same factor with the body as a plane mirror and the upwash 1 + r²/(r + y)² as the fin's wash, slender: by reciprocity the
 * wash weighted with the flat fin's own load,  (4/π) ∫₀¹ (1 + 1/(1 + t s/r)²) √(1 − t²) dt.
 */
export function mirrorFactor(tau: number): number {
  const ratio = (1 - tau) / tau
  const n = 2000
  let sum = 0
  // t = sin θ, middle rule: the integrand is smooth in θ.
  for (let i = 0; i < n; i++) {
    const theta = ((i + 0.5) * Math.PI) / (2 * n)
    sum += (1 + 1 / (1 + Math.sin(theta) * ratio) ** 2) * Math.cos(theta) ** 2
  }
  return ((4 / Math.PI) * sum * Math.PI) / (2 * n)
}
