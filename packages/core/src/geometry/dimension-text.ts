/** Dimensions as a message writes them: `12.9 mm`, `75.4°`. For words only; no number is ever read back from here. */

export const millimetres = (length: number, decimals = 1): string => `${fixed(length * 1e3, decimals)} mm`

/** Rounded up, for a length that must be reached. */
export const atLeast = (length: number): string => millimetres(Math.ceil(length * 1e4 - 1e-6) / 1e4)

export const degrees = (angle: number, decimals = 1): string => `${fixed((angle * 180) / Math.PI, decimals)}°`

/** Never `-0.0`. */
function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals)
  return Number(text) === 0 ? (0).toFixed(decimals) : text
}
