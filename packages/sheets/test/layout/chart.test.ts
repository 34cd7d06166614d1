import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Path, Primitive, Text } from '../../src/drawing/drawing.ts'
import { extent, overlaps } from '../../src/drawing/extent.ts'
import { type ChartInput, chart, plotOf } from '../../src/layout/chart.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { spread } from '../../src/layout/placing.ts'

const flat = (items: readonly Primitive[]): Primitive[] =>
  items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]))
const textsIn = (items: readonly Primitive[]): Text[] =>
  flat(items).filter((item): item is Text => item.kind === 'text')
const curvesIn = (items: readonly Primitive[]): Path[] =>
  flat(items).filter(
    (item): item is Path => item.kind === 'path' && item.layer === 'mark' && item.stroke?.width === 0.5,
  )

const x = Array.from({ length: 21 }, (_, i) => i / 10)
const input: ChartInput = {
  ...{ x: 0, y: 0, width: 180, height: 80, title: 'A title', xLabel: 'across', yLabel: 'up' },
  series: [
    { x, y: x.map((v) => 3 + v), label: 'the upper one', width: 0.5 },
    { x, y: x.map((v) => 2 * v), label: 'the lower one', dash: [2, 1] },
  ],
  marks: [{ x: 1, y: 2, label: 'a place on it' }],
  levels: [{ y: 1, label: 'a level' }],
  bands: [{ from: 0.4, to: 0.8, label: 'some words in a band' }],
  spans: [{ x: 1.4, from: 2.8, to: 4.4, label: 'how far apart' }],
}

test('every name is there once, and no level one on another', () => {
  const items = chart(input)
  const words = textsIn(items).map(({ text }) => text)
  for (const name of ['the upper one', 'the lower one', 'a place on it', 'a level', 'how far apart'])
    expect(words.filter((word) => word === name)).toHaveLength(1)
  const boxes = textsIn(items)
    .filter(({ turn, text }) => turn === 0 && text !== '')
    .map((word) => extent([word])!)
  expect(boxes.length).toBeGreaterThan(8)
  boxes.forEach((box, i) => {
    for (const other of boxes.slice(i + 1)) expect(overlaps(box, other, -0.3)).toBe(false)
  })
})

test('a curve is where its numbers are, and a gap stays a gap', () => {
  const y = x.map((v) => (v > 0.95 && v < 1.25 ? null : 3 + v))
  const own = { ...input, series: [{ x, y, label: '', width: 0.5 }] }
  const curves = curvesIn(chart(own))
  expect(curves).toHaveLength(2)
  const { at } = plotOf(own)
  expect(curves[0].vertices[0]).toEqual(at(0, 3))
  expect(curves[0].vertices.length + curves[1].vertices.length).toBe(18)
})

describe('axes', () => {
  test('reach below zero with a proper minus', () => {
    const words = textsIn(chart({ ...input, yRange: [-2, 6] })).map(({ text }) => text)
    expect(words).toContain('−2')
  })
  test('carry the unit asked for: one foot a second is 0.3048 m/s, one psi 6894.757 Pa', () => {
    const us = figuresIn('us')
    expect(us.axis('speed').of(0.3048)).toBeCloseTo(1, 12)
    expect(us.axis('pressure').of(6894.757293168361)).toBeCloseTo(1, 12)
    expect(us.axis('line force').of(4.4482216152605 / 0.0254)).toBeCloseTo(1, 12)
    expect(us.axis('line moment').of(4.4482216152605)).toBeCloseTo(1, 12)
    expect(figuresIn('metric').axis('stress').of(12e6)).toBeCloseTo(12, 12)
  })
})

test('pushed apart, places keep their order and their distance, and move no further than they must', () => {
  fc.assert(
    fc.property(fc.array(fc.double({ min: 0, max: 50, noNaN: true }), { minLength: 1, maxLength: 12 }), (wanted) => {
      const places = spread(wanted, 3)
      const order = wanted.map((_, i) => i).sort((a, b) => places[a] - places[b])
      order.slice(1).forEach((i, k) => {
        expect(places[i] - places[order[k]]).toBeGreaterThanOrEqual(3 - 1e-6)
        expect(wanted[i]).toBeGreaterThanOrEqual(wanted[order[k]])
      })
      const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
      expect(mean(places)).toBeCloseTo(mean(wanted), 6)
    }),
  )
})
