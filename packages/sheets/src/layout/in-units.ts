/**
 * Words and blanks that are written in metric, as the builder's units have them: lengths to a hundredth of an inch, coarse limits that
 * they are, steps of temperature by 9/5. Grams stay, because bench scales read them.
 */
import type { Figures } from './figures.ts'

const unitNames: { readonly [unit: string]: string } = { mm: 'in', N: 'lbf', kg: 'lb', '°C': '°F' }

/** Of a blank to be filled in. */
export const unitIn = (unit: string, { units }: Pick<Figures, 'units'>): string =>
  units === 'us' ? unit.replace(/mm|N|kg|°C/g, (name) => unitNames[name]) : unit

/** `within 0.5 mm` as `within 0.02 in`; `3 °C above` as `5 °F above`; `−18 °C` as `0 °F`; `mass, mm` as `mass, in`. */
export function wordsIn(words: string, { units }: Pick<Figures, 'units'>): string {
  if (units !== 'us') return words
  return words
    .replace(/(\d+(?:\.\d+)?) mm\b/g, (_, mm: string) => `${inches(Number(mm))} in`)
    .replace(
      /(\d+(?:\.\d+)?) °C (above|an hour)/g,
      (_, step: string, what) => `${Math.round(Number(step) * 1.8)} °F ${what}`,
    )
    .replace(/(−?\d+(?:\.\d+)?) °C/g, (_, at: string) => `${Math.round(Number(at.replace('−', '-')) * 1.8 + 32)} °F`)
    .replace(/, mm\b/g, ', in')
}

const inches = (mm: number): string => (mm / 25.4).toFixed(mm >= 100 ? 1 : 2)
