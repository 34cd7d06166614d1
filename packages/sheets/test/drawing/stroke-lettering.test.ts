/** Letters of single strokes: every sign that a sheet prints has one, and words take the width they were laid out for. */
import { describe, expect, test } from 'vitest'
import { path, stroke, text } from '../../src/drawing/drawing.ts'
import { textWidth } from '../../src/drawing/lettering.ts'
import { plotted } from '../../src/drawing/plotting.ts'
import { letterStrokes } from '../../src/drawing/stroke-lettering.ts'
import { strokeLetters } from '../../src/drawing/stroke-letters.data.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { plyPatterns } from '../../src/pattern/ply-patterns.ts'
import { demoAssessment } from '../fixture/demo.ts'

describe('stroke letters', () => {
  test('every sign on the demo’s patterns, in both systems of units, has its own', () => {
    const signs = new Set(
      (['metric', 'us'] as const).flatMap((units) =>
        plyPatterns(demoAssessment, figuresIn(units), null).flatMap(({ items }) =>
          items.flatMap((item) => (item.kind === 'text' ? [...item.text] : [])),
        ),
      ),
    )
    expect(signs.size).toBeGreaterThan(30)
    expect([...signs].filter((sign) => sign !== ' ' && strokeLetters[sign] === undefined)).toEqual([])
  })

  test('are inside their own box: as wide as they say, from two units below the line to the capitals’ height', () => {
    for (const [sign, row] of Object.entries(strokeLetters)) {
      const [width, ...strokes] = row.split('|')
      expect(strokes.length, sign).toBeGreaterThan(0)
      for (const stroke of strokes)
        for (const point of stroke.split(' ')) {
          expect(point, sign).toMatch(/^[0-9][0-7ab]$/)
          expect(Number(point[0]), sign).toBeLessThanOrEqual(Number(width))
        }
    }
  })

  test('no two signs look the same', () => {
    const drawn = Object.entries(strokeLetters).filter(([sign]) => !'−–'.includes(sign))
    expect(new Set(drawn.map(([, row]) => row)).size).toBe(drawn.length)
  })

  test('words are as wide as in print, turned and anchored', () => {
    const words = text([50, 20], 'A-2-P3 +45°', { size: 5, face: 'letter', anchor: 'end', turn: -Math.PI / 2 })
    const points = letterStrokes(words).flat()
    const Y = points.map(([, y]) => y)
    const width = textWidth('A-2-P3 +45°', { size: 5, face: 'letter' })
    expect(Math.max(...Y)).toBeCloseTo(20 + width, 9)
    expect(Math.min(...Y)).toBeCloseTo(20, 9)
    const X = points.map(([x]) => x)
    expect(Math.max(...X)).toBeCloseTo(50, 9)
    expect(Math.min(...X)).toBeCloseTo(50 - 3.5, 9)
  })
})

test('broken lines are broken up: the strokes and the gaps are those of the pattern', () => {
  const broken = path(
    [
      [0, 0],
      [30, 0],
      [30, 30],
    ],
    false,
    { layer: 'fold', stroke: stroke(0.25, 'ink', [6, 4]) },
  )
  const { items } = plotted({ width: 40, height: 40, title: '', items: [broken] })
  const lengths = items.map((item) => {
    if (item.kind !== 'path') throw new Error('only paths')
    return item.vertices.slice(1).reduce((sum, [x, y], i) => {
      const [x0, y0] = item.vertices[i]
      return sum + Math.hypot(x - x0, y - y0)
    }, 0)
  })
  expect(lengths.map((length) => Number(length.toFixed(9)))).toEqual([6, 6, 6, 6, 6, 6])
})
