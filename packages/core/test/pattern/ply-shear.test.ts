import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { contains, distanceToBoundary } from '../../src/geometry/polygon.ts'
import { builtBay } from '../../src/pattern/built/built-bay.ts'
import { plyShears } from '../../src/pattern/built/ply-shear.ts'
import { reliefCuts } from '../../src/pattern/built/relief.ts'
import { yarnNet } from '../../src/pattern/built/yarn-net.ts'
import { patterns } from '../../src/pattern/patterns.ts'
import type { PatternInput } from '../../src/pattern/schedule.ts'
import { geometryOf } from './bays.ts'
import { cloth, demo, ply, steps } from './demo.ts'

const degree = Math.PI / 180
const giving = (limit: number) => ({ ...cloth, maximumShear: { value: limit * degree, confidence: 'plan' } })
const full = (limit: number, angle = 0) => ({ ...ply('P1', angle, steps(0), { overhang: 0.01 }), cloth: giving(limit) })
const input = (limit: number, angle = 0, over: Partial<PatternInput['fins']> = {}): PatternInput => ({
  ...demo,
  fins: { ...demo.fins, ...over },
  plies: [full(limit, angle)],
  layup: { ...demo.layup, overrun: { forward: 0.015, aft: 0.015 } },
})
const shearOf = (plan: PatternInput) => {
  const made = patterns(plan)
  if (!made.ok) throw new Error('can be made')
  return { ...plyShears(plan, made.value)[0]!, net: made.value.shapes[0]!.netOutline }
}
const square = { kind: 'square', width: 0, land: 0.0032 } as const
const unshaped = { leading: square, tip: square, trailing: square }
const noRunOut = { ...demo.fins.fillet, runOut: { forward: 0, aft: 0 } }

describe('the shear of a ply', () => {
  test('is none on a straight can with square edges and a fillet that does not run out', () => {
    for (const angle of [0, 45]) {
      const shear = shearOf(input(30, angle, { edges: unshaped, fillet: noRunOut }))
      expect(shear.field).toEqual([])
      expect(Math.abs(shear.greatest.shear)).toBeLessThan(0.03 * degree)
      expect(shear.mapError).toBe(0)
    }
  })

  test('is greatest round the run-out, the same on both sides, and less round a longer one', () => {
    const short = shearOf(input(30, 0, { edges: unshaped }))
    expect(short.region).toBe('run-out')
    expect(Math.abs(short.greatest.shear)).toBeGreaterThan(10 * degree)
    for (const { at, shear } of short.field) {
      expect(contains(short.net, at)).toBe(true)
      const twin = short.field.find((other) => Math.hypot(other.at[0] - at[0], other.at[1] + at[1]) < 1e-9)
      expect(Math.abs(twin!.shear + shear)).toBeLessThan(0.02 * degree)
    }
    const longer = { ...demo.fins.fillet, runOut: { forward: 0.06, aft: 0.06 } }
    const gentle = shearOf(input(30, 0, { edges: unshaped, fillet: longer }))
    expect(Math.abs(gentle.greatest.shear)).toBeLessThan(0.5 * Math.abs(short.greatest.shear))
  })

  test('comes from bevels where they run into the fillet and meet at the tip', () => {
    const bevel = { kind: 'bevel', width: 0.006, land: 4e-4 } as const
    const shear = shearOf(input(30, 0, { edges: { leading: bevel, tip: bevel, trailing: bevel }, fillet: noRunOut }))
    const near = (x: number, y: number) =>
      shear.field.filter(({ at }) => Math.hypot(at[0] - x, Math.abs(at[1]) - y) < 0.02).length
    const tip = Math.max(...shear.net.map(([, Y]) => Y))
    expect(near(0.005, 0.04)).toBeGreaterThan(0)
    expect(near(0.15, tip) + near(0.27, tip)).toBeGreaterThan(0)
    expect(near(0.15, 0.06)).toBe(0)
  })

  test('moves by less than half a degree from a net of 2.5 mm to one of half that', () => {
    const { shape } = geometryOf(demo)
    const made = patterns(input(30))
    if (!made.ok) throw new Error('can be made')
    const { netOutline, buildUp } = made.value.shapes[0]!
    // The greatest in the fillet, bevels in; at the run-out's free edge the cells themselves end elsewhere.
    const greatest = (step: number) => {
      const wanted = (p: Point) => contains(netOutline, p) && p[0] > 0.002 && p[0] < 0.298
      const { cells } = yarnNet({ bay: builtBay(shape, buildUp), start: 0.15, angle: 0, step, wanted, reach: 0.22 })
      return Math.max(...cells.map((cell) => Math.abs(cell.shear)))
    }
    const [coarse, fine] = [greatest(2.5e-3), greatest(1.25e-3)]
    expect(fine).toBeGreaterThan(2 * degree)
    expect(Math.abs(coarse - fine)).toBeLessThan(0.5 * degree)
  })

  test('a can that narrows with canted fins shears less than a degree on face and body', () => {
    const plan = input(30, 45, { edges: unshaped, fillet: noRunOut, cant: 0.5 * degree })
    const shear = shearOf({ ...plan, tube: { ...plan.tube, aftRadius: 0.042 } })
    expect(Math.abs(shear.greatest.shear)).toBeLessThan(degree)
    expect(shear.mapError).toBeGreaterThan(0)
    expect(shear.mapError).toBeLessThan(5e-4)
  })

  test('plies alike share one net; cloth without crossing yarns has none', () => {
    const veil = { ...cloth, maximumShear: null }
    const thin = { thickness: 0, stepBack: steps(0.04, 0.04, 0.04) }
    const plan = {
      ...input(30),
      plies: [
        { ...full(30), ...thin },
        { ...full(20), ...thin, id: 'P2' },
        { ...full(1), ...thin, id: 'P3', cloth: veil },
      ],
    }
    const made = patterns(plan)
    if (!made.ok) throw new Error('can be made')
    const shears = plyShears(plan, made.value)
    expect(shears.map(({ ply: id }) => id)).toEqual(['P1', 'P2'])
    expect(shears[1]!.greatest).toEqual(shears[0]!.greatest)
    expect(shears.map(({ limit }) => Math.round(limit.value / degree))).toEqual([30, 20])
  })
})

describe('cuts that relieve it', () => {
  test('none within the limit; on both sides where it is passed, from the net line into the patch', () => {
    expect(shearOf(input(60)).cuts).toEqual([])
    const { cuts, net } = shearOf(input(5))
    expect(cuts.length).toBeGreaterThanOrEqual(2)
    for (const { from, to, shear, opening } of cuts) {
      expect(distanceToBoundary(net, from)).toBeLessThan(1e-9)
      expect(shear).toBeGreaterThan(5 * degree)
      expect(opening).toBeGreaterThan(0)
      expect(Math.hypot(to[0] - from[0], to[1] - from[1])).toBeLessThan(0.05)
    }
    expect(cuts.some(({ from }) => from[1] > 0) && cuts.some(({ from }) => from[1] < 0)).toBe(true)
  })

  test('a shallow patch is trimmed, a deep one slit, and patches apart are told apart', () => {
    const net: Point[] = [
      [0, 0],
      [0.1, 0],
      [0.1, 0.1],
      [0, 0.1],
    ]
    const strip = (X: number, depth: number) =>
      Array.from({ length: Math.round(depth / 1e-3) }, (_, k) => ({ at: [X, (k + 0.5) * 1e-3] as Point, shear: 0.5 }))
    const cells = [...strip(0.03, 0.003), ...strip(0.06, 0.012), { at: [0.05, 0.05] as Point, shear: 0.1 }]
    const cuts = reliefCuts({ cells, step: 1e-3, limit: 0.4, net })
    expect(cuts.map(({ kind }) => kind)).toEqual(['trim', 'cut'])
    expect(cuts[1]!.from[0]).toBeCloseTo(0.06, 12)
    expect(cuts[1]!.to[1]).toBeCloseTo(0.012, 12)
    expect(cuts[1]!.opening).toBeCloseTo(0.012 * Math.tan(0.1), 12)
    expect(cuts[1]!.area).toBeCloseTo(12e-6, 12)
  })
})

test('a piece laid before is not laid again: the same figures; another limit cuts otherwise, another surface shears otherwise', () => {
  const first = shearOf(input(30))
  const again = shearOf(input(30))
  expect(again).toEqual(first)
  // the very same field, not one worked out anew
  expect(again.field).toBe(first.field)
  const tight = shearOf(input(5))
  expect(tight.field).toBe(first.field)
  expect(tight.cuts.length).toBeGreaterThan(first.cuts.length)
  const longer = { ...demo.fins.fillet, runOut: { forward: 0.015, aft: 0.0151 } }
  const other = shearOf(input(30, 0, { fillet: longer }))
  expect(Math.abs(other.greatest.shear)).not.toBe(Math.abs(first.greatest.shear))
  expect(shearOf(input(30, 0, { edges: unshaped })).greatest.shear).not.toBe(first.greatest.shear)
})
