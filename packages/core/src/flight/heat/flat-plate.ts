/**
 * Heat from the air to the flat of a fin: a flat plate along the stream, by the reference temperature.
 *
 *   T* = T + 0.5 (Tw − T) + 0.22 (Tr − T)      Tr = T + r u² / 2 cp                                   K
 *   h  = ρ* u cp (cf/2) Pr^(−2/3)              ρ* = ρ T / T*,  Re* = ρ* u x / μ(T*)                    W/(m² K)
 *   laminar    cf/2 = 0.332 Re*^(−1/2)         r = Pr^(1/2)
 *   turbulent  cf/2 = 0.0296 Re*^(−1/5)        r = Pr^(1/3)       5e5 < Re* < 1e7
 *              cf/2 = 0.185 (log10 Re*)^(−2.584)                  1e7 < Re* < 1e9
 *
 * x runs along the stream from the leading edge. Turbulent takes the larger of its two laws (they cross near 4.5e6 and
 * differ by 3 % at 1e7) and never less than the laminar one, which is larger only below Re* of some 3000, as the rocket
 * leaves its pad. Real boundary layers on fins turn over between; roughness, the body's own boundary layer and the
 * junction turn them early, so the turbulent answer is the one to judge by and the laminar one a lower bound. Sources:
 * E. R. G. Eckert, J. Aero. Sci. 22 (1955) 585 (recalled); laws of friction also in Schlichting, Boundary-Layer Theory,
 * 7th ed., chapter 21 (coefficients read in a summary of it). The best theories of turbulent friction scatter by 10 to
 * 11 % rms against test (Spalding & Chi, J. Fluid Mech. 18 (1964) 117, abstract read): allow 15 % on h.
 */
import {
  compressed,
  heatCapacity,
  prandtl,
  recoveredTemperature,
  type Stream,
  type SurfaceHeating,
  viscosity,
} from './stream.ts'

export type PlateFlow = 'turbulent' | 'laminar'

export interface PlatePlace {
  readonly kind: 'plate'
  /** From the leading edge along the stream, m. */
  readonly distance: number
  readonly flow: PlateFlow
  /** Local static pressure over that of the free stream; default 1. */
  readonly pressureRatio?: number
}

const recoveryFactor = { laminar: Math.sqrt(prandtl), turbulent: Math.cbrt(prandtl) } as const
const analogy = prandtl ** (-2 / 3)
/** The laws cross between 4e6 and 5e6; below, the logarithmic one is lower and is not asked. */
const logarithmicFrom = 4e6

export function plateHeating({ distance: x, flow, pressureRatio = 1 }: PlatePlace, free: Stream): SurfaceHeating {
  const stream = pressureRatio === 1 ? free : compressed(free, pressureRatio)
  const { temperature: T, density, speed: u } = stream
  const Tr = recoveredTemperature(stream, recoveryFactor[flow])
  const halfFriction = flow === 'laminar' ? laminarHalfFriction : turbulentHalfFriction
  return {
    recovery: Tr,
    coefficient: (Tw) => {
      if (u === 0) return 0
      const Tstar = T + 0.5 * (Tw - T) + 0.22 * (Tr - T)
      const flux = (density * T * u) / Tstar
      return flux * heatCapacity * halfFriction((flux * x) / viscosity(Tstar)) * analogy
    },
  }
}

export const laminarHalfFriction = (Re: number): number => 0.332 / Math.sqrt(Re)

export function turbulentHalfFriction(Re: number): number {
  const power = 0.0296 * Re ** -0.2
  const logarithmic = Re > logarithmicFrom ? 0.185 * Math.log10(Re) ** -2.584 : 0
  return Math.max(power, logarithmic, laminarHalfFriction(Re))
}
