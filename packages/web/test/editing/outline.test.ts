/** Dragging, snapping and writing the outline without a browser. */
import { readFileSync } from 'node:fs'
import { applyCommand } from '@finwright/plan/protocol/apply.ts'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { describe, expect, test } from 'vitest'
import { lengthText, outlineIntent } from '../../src/features/outline/outline.commands.ts'
import { sweepOf } from '../../src/features/outline/outline.results.ts'
import {
  asPoints,
  asTrapezoid,
  dragged,
  edgesOf,
  type FreePoints,
  originShift,
  pointsOf,
  type Shape,
  shapeOf,
  withoutPoint,
  withPoint,
} from '../../src/features/outline/shape.ts'
import { snapped } from '../../src/features/outline/snap.ts'
import { toFin, toScreen, viewOf } from '../../src/features/outline/view.ts'

const plan = JSON.parse(readFileSync('examples/demo.fincan.json', 'utf8')) as JsonObject
const demo = shapeOf(plan)!
const point = (at: number) => ({ kind: 'point', at }) as const

const close = (shape: Shape) => ({
  ...shape,
  ...Object.fromEntries(
    Object.entries(shape).flatMap(([name, value]) =>
      typeof value === 'number' ? [[name, expect.closeTo(value, 9)]] : [],
    ),
  ),
})

describe('a trapezoid under the hand', () => {
  const is = (shape: Shape, wanted: object): void => expect(shape).toEqual(close({ ...demo, ...wanted } as Shape))
  test('is the plan’s', () => is(demo, { root: 0.3, tip: 0.12, span: 0.11, tipOffset: 0.15 }))
  test('the tip’s leading end moves against its trailing end, which stays', () =>
    is(dragged(demo, point(1), [0.17, 0.12]), { tipOffset: 0.17, tip: 0.1, span: 0.12 }))
  test('the tip’s trailing end makes the tip longer', () =>
    is(dragged(demo, point(2), [0.3, 0.1]), { tip: 0.15, span: 0.1 }))
  test('the whole tip keeps its length', () =>
    is(dragged(demo, { kind: 'piece', at: 1 }, [0.1, 0.13]), { tipOffset: 0.1, span: 0.13 }))
  test('the root’s trailing end', () => is(dragged(demo, point(3), [0.28, 0.4]), { root: 0.28 }))
  test('the root’s leading end moves the origin, and everything else stays on the paper', () => {
    const next = dragged(demo, point(0), [-0.02, 0])
    is(next, { root: 0.32, tipOffset: 0.17 })
    const shift = originShift(demo, next, point(0))
    expect(shift).toBeCloseTo(-0.02, 12)
    for (const i of [1, 2, 3]) expect(pointsOf(next)[i]![0] + shift).toBeCloseTo(pointsOf(demo)[i]![0], 12)
  })
  test('no dimension becomes less than the plan allows', () => {
    is(dragged(demo, point(1), [0.5, -1]), { tipOffset: 0.27, tip: 0, span: 0.005 })
    is(dragged(demo, point(3), [-1, 0]), { root: 0.01 })
  })
})

describe('free points', () => {
  const free = asPoints(demo)
  test('have their edges named, and are a trapezoid again', () => {
    expect(edgesOf(free)).toEqual(['leading', 'tip', 'trailing'])
    expect(asTrapezoid(free)).toEqual(close(demo))
  })
  test('a point is put in, dragged and taken out again', () => {
    const more = withPoint(free, 0)
    expect(more.points).toHaveLength(5)
    expect(edgesOf(more)).toEqual(['leading', 'leading', 'tip', 'trailing'])
    const bent = dragged(more, point(1), [0.05, 0.07]) as FreePoints
    expect(bent.points[1]).toEqual([0.05, 0.07])
    expect(asTrapezoid(bent)).toBeNull()
    expect(withoutPoint(bent, 1)).toEqual(free)
  })
  test('the ends of the root stay, and three points', () => {
    expect([withoutPoint(free, 0), withoutPoint(free, 3)]).toEqual([null, null])
    expect(withoutPoint(withoutPoint(free, 1)!, 1)).toBeNull()
    expect((dragged(free, point(3), [0.31, 0.4]) as FreePoints).points[3]).toEqual([0.31, 0])
    expect((dragged(free, point(1), [0.1, -0.3]) as FreePoints).points[1]![1]).toBeGreaterThan(0)
  })
  test('a tip that is a point counts once', () => {
    expect(asPoints({ ...demo, tip: 0 } as Shape).points).toHaveLength(3)
  })
})

describe('what the hand is drawn to', () => {
  const rules = { grid: 5e-3, rightAngles: true, reach: 2e-3 }
  test('the grid', () => expect(snapped([0.1021, 0.0984], [], rules).point).toEqual([0.1, expect.closeTo(0.1, 12)]))
  test('square over a neighbour, level with one', () => {
    const neighbours = [
      [0, 0],
      [0.2713, 0.1107],
    ] as const
    expect(snapped([0.001, 0.05], neighbours, rules)).toEqual({ point: [0, expect.closeTo(0.05)], to: ['square'] })
    expect(snapped([0.15, 0.11], neighbours, rules)).toEqual({ point: [0.15, 0.1107], to: ['level'] })
  })
  test('a right angle between its neighbours', () => {
    const [a, b] = [[0, 0] as const, [0.2, 0.1] as const]
    const { point: at, to } = snapped([0.08, 0.161], [a, b], { ...rules, grid: 0, reach: 4e-3 })
    expect(to).toEqual(['right angle'])
    expect((at[0] - a[0]) * (at[0] - b[0]) + (at[1] - a[1]) * (at[1] - b[1])).toBeCloseTo(0, 12)
  })
  test('nothing, where both are off', () => {
    const off = { grid: 0, rightAngles: false, reach: 1 }
    expect(snapped([0.1234567, 0.07654321], [[0.12, 0.07]], off).point).toEqual([0.1234567, 0.07654321])
  })
})

describe('written into the plan', () => {
  test.each([
    [demo, 'metric', { root: '300 mm', tip: '120 mm', span: '110 mm', tipOffset: '150 mm' }],
    [demo, 'us', { root: '11.811 in', tip: '4.724 in', span: '4.331 in', tipOffset: '5.906 in' }],
  ] as const)('in the builder’s units', (shape, units, dimensions) => {
    expect(outlineIntent(shape, units)).toEqual({ name: 'outline.setTrapezoid', payload: dimensions })
  })
  test('reads back as the same shape', () => {
    const free = dragged(withPoint(demo, 2), point(3), [0.33, 0.04])
    const made = applyCommand(outlineIntent(free, 'metric'), { kind: 'plan', plan, files: {} })
    expect(made.ok).toBe(true)
    if (!made.ok) return
    expect(valueAt(made.record.plan, ['fins', 'outline', 'points', 3])).toEqual(['330 mm', '40 mm'])
    const again = shapeOf(made.record.plan)!
    pointsOf(again).forEach(([x, y], i) => {
      expect([x, y]).toEqual(pointsOf(free)[i]!.map((value) => expect.closeTo(value, 5)))
    })
  })
  test('no minus before nothing', () => expect(lengthText(-1e-9, 'metric')).toBe('0 mm'))
  test('an outline that cannot be read is none', () => {
    const outline = { kind: 'trapezoid', root: 'wide', tip: '1 mm', span: '1 mm', tipOffset: '0 mm' }
    expect(shapeOf({ fins: { outline } })).toBeNull()
  })
})

test('sweep is that of the leading edge', () => expect(Math.tan(sweepOf(demo))).toBeCloseTo(150 / 110, 9))

test('the screen and back', () => {
  const view = viewOf(pointsOf(demo), 800)
  const [x, y] = toScreen(view, [0.123, 0.045])
  expect(toFin(view, [x, y])).toEqual([expect.closeTo(0.123, 12), expect.closeTo(0.045, 12)])
  for (const corner of pointsOf(demo).map((one) => toScreen(view, one)))
    expect(corner[0] > 0 && corner[0] < view.width && corner[1] > 0 && corner[1] < view.height).toBe(true)
})
