/**
 * Heat from the air to a leading edge: the attachment line of a long cylinder of the edge's radius R, swept by Λ.
 *
 * Normal to the edge the air is brought to rest (through a normal shock where Mn > 1); along it the speed W stays.
 *
 *   Mn = M cos Λ      W = u sin Λ      Te = T (1 + 0.2 Mn²)
 *   pe = p (1 + 0.2 Mn²)^3.5  (Mn ≤ 1),   Rayleigh's pitot formula  (Mn > 1);   ρe = pe / (R_air Te)
 *   velocity gradient, 1/s: the larger of
 *     β = √(2 (pe − p) / ρe) / R                                  modified Newtonian
 *     β = (2 u cos Λ / R) (1 − 0.416 Mn² − 0.164 Mn⁴)             Mn ≤ 1: a cylinder in subsonic flow; they meet near Mn = 1
 *   laminar    h = 0.57 cp Pr^(−0.6) (ρe μe)^0.4 (ρw μw)^0.1 √β                    Tr = Te + Pr^(1/2) W² / 2 cp
 *   turbulent  h = 0.0323 cp Pr^(−0.6) ρ*^0.8 μ*^0.2 W^0.6 β^0.2                   Tr = Te + Pr^(1/3) W² / 2 cp
 *              T* = Te + 0.5 (Tw − Te) + 0.22 (Tr − Te)
 *   It turns turbulent from the root, wetted by the body's boundary layer, where W / √(ν′ β) > 245 with ν′ at
 *   T′ = Te + 0.1 (Tw − Te) + 0.6 (Tr − Te): there the larger of both answers is taken.
 *
 * A flat-faced or square edge of the same half thickness has about half the gradient along its middle and more at its
 * corners; the cylinder is the upper of the two on the whole. Against the similarity solution of the compressible swept
 * line the laminar law lies between 0.3 % high and 2.6 % low, and the recovery temperature up to 0.7 % low, to Mach 3
 * and 60° (see the check). Sources, all recalled: laminar, Fay & Riddell, J. Aero. Sci. 25 (1958) 73, in its form for a
 * cylinder (constant 0.57 for 0.763); sweep, Reshotko & Beckwith, NACA Rep. 1379 (1958), Beckwith & Cohen, NASA TN
 * D-625 (1961); turbulent, Beckwith & Gallagher, NASA TR R-104 (1961): 1.04 with ρ in slugs and heat per pound, 1.04 /
 * 32.17 here; it lies 7 % over 0.0296 R̄^(−0.4) Pr^(−2/3) of Poll, Aero. Quart. 30 (1979) 607, who gives the 245.
 * Subsonic gradient: the M² term is that of the Rayleigh-Janzen expansion, 5/12, the M⁴ term as recalled from Truitt,
 * Fundamentals of Aerodynamic Heating (1960). Range: Mach 0 to 3.
 */
import {
  gamma,
  gasConstant,
  heatCapacity,
  machNumber,
  prandtl,
  type Stream,
  type SurfaceHeating,
  viscosity,
} from './stream.ts'

export interface EdgePlace {
  readonly kind: 'edge'
  /** Of the finished edge, m. */
  readonly radius: number
  /** From the normal of the stream, rad. */
  readonly sweep: number
}

export interface AttachmentLine extends SurfaceHeating {
  /** Gradient of the velocity away from the line, 1/s. */
  readonly gradient: number
  /** W / √(ν′ β) at a surface temperature; above 245 the line is turbulent. */
  readonly contamination: (surface: number) => number
}

/** Poll (1979), recalled. */
export const contaminationLimit = 245
const laminarConstant = 0.57 * heatCapacity * prandtl ** -0.6
const turbulentConstant = 0.0323 * heatCapacity * prandtl ** -0.6

export function attachmentLine({ radius: R, sweep }: EdgePlace, stream: Stream): AttachmentLine {
  const { temperature: T, density, speed } = stream
  const Mn = machNumber(stream) * Math.cos(sweep)
  const W = speed * Math.sin(sweep)
  const Te = T * (1 + ((gamma - 1) / 2) * Mn ** 2)
  const p = density * gasConstant * T
  const pe = p * pitotRatio(Mn)
  const rhoe = pe / (gasConstant * Te)
  const beta = Math.max(Math.sqrt((2 * (pe - p)) / rhoe), subsonicGradient(Mn) * speed * Math.cos(sweep)) / R
  const kinetic = W ** 2 / (2 * heatCapacity)
  const recovery = { laminar: Te + Math.sqrt(prandtl) * kinetic, turbulent: Te + Math.cbrt(prandtl) * kinetic }
  const Tr = recovery.turbulent
  const contamination = (Tw: number): number => {
    const Tstar = Te + 0.1 * (Tw - Te) + 0.6 * (Tr - Te)
    return beta === 0 ? 0 : W / Math.sqrt((beta * viscosity(Tstar) * gasConstant * Tstar) / pe)
  }
  const laminar = (Tw: number): number => {
    const wall = (pe / (gasConstant * Tw)) * viscosity(Tw)
    return laminarConstant * (rhoe * viscosity(Te)) ** 0.4 * wall ** 0.1 * Math.sqrt(beta)
  }
  const turbulent = (Tw: number): number => {
    const Tstar = Te + 0.5 * (Tw - Te) + 0.22 * (Tr - Te)
    const rhostar = pe / (gasConstant * Tstar)
    return turbulentConstant * rhostar ** 0.8 * viscosity(Tstar) ** 0.2 * W ** 0.6 * beta ** 0.2
  }
  // The state of the line is judged on a surface at the recovery temperature, so that it does not flicker with the surface.
  const swept = contamination(Tr) > contaminationLimit
  return {
    gradient: beta,
    contamination,
    recovery: swept ? recovery.turbulent : recovery.laminar,
    coefficient: swept ? (Tw) => Math.max(laminar(Tw), turbulent(Tw)) : laminar,
  }
}

/** Pressure where the normal flow is brought to rest over the free static pressure. */
export function pitotRatio(M: number): number {
  if (M <= 1) return (1 + ((gamma - 1) / 2) * M ** 2) ** (gamma / (gamma - 1))
  const ahead = (((gamma + 1) / 2) * M ** 2) ** (gamma / (gamma - 1))
  return ahead * ((gamma + 1) / (2 * gamma * M ** 2 - (gamma - 1))) ** (1 / (gamma - 1))
}

/** β R over the normal speed on a cylinder in subsonic flow; 0 above Mach 1, where the other law holds. */
function subsonicGradient(M: number): number {
  return M > 1 ? 0 : 2 * (1 - 0.416 * M ** 2 - 0.164 * M ** 4)
}
