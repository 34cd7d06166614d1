/**
 * Generalized air forces by piston theory, first order or second order with thickness, on mode shapes over a triangle mesh.
 *
 *   Δp = −faces · (2 q C/M) (1 + 2 (D/C) M τ′) (∂w/∂s + E ẇ/V)           against +w, N/m²
 *   A₀ᵢⱼ = −faces (2 C/M) ∫ φᵢ (1 + 2 (D/C) M τ′) ∂φⱼ/∂s dA      A₁ᵢⱼ = −faces (2 C E/(M b)) ∫ φᵢ φⱼ (1 + …) dA
 *
 * s runs with the flow, τ is half the thickness (its slope τ′ along the flow, one number a triangle), φ the mode shapes,
 * straight in each triangle. C and D are the coefficients of the pressure of one face, (p − p∞)/q = (2/M)(C θ + D M θ²) for
 * its inclination θ to the flow; the cubic term is left out. Two sets:
 *
 *   Van Dyke    C = M/β,  D = ((γ + 1) M⁴ − 4 β²)/(4 β⁴),  E = (M² − 2)/(M² − 1)      β = sqrt(M² − 1)
 *   Lighthill   C = 1,    D = (γ + 1)/4,                   E = 1                      the limit of the first for large M
 *
 * The first is exact to second order for a steady plane flow and to first order in frequency for E (thin plane surface); that
 * E multiplies the thickness term too is our own choice. Strips do not see each other: no tips, no Mach cones from the root.
 * Valid from Mach 2 while M |τ′| stays well below one. Sources: Lighthill, J. Aero. Sci. 20 (1953) 402; Ashley & Zartarian,
 * J. Aero. Sci. 23 (1956) 1109; Van Dyke, NACA Rep. 1081 (1952), second-order coefficient; E: Garrick & Rubinow, NACA Rep. 846
 * (1946), low-frequency limit (all recalled).
 */
import { type Mesh, nodeCount, triangleCount } from '../geometry/mesh.ts'
import { type Issue, invariant } from '../issue.ts'
import { type AerodynamicMethod, type GeneralizedForces, quasiSteadyForces } from './forces.ts'

export interface PistonInput {
  readonly mesh: Mesh
  /** One a mode: deflection at every node, of unit modal mass. */
  readonly shapes: readonly ArrayLike<number>[]
  /** From +x towards +y: where the air goes. */
  readonly flowDirection: number
  /** 2 for a fin, 1 for a panel over still air. */
  readonly faces: 1 | 2
  readonly order: 1 | 2
  /** Slope of half the thickness along the flow, one a triangle; read for order 2 only. Positive where the plate thickens. */
  readonly slopes: ArrayLike<number>
  /** False leaves out the force of the surface's own velocity. Default true. */
  readonly aerodynamicDamping?: boolean
  /** Default `van-dyke`. */
  readonly coefficients?: 'van-dyke' | 'lighthill'
  /** Ratio of specific heats, default 1.4. */
  readonly gamma?: number
}

/** Below this Mach number piston theory is not answered with, at any order. */
export const leastPistonMach = 2
/** Above this M |τ′| the second-order series is out of its range. */
export const greatestSlopeParameter = 0.6

export function pistonTheory(input: PistonInput): AerodynamicMethod {
  const { shapes, order, aerodynamicDamping = true, coefficients = 'van-dyke', gamma = 1.4, faces } = input
  const n = shapes.length
  const S = surfaceIntegrals(input)
  const coefficientsAt = coefficients === 'van-dyke' ? vanDyke : lighthill
  return {
    ...pistonScope(order),
    forces: (mach): GeneralizedForces => {
      const { C, D, E } = coefficientsAt(mach, gamma)
      const thickness = order === 2 ? (2 * D * mach) / C : 0
      const a0 = (-faces * 2 * C) / mach
      const a1 = aerodynamicDamping ? (a0 * E) / S.length : 0
      const A0 = S.slope.map((v, ij) => a0 * (v + thickness * S.slopeThick[ij]))
      const A1 = S.rise.map((v, ij) => a1 * (v + thickness * S.riseThick[ij]))
      return quasiSteadyForces(n, S.length, { A0, A1 })
    },
    warnings: (mach) => (order === 2 ? slopeWarnings(mach, S.steepest) : []),
  }
}

/** Known before anything is computed. */
export const pistonScope = (order: 1 | 2): Pick<AerodynamicMethod, 'name' | 'machRange'> => ({
  name: `piston theory, ${order === 2 ? 'second order' : 'first order'}`,
  machRange: { from: leastPistonMach, to: Number.POSITIVE_INFINITY },
})

export interface PistonCoefficients {
  readonly C: number
  readonly D: number
  readonly E: number
}

export function vanDyke(mach: number, gamma: number): PistonCoefficients {
  const beta2 = mach * mach - 1
  const D = ((gamma + 1) * mach ** 4 - 4 * beta2) / (4 * beta2 * beta2)
  return { C: mach / Math.sqrt(beta2), D, E: (mach * mach - 2) / beta2 }
}

export function lighthill(_: number, gamma: number): PistonCoefficients {
  return { C: 1, D: (gamma + 1) / 4, E: 1 }
}

interface SurfaceIntegrals {
  /** ∫ φᵢ ∂φⱼ/∂s dA, and the same times τ′. */
  readonly slope: Float64Array
  readonly slopeThick: Float64Array
  /** ∫ φᵢ φⱼ dA, and the same times τ′. */
  readonly rise: Float64Array
  readonly riseThick: Float64Array
  /** Half the plate's extent along the flow: the reference length b. */
  readonly length: number
  readonly steepest: number
}

function surfaceIntegrals({ mesh, shapes, flowDirection, order, slopes }: PistonInput): SurfaceIntegrals {
  const n = shapes.length
  const count = triangleCount(mesh)
  for (const shape of shapes) invariant(shape.length === nodeCount(mesh), `mode shape of ${shape.length} nodes`)
  invariant(order === 1 || slopes.length === count, `${slopes.length} thickness slopes for ${count} triangles`)
  const [cos, sin] = [Math.cos(flowDirection), Math.sin(flowDirection)]
  const square = () => new Float64Array(n * n)
  const [slope, slopeThick, rise, riseThick] = [square(), square(), square(), square()]
  const [sum, along, w] = [new Float64Array(n), new Float64Array(n), new Float64Array(3 * n)]
  let steepest = 0
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [mesh.T[3 * t], mesh.T[3 * t + 1], mesh.T[3 * t + 2]]
    const [xa, ya, xb, yb, xc, yc] = [a, b, c].flatMap((node) => [mesh.X[2 * node], mesh.X[2 * node + 1]])
    const doubleArea = (xb - xa) * (yc - ya) - (xc - xa) * (yb - ya)
    const tau = order === 2 ? slopes[t] : 0
    steepest = Math.max(steepest, Math.abs(tau))
    for (let i = 0; i < n; i++) {
      const [wa, wb, wc] = [shapes[i][a], shapes[i][b], shapes[i][c]]
      w[3 * i] = wa
      w[3 * i + 1] = wb
      w[3 * i + 2] = wc
      sum[i] = wa + wb + wc
      const dx = (wa * (yb - yc) + wb * (yc - ya) + wc * (ya - yb)) / doubleArea
      const dy = (wa * (xc - xb) + wb * (xa - xc) + wc * (xb - xa)) / doubleArea
      along[i] = cos * dx + sin * dy
    }
    for (let i = 0, ij = 0; i < n; i++) {
      for (let j = 0; j < n; j++, ij++) {
        // ∫ of a straight function is its mean, of a product of two (Σ wᵢ Σ wⱼ + Σ wᵢ wⱼ)/12, times the area.
        const first = (doubleArea / 6) * sum[i] * along[j]
        const products = w[3 * i] * w[3 * j] + w[3 * i + 1] * w[3 * j + 1] + w[3 * i + 2] * w[3 * j + 2]
        const second = (doubleArea / 24) * (sum[i] * sum[j] + products)
        slope[ij] += first
        slopeThick[ij] += tau * first
        rise[ij] += second
        riseThick[ij] += tau * second
      }
    }
  }
  return { slope, slopeThick, rise, riseThick, length: extentAlong(mesh, cos, sin) / 2, steepest }
}

function extentAlong({ X }: Mesh, cos: number, sin: number): number {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]
  for (let i = 0; i < X.length; i += 2) {
    const s = cos * X[i] + sin * X[i + 1]
    least = Math.min(least, s)
    most = Math.max(most, s)
  }
  return most - least
}

function slopeWarnings(mach: number, steepest: number): Issue[] {
  if (mach * steepest <= greatestSlopeParameter) return []
  return [
    {
      code: 'flutter/piston-slope',
      path: 'flutter.boundary',
      value: steepest,
      message: `At Mach ${mach.toFixed(2)} the steepest bevel (slope ${steepest.toFixed(2)}) is outside second-order piston theory, which wants Mach number times slope below ${greatestSlopeParameter}.`,
      hint: 'Make the bevel wider or its land thicker, or read the speed at this Mach number as an estimate.',
    },
  ]
}
