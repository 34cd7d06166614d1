import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Face } from '../../src/drawing/drawing.ts'
import { text } from '../../src/drawing/drawing.ts'
import { fontFile } from '../../src/drawing/font-files.ts'
import { fontFeatures } from '../../src/drawing/ink.ts'
import { capHeight, faceFor, printable, shortened, textWidth, wrapped } from '../../src/drawing/lettering.ts'
import { advanceRuns } from '../../src/drawing/metrics.data.ts'
import { openFont } from '../reading/font.ts'

const faces = Object.keys(advanceRuns) as Face[]
const fonts = new Map(faces.map((face) => [face, openFont(fontFile(face))]))

describe.each(faces)('the face %s', (face) => {
  const font = fonts.get(face)!
  test('has the widths of its file', () => {
    const letters = advanceRuns[face].flatMap(([first, row]) =>
      row.split(' ').map((width, i) => ({ code: first + i, width: Number(width) })),
    )
    expect(letters.length).toBeGreaterThan(300)
    for (const { code, width } of letters) {
      const run = font.layout(String.fromCodePoint(code), fontFeatures)
      expect(
        Math.abs(run.advanceWidth * (1000 / font.unitsPerEm) - width),
        `U+${code.toString(16)}`,
      ).toBeLessThanOrEqual(0.5)
    }
  })
  test('has every sign that the sheets use', () => {
    for (const sign of '±°²³·–—−×→←↑↓½’“”…/|√≥≤()[]%+=_') {
      expect(font.hasGlyphForCodePoint(sign.codePointAt(0)!), `${face} ${sign}`).toBe(true)
      expect(printable(sign, face)).toBe(sign)
    }
  })
  test('has capitals as high as said', () => {
    expect(font.capHeight / font.unitsPerEm).toBeCloseTo(capHeight[face], 2)
  })
})

test.each(['text', 'strong', 'italic'] as const)('the sans %s has figures of one width', (face) => {
  const widths = [...'0123456789'].map((figure) => textWidth(figure, { size: 100, face }))
  expect(Math.max(...widths) - Math.min(...widths)).toBeLessThan(0.2)
})

test('a long text is as wide as the font sets it', () => {
  const words = 'Cut 12 pieces of 45° cloth, 287.9 × 330.0 mm, ±5 %'
  for (const face of faces) {
    const run = fonts.get(face)!.layout(words, fontFeatures)
    const set = (run.advanceWidth / fonts.get(face)!.unitsPerEm) * 4
    expect(textWidth(words, { size: 4, face })).toBeCloseTo(set, 1)
  }
})

test('letters that no face has become question marks, and lettering falls back to the sans for Greek', () => {
  expect(text([0, 0], '飛 A\tB', { size: 3 }).text).toBe('? A B')
  expect(faceFor('φ 75°', 'letter')).toBe('text')
  expect(text([0, 0], 'φ 75°', { size: 3, face: 'title' })).toMatchObject({ face: 'strong', text: 'φ 75°' })
})

test('a wrapped line is never wider than its room', () => {
  fc.assert(
    fc.property(fc.string({ maxLength: 200 }), fc.double({ min: 8, max: 120, noNaN: true }), (words, width) => {
      const lettering = { size: 3.5, face: 'text' } as const
      for (const line of wrapped(words, width, lettering)) {
        if ([...line].length > 1) expect(textWidth(line, lettering)).toBeLessThanOrEqual(width + 1e-9)
      }
    }),
  )
})

test('a shortened line fits and ends with an ellipsis only when it was cut', () => {
  const lettering = { size: 4, face: 'letter' } as const
  expect(shortened('short', 100, lettering)).toBe('short')
  const cut = shortened('a very long name of a cloth', 30, lettering)
  expect(cut.endsWith('…')).toBe(true)
  expect(textWidth(cut, lettering)).toBeLessThanOrEqual(30)
})
