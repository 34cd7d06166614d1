/**
 * U.S. Standard Atmosphere 1976 from below sea level to 86 km, over geometric altitude.
 *
 *   H = r₀ Z / (r₀ + Z)                       geopotential altitude, m
 *   T = T_b + L (H − H_b)                     molecular-scale temperature, K
 *   p = p_b (T_b / T)^(g₀ M₀ / (R* L))        L ≠ 0, Pa
 *   p = p_b exp(−g₀ M₀ (H − H_b) / (R* T_b))  L = 0
 *   ρ = p M₀ / (R* T)     a = sqrt(γ R* T / M₀)     μ = β T^(3/2) / (T + S)     g = g₀ (r₀ / (r₀ + Z))²
 *
 * A temperature offset is added to T at every altitude and p is kept as the standard has it: density follows the gas law,
 * the column is not integrated anew. Between 80 and 86 km T exceeds the standard's kinetic temperature by up to 0.08 K (its
 * molar mass falls there by 0.04 %). Above 86 km the air is carried on at constant temperature: outside the standard's
 * range for this model, good only to tell that there is next to none.
 * Source: U.S. Standard Atmosphere, 1976, NOAA, NASA, USAF, eqs. 18, 23, 33a, 33b, 42, 50, 51, 17 (numbers recalled).
 */
import { layers, standard } from './atmosphere.data.ts'

export interface Air {
  readonly temperature: number
  readonly pressure: number
  readonly density: number
  readonly soundSpeed: number
  /** Dynamic viscosity. */
  readonly viscosity: number
}

/** Highest geometric altitude the model is meant for. */
export const atmosphereCeiling = 86_000

const { p0, g0, Rstar, M0, r0, gamma, beta, S } = standard
const R = Rstar / M0
const basePressures = pressuresAtBases()

/** Air at a geometric altitude above mean sea level; `temperatureOffset` in K, default 0. */
export function standardAir(altitude: number, temperatureOffset = 0): Air {
  const H = (r0 * altitude) / (r0 + altitude)
  let b = layers.length - 1
  while (b > 0 && H < layers[b].H) b--
  const T = layers[b].T + layers[b].L * (H - layers[b].H) + temperatureOffset
  const pressure = pressureInLayer(b, H)
  return {
    temperature: T,
    pressure,
    density: pressure / (R * T),
    soundSpeed: Math.sqrt(gamma * R * T),
    viscosity: (beta * T ** 1.5) / (T + S),
  }
}

/** Acceleration of gravity at a geometric altitude. */
export function gravity(altitude: number): number {
  return g0 * (r0 / (r0 + altitude)) ** 2
}

function pressureInLayer(b: number, H: number): number {
  const { H: Hb, T: Tb, L } = layers[b]
  if (L === 0) return basePressures[b] * Math.exp((-g0 * (H - Hb)) / (R * Tb))
  return basePressures[b] * (Tb / (Tb + L * (H - Hb))) ** (g0 / (R * L))
}

function pressuresAtBases(): number[] {
  const pressures: number[] = [p0]
  for (let b = 1; b < layers.length; b++) {
    const { H: Hb, T: Tb, L } = layers[b - 1]
    const rise = layers[b].H - Hb
    const ratio = L === 0 ? Math.exp((-g0 * rise) / (R * Tb)) : (Tb / (Tb + L * rise)) ** (g0 / (R * L))
    pressures.push(pressures[b - 1] * ratio)
  }
  return pressures
}
