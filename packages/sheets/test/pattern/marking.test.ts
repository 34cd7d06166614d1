/** Wrap, gauges, placing of words, and the division into tiles. */

import type { PatternPiece } from '@finwright/core/assess/assessment.ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Path, XY } from '../../src/drawing/drawing.ts'
import { arcOf } from '../../src/drawing/extent.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { papers } from '../../src/layout/paper.ts'
import { bestPlace, contains, simplified, turnedBox } from '../../src/layout/placing.ts'
import { filletGauge } from '../../src/pattern/gauges.ts'
import { gridOf, tileSize } from '../../src/pattern/grid.ts'
import { anglesOf, ranges, usedBy } from '../../src/pattern/ply-patterns.ts'
import { tubeWrap, wholeEnds } from '../../src/pattern/tube-wrap.ts'
import { wrapFrame } from '../../src/pattern/wrap-frame.ts'
import { demoAssessment } from '../fixture/demo.ts'

const figures = figuresIn('metric')
const section = demoAssessment.pattern.section!
const tube = demoAssessment.pattern.tube!

describe('the tube wrap', () => {
  const wrap = tubeWrap({ tube, paperThickness: 1e-4, figures })
  const outline = wrap.items.find((item): item is Path => item.kind === 'path' && item.layer === 'cut')!
  test('of a 102.0 mm tube is 320.4 mm round, and π times the paper’s thickness more', () => {
    expect(wrapFrame(tube, 0).round(0)).toBeCloseTo(320.44, 2)
    const [a, b] = outline.vertices
    expect(b[0] - a[0]).toBeCloseTo(Math.PI * (102 + 0.1), 9)
  })
  test('has the fins at equal angles and the fillet feet where the section has them', () => {
    const upright = [...new Set(wrap.upright.map((x) => x.toFixed(6)))].map(Number)
    const length = Math.PI * 102.1
    for (let i = 0; i < 4; i++) {
      const fin = ((i + 0.5) * length) / 4 - length / 2
      expect(upright.some((x) => Math.abs(x - fin) < 1e-5)).toBe(true)
      const foot = (section.filletFoot_deg / 360) * length
      expect(upright.some((x) => Math.abs(x - fin - foot) < 1e-5)).toBe(true)
    }
  })
  test('ends every ply where its net outline crosses the centre line', () => {
    const ends = wholeEnds(tube)
    expect(ends.some(({ label }) => label.includes('P1'))).toBe(true)
    expect(Math.min(...ends.map(({ at }) => at))).toBeLessThan(0)
    expect(Math.max(...ends.map(({ at }) => at))).toBeGreaterThan(section.rootLength_m)
  })
})

test('the fillet gauge is an arc of the tool’s radius with flats tangent to it', () => {
  const fillet = demoAssessment.bond.fillet!
  const body = filletGauge(fillet, [0, 0], figures).items[0] as Path
  const arcs = body.vertices.flatMap(([x, y, bulge = 0], i): { a: XY; b: XY; bulge: number }[] => {
    const next = body.vertices[i + 1]
    return bulge === 0 || next === undefined ? [] : [{ a: [x, y], b: [next[0], next[1]], bulge }]
  })
  const sweeps = arcs.map(({ a, b, bulge }) => arcOf(a, b, bulge))
  for (const { radius } of sweeps) expect(radius).toBeCloseTo(fillet.radius_m * 1e3, 6)
  const turned = sweeps.reduce((sum, { sweep }) => sum + sweep, 0)
  expect((turned * 180) / Math.PI).toBeCloseTo(fillet.openAngle_deg, 6)
  const [first] = sweeps
  const flat = body.vertices[body.vertices.findIndex(([, , bulge = 0]) => bulge !== 0) - 1]
  const touch = arcs[0].a
  const across =
    (flat[0] - touch[0]) * (touch[0] - first.centre[0]) + (flat[1] - touch[1]) * (touch[1] - first.centre[1])
  expect(across).toBeCloseTo(0, 6)
})

describe('tiles', () => {
  test('cover any box, overlap by 10 mm, and are as few as will do', () => {
    const length = fc.double({ min: 20, max: 2000, noNaN: true })
    fc.assert(
      fc.property(length, length, fc.array(length, { maxLength: 4 }), (width, height, upright) => {
        const frame = { box: { x: -5, y: 7, width, height }, outline: [], upright, level: [] }
        const { tiles, rows, columns } = gridOf(frame, papers.letter)
        const size = tileSize(papers.letter)
        expect(tiles).toHaveLength(rows * columns)
        expect(Math.min(...tiles.map(({ box }) => box.x))).toBeLessThanOrEqual(-5 + 1e-6)
        expect(Math.max(...tiles.map(({ box }) => box.x + box.width))).toBeGreaterThanOrEqual(width - 5 - 1e-6)
        expect(Math.max(...tiles.map(({ box }) => box.y + box.height))).toBeGreaterThanOrEqual(height + 7 - 1e-6)
        if (columns > 1) expect((columns - 1) * (size.width - 10) + 10).toBeLessThan(width + 1e-6)
      }),
      { numRuns: 60 },
    )
  })
  test('keep their joins off the long lines', () => {
    const frame = { box: { x: -154, y: 0, width: 308, height: 200 }, outline: [], upright: [0], level: [] }
    const { tiles } = gridOf(frame, papers.a4)
    const join = tiles[0].box.x + tiles[0].box.width - 5
    expect(Math.abs(join)).toBeGreaterThanOrEqual(17 - 1)
  })
})

describe('places for words', () => {
  const around = { inside: null, lines: [], boxes: [turnedBox([10, 10], 8, 4, 0.3)] }
  test('avoid other words before lines, and lines before distance', () => {
    const spots = [
      { name: 'on words', box: turnedBox([12, 10], 4, 2, 0) },
      { name: 'on a line', box: turnedBox([30, 10], 4, 2, 0), cost: 1 },
      { name: 'free', box: turnedBox([50, 10], 4, 2, 0), cost: 5 },
    ]
    const lines = [
      [
        [30, 0],
        [30, 20],
      ] as const,
    ]
    expect(bestPlace(spots, { ...around, lines })!.place.name).toBe('free')
    expect(bestPlace(spots.slice(0, 2), { ...around, lines })!.place.name).toBe('on a line')
  })
  test('a simplified outline stays close to the one it stands for', () => {
    const circle = Array.from({ length: 400 }, (_, i): XY => [50 * Math.cos(i / 63.66), 50 * Math.sin(i / 63.66)])
    const few = simplified(circle)
    expect(few.length).toBeLessThan(80)
    for (const [x, y] of circle) expect(contains(few, [x * 0.985, y * 0.985])).toBe(true)
  })
})

test('pieces are named by can and bay, mirrored angles by their bays', () => {
  const piece = (can: string, bay: number, angle_deg: number) => ({ can, bay, angle_deg }) as PatternPiece
  const four = [1, 2, 3, 4]
  expect(ranges([1, 2, 3, 4])).toBe('bays 1–4')
  expect(ranges([3])).toBe('bay 3')
  expect(usedBy(['A', 'B'].flatMap((can) => four.map((bay) => piece(can, bay, 0))))).toBe('A, B · bays 1–4')
  expect(
    anglesOf(
      four.map((bay) => piece('A', bay, bay % 2 === 0 ? -30 : 30)),
      figures,
    ),
  ).toBe('+30° (bays 1, 3), −30° (bays 2, 4)')
})
