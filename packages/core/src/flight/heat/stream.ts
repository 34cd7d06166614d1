/**
 * The air at the edge of a boundary layer: a perfect gas with constant specific heats.
 *
 *   cp = γ R / (γ − 1) = 1004.7 J/(kg K)      μ = β T^(3/2) / (T + S)      Pr = 0.71
 *
 * Where the local pressure differs from that of the free stream by a ratio p (a bevel, a fin at incidence), the air is
 * taken to change isentropically along its streamline:  T = T∞ p^((γ−1)/γ),  ρ = ρ∞ p^(1/γ),  u² = u∞² + 2 cp (T∞ − T).
 * Sources: U.S. Standard Atmosphere, 1976, eq. 51 (viscosity) and its constants; Pr of air near room temperature, any
 * table of air, 0.69 to 0.71 between 300 and 450 K (recalled). Dissociation and the rise of cp do not matter below Mach
 * 3.
 */
import { standard } from '../../air/atmosphere.data.ts'

export const prandtl = 0.71
/** J/(kg K) */
export const gasConstant = standard.Rstar / standard.M0
export const gamma = standard.gamma
/** J/(kg K) */
export const heatCapacity = (gamma * gasConstant) / (gamma - 1)

export interface Stream {
  /** K */
  readonly temperature: number
  /** kg/m³ */
  readonly density: number
  /** m/s */
  readonly speed: number
}

/** How the air heats a surface at one instant. */
export interface SurfaceHeating {
  /** The temperature at which the surface would take up no heat, K. */
  readonly recovery: number
  /** Heat flux over (recovery − surface temperature), W/(m² K). */
  readonly coefficient: (surface: number) => number
}

export const viscosity = (T: number): number => (standard.beta * T * Math.sqrt(T)) / (T + standard.S)

export const machNumber = ({ temperature, speed }: Stream): number =>
  speed / Math.sqrt(gamma * gasConstant * temperature)

/** Temperature at the surface that takes up no heat, for a share r of the kinetic energy recovered. */
export const recoveredTemperature = ({ temperature, speed }: Stream, r: number): number =>
  temperature + (r * speed ** 2) / (2 * heatCapacity)

/** The stream where the local pressure is `ratio` times the free one; 1 leaves it as it is. */
export function compressed({ temperature: T0, density, speed }: Stream, ratio: number): Stream {
  const temperature = T0 * ratio ** ((gamma - 1) / gamma)
  const squared = speed ** 2 + 2 * heatCapacity * (T0 - temperature)
  return { temperature, density: density * ratio ** (1 / gamma), speed: Math.sqrt(Math.max(0, squared)) }
}
