import { describe, expect, test } from 'vitest'
import { printCorrection } from '../../src/pattern/printing.ts'
import { overhangLeft } from '../../src/pattern/trellis.ts'

const printer = { path: 'printing.checkSquare' }
const degree = Math.PI / 180
const mm = (length: number): number => length * 1e3

describe('the check square', () => {
  test('a true print needs no correction, a slightly small one is drawn larger', () => {
    expect(printCorrection({ across: 0.1, along: 0.1 }, printer)).toMatchObject({
      ok: true,
      value: { across: 1, along: 1 },
    })
    const small = printCorrection({ across: 0.0993, along: 0.0996 }, printer)
    if (!small.ok) throw new Error('within limits')
    expect(small.value.across * 0.0993).toBeCloseTo(0.1, 15)
    expect(small.value.along * 0.0996).toBeCloseTo(0.1, 15)
  })

  test('97.1 across and 99.8 along is refused, with the setting to look for', () => {
    const fit = printCorrection({ across: 0.0971, along: 0.0998 }, printer)
    expect(fit.ok).toBe(false)
    if (fit.ok) return
    expect(fit.issues).toHaveLength(1)
    expect(fit.issues[0]).toMatchObject({ code: 'printing/anisotropic', path: 'printing.checkSquare' })
    expect(fit.issues[0]!.message).toContain('97.1 mm across and 99.8 mm along')
    expect(fit.issues[0]!.hint).toContain('"fit"')
  })

  test('an even shrink of 3 % is a setting, not a printer', () => {
    const shrunk = printCorrection({ across: 0.097, along: 0.097 }, printer)
    expect(shrunk.ok ? [] : shrunk.issues.map(({ code }) => code)).toEqual(['printing/scaled'])
    expect(printCorrection({ across: 0.0985, along: 0.0985 }, printer).ok).toBe(true)
  })

  test('a cutter’s axes may differ, each within 2 %, and its own field is named', () => {
    const cutter = { path: 'printing.cutterSquare', cutter: true }
    const made = printCorrection({ across: 0.0985, along: 0.1 }, cutter)
    expect(made.ok && made.value.across).toBeCloseTo(0.1 / 0.0985, 12)
    expect(printCorrection({ across: 0.0985, along: 0.1 }, printer).ok).toBe(false)
    const off = printCorrection({ across: 0.095, along: 0.1 }, cutter)
    expect(off.ok ? [] : off.issues.map(({ code, path }) => `${code} ${path}`)).toEqual([
      'printing/scaled printing.cutterSquare',
    ])
  })

  test('a length that is not the square, or none, is named by its axis', () => {
    const wrong = printCorrection({ across: 3.9, along: Number.NaN }, printer)
    expect(wrong.ok ? [] : wrong.issues.map(({ path }) => path)).toEqual([
      'printing.checkSquare.across',
      'printing.checkSquare.along',
    ])
  })
})

describe('two small errors that add up to a bare tip', () => {
  const full = { netWidth: 0.2879, overhang: 0.01, allowance: 0, printScale: 1, angle: 45 * degree, shear: 0 }

  test('a print at 97.1 % takes the overhang from 10 to 5.5 mm a side', () => {
    expect(mm(overhangLeft({ ...full, printScale: 0.971 }))).toBeCloseTo(5.5, 1)
  })

  test('and 4° of shear as well leaves less than half a millimetre in all', () => {
    const left = 2 * overhangLeft({ ...full, printScale: 0.971, shear: 4 * degree })
    expect(mm(left)).toBeGreaterThan(0)
    expect(mm(left)).toBeLessThan(0.5)
  })

  test('without an allowance 10° of shear leaves the tips bare by 4 mm a side', () => {
    expect(mm(overhangLeft({ ...full, shear: 10 * degree }))).toBeCloseTo(-4, 1)
    expect(mm(full.netWidth + 2 * overhangLeft({ ...full, shear: 10 * degree }))).toBeCloseTo(280, 0)
  })

  test('the allowance for 4° keeps the whole overhang at 4°', () => {
    const allowance = 0.3079 / (Math.cos(2 * degree) - Math.sin(2 * degree)) - 0.3079
    expect(mm(overhangLeft({ ...full, allowance, shear: 4 * degree }))).toBeCloseTo(10, 9)
  })

  test('a ply along the axes does not shear', () => {
    expect(mm(overhangLeft({ ...full, angle: 0, shear: 10 * degree }))).toBeCloseTo(10, 9)
  })
})
