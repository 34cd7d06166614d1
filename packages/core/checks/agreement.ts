/**
 * Comparison of a computed number with a printed one.
 *
 * A printed number is kept as the string it was printed as: its last digit says how well it is known. A computed value
 * agrees when it lies within half a unit of that last digit plus the stated relative error of the method.
 */
export interface PrintedValue {
  readonly value: number
  readonly halfUnit: number
}

/** Reads a number as printed, e.g. `'0.00406'`, `'2.100e9'`, `'20,130,785'`. Throws on anything else. */
export function published(text: string): PrintedValue {
  const match = /^(-?)(\d[\d,]*)(?:\.(\d*))?(?:[eE]([+-]?\d+))?$/.exec(text.trim())
  if (match === null) throw new Error(`not a printed number: '${text}'`)
  const decimals = match[3]?.length ?? 0
  const exponent = Number(match[4] ?? '0')
  const value = Number(text.replaceAll(',', ''))
  return { value, halfUnit: 0.5 * 10 ** (exponent - decimals) }
}

/** True when `computed` agrees with the printed value, allowing the relative `methodError` (0 for exact methods). */
export function agrees(computed: number, printed: PrintedValue, methodError = 0): boolean {
  const allowed = printed.halfUnit * (1 + 1e-9) + methodError * Math.abs(printed.value)
  return Math.abs(computed - printed.value) <= allowed
}
