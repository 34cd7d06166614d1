/**
 * Constants and layers of the U.S. Standard Atmosphere, 1976 (NOAA, NASA, USAF; Washington 1976), Tables 1, 2 and 4
 * (numbers recalled; the check compares the results with the printed Table I).
 */
export const standard = {
  /** Pa, at sea level. */
  p0: 101_325,
  /** m/s², standard gravity. */
  g0: 9.806_65,
  /** J/(kmol K) */
  Rstar: 8_314.32,
  /** kg/kmol, mean molar mass of the air at sea level. */
  M0: 28.9644,
  /** m, the radius that goes with geopotential altitude. */
  r0: 6_356_766,
  /** Ratio of specific heats. */
  gamma: 1.4,
  /** kg/(s m K^½), Sutherland's law. */
  beta: 1.458e-6,
  /** K, Sutherland's law. */
  S: 110.4,
} as const

/** Geopotential altitude H of a layer's base (m), temperature there (K) and its rise with H (K/m). */
export const layers = [
  { H: 0, T: 288.15, L: -6.5e-3 },
  { H: 11_000, T: 216.65, L: 0 },
  { H: 20_000, T: 216.65, L: 1e-3 },
  { H: 32_000, T: 228.65, L: 2.8e-3 },
  { H: 47_000, T: 270.65, L: 0 },
  { H: 51_000, T: 270.65, L: -2.8e-3 },
  { H: 71_000, T: 214.65, L: -2e-3 },
  // 86 km geometric. Above it the standard changes its model; here the air is carried on at this temperature.
  { H: 84_852.05, T: 186.9459, L: 0 },
] as const
