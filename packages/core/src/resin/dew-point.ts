/**
 * Dew point of moist air over water, by the Magnus formula.
 *
 *   e_w = 611.2 exp[ 17.62 t / (243.12 + t) ]   Pa          t in °C
 *   t_d = 243.12 γ / (17.62 − γ)                            γ = ln U + 17.62 t / (243.12 + t)
 *
 * U is the relative humidity, 0–1. Source: WMO Guide to Instruments and Methods of Observation (WMO-No. 8), annex 4.B
 * (constants read in an instrument maker's reprint of the formula; −45 to 60 °C, within 0.6 %, recalled).
 */
const a = 17.62
const b = 243.12
const zeroCelsius = 273.15

/** Pa, for a temperature in K. */
export function saturationPressure(temperature: number): number {
  const t = temperature - zeroCelsius
  return 611.2 * Math.exp((a * t) / (b + t))
}

/** K, for a temperature in K and a relative humidity above 0. */
export function dewPoint(temperature: number, humidity: number): number {
  const t = temperature - zeroCelsius
  const gamma = Math.log(humidity) + (a * t) / (b + t)
  return zeroCelsius + (b * gamma) / (a - gamma)
}
