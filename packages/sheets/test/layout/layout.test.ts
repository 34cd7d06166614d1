import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { line, pen, stroke } from '../../src/drawing/drawing.ts'
import { extent } from '../../src/drawing/extent.ts'
import { type Block, paged } from '../../src/layout/block.ts'
import { ticksTo } from '../../src/layout/chart.ts'
import { figuresIn, none, percent, plain, ratio } from '../../src/layout/figures.ts'
import { fingerprint, fnv1a } from '../../src/layout/fingerprint.ts'
import { table } from '../../src/layout/table.ts'
import { readable } from '../../src/sheets/readable.ts'

/** A block that draws its own left edge, so that its place can be read back. */
const bar = (height: number, more: Partial<Block> = {}): Block => ({
  height,
  gap: 2,
  draw: ([x, y]) => [line([x, y], [x, y + height], stroke(pen.thin))],
  ...more,
})

describe('blocks on pages', () => {
  test('none is lost, none passes the column’s end, whatever their heights', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 1, max: 60, noNaN: true }), { minLength: 1, maxLength: 40 }), (heights) => {
        const column = { x: 10, y: 20, height: 60 }
        const pages = paged(
          heights.map((height) => bar(height)),
          column,
        )
        expect(pages.flat()).toHaveLength(heights.length)
        for (const items of pages) {
          const box = extent(items)!
          expect(box.y).toBeCloseTo(20, 9)
          expect(box.y + box.height).toBeLessThanOrEqual(80 + 1e-9)
        }
      }),
    )
  })
  test('one that keeps with the next goes over with it', () => {
    const pages = paged([bar(40), bar(5, { keep: true }), bar(20)], { x: 0, y: 0, height: 60 })
    expect(pages.map((items) => items.length)).toEqual([1, 2])
  })
  test('the head of a table stands again on the next page', () => {
    const rows = Array.from({ length: 12 }, (_, i) => [`row ${i}`])
    const pages = paged(table([{ head: 'name', share: 1 }], rows, 80, { rowHeight: 10 }), { x: 0, y: 0, height: 60 })
    expect(pages.length).toBeGreaterThan(1)
    for (const items of pages) expect(items.some((item) => item.kind === 'text' && item.text === 'name')).toBe(true)
  })
})

describe('figures', () => {
  const metric = figuresIn('metric')
  const us = figuresIn('us')
  test('have the decimals of their use, in the builder’s units', () => {
    expect(metric.length(0.28794)).toBe('287.9 mm')
    expect(us.length(0.28794)).toBe('11.336 in')
    expect(metric.pressure(152_345)).toBe('152 kPa')
    expect(us.pressure(152_345)).toBe('22.1 psi')
    expect(metric.temperature(331.15)).toBe('58 °C')
    expect(us.temperature(331.15)).toBe('136 °F')
    expect(us.moment(1)).toBe('9 lbf·in')
    expect(us.surface(0.9144 ** 2)).toBe('1.00 yd²')
  })
  test('masses at the scale are grams in both', () => {
    expect(metric.grams(0.0541)).toBe('54.1 g')
    expect(us.grams(0.0541)).toBe('54.1 g')
  })
  test('what does not exist is a dash, and minus is a minus', () => {
    expect([metric.length(null), ratio(undefined), percent(null)]).toEqual([none, none, none])
    expect(plain(-0.04, 1)).toBe('0.0')
    expect(plain(-1.25, 1)).toBe('−1.3')
    expect([metric.ply(45), metric.ply(-45), metric.ply(0)]).toEqual(['+45°', '−45°', '0°'])
  })
  test('sources read in the builder’s units', () => {
    expect(readable('12000000000 Pa', 'metric')).toBe('12 GPa')
    expect(readable('35 MPa', 'us')).toBe('5.076 ksi')
    expect(readable('331.15 K', 'metric')).toBe('58 °C')
    expect(readable('0.2 kg/m²', 'metric')).toBe('200 g/m²')
    expect(readable('method', 'us')).toBe('method')
  })
})

test('a fingerprint changes with what it is of', () => {
  expect(fingerprint(['a'])).toMatch(/^[0-9a-f]{8}$/)
  expect(fingerprint(['a'])).not.toBe(fingerprint(['b']))
  // published test values of FNV-1a, 32 bits (draft-eastlake-fnv, appendix C; recalled)
  const bytes = (words: string) => new TextEncoder().encode(words)
  expect(fnv1a(bytes('')).toString(16)).toBe('811c9dc5')
  expect(fnv1a(bytes('a')).toString(16)).toBe('e40c292c')
  expect(fnv1a(bytes('foobar')).toString(16)).toBe('bf9cf968')
})

test('ticks are 1, 2 or 5 times a power of ten apart and reach the end', () => {
  fc.assert(
    fc.property(fc.double({ min: 1e-6, max: 1e9, noNaN: true }), (end) => {
      const ticks = ticksTo(end, 5)
      const lead = Number((ticks[1] / 10 ** Math.floor(Math.log10(ticks[1] * (1 + 1e-9)))).toFixed(6))
      expect([1, 2, 5]).toContain(lead)
      expect(ticks.length).toBeLessThanOrEqual(7)
      expect(end - ticks[ticks.length - 1]).toBeLessThan(ticks[1] * (1 + 1e-6))
    }),
  )
})
