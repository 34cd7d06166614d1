/** Laws of conduction: what goes in stays in, second order in time and depth, no new extremes, likeness of scaled walls. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { conduction, stageShare } from '../../src/flight/heat/conduction.ts'
import { type ThermalLayer, type WallShape, wallOf } from '../../src/flight/heat/section.ts'
import { core, skin } from './flight.ts'

const recovery = 400
const start = 290

interface Run {
  readonly wall?: Partial<WallShape>
  /** Recovery temperature and coefficient at a time. */
  readonly air?: (t: number) => { readonly recovery: number; readonly h: number }
  readonly seconds?: number
  readonly steps?: number
}

function run({ wall: shape = {}, air = () => ({ recovery, h: 800 }), seconds = 4, steps = 80 }: Run) {
  const wall = wallOf({ layers: [skin, core], shape: 'slab', inner: 'adiabatic', cells: 40, ...shape })
  const T = new Float64Array(wall.depth.length).fill(start)
  const advance = conduction(wall)
  const d = seconds / steps
  const heating = (t: number) => {
    const { recovery: Tr, h } = air(t)
    return { recovery: Tr, coefficient: (Tw: number) => h * (1 + 2e-4 * (Tr - Tw)) }
  }
  let heat = 0
  for (let j = 0; j < steps; j++) {
    const report = advance(T, {
      duration: d,
      start: heating(j * d),
      stage: heating((j + stageShare) * d),
      end: heating((j + 1) * d),
    })
    heat += report.heat
    expect(report.residual).toBeLessThan(1e-9)
  }
  const held = wall.capacity.reduce((sum, C, i) => sum + C * (T[i] - start), 0)
  return { wall, T, heat, held }
}

const layer = fc.record({
  thickness: fc.double({ min: 1e-4, max: 5e-3, noNaN: true }),
  conductivity: fc.double({ min: 0.05, max: 200, noNaN: true }),
  density: fc.double({ min: 100, max: 3000, noNaN: true }),
  specificHeat: fc.double({ min: 500, max: 2000, noNaN: true }),
})
const walls = fc.array(layer, { minLength: 1, maxLength: 5 })

describe('energy', () => {
  test('the wall holds what came in through its faces', () => {
    fc.assert(
      fc.property(
        walls,
        fc.constantFrom('adiabatic', 'heated'),
        fc.double({ min: 1, max: 5000, noNaN: true }),
        (layers, inner, h) => {
          const { heat, held, wall } = run({ wall: { layers, inner }, air: () => ({ recovery, h }) })
          // What 80 solutions may round off: the matrix's largest entry times the temperature.
          const size = Math.max(...wall.capacity) + 0.05 * Math.max(...wall.conductance)
          expect(Math.abs(heat - held)).toBeLessThan(80 * recovery * size * 1e-13)
        },
      ),
      { numRuns: 60 },
    )
  })
  test('capacity is that of the layers, whatever the mesh', () => {
    fc.assert(
      fc.property(walls, fc.integer({ min: 2, max: 80 }), (layers, cells) => {
        const { capacity, depth } = wallOf({ layers, shape: 'slab', inner: 'adiabatic', cells })
        const whole = layers.reduce((sum, l) => sum + l.thickness * l.density * l.specificHeat, 0)
        expect(capacity.reduce((sum, C) => sum + C, 0) / whole).toBeCloseTo(1, 12)
        expect(depth.at(-1)).toBeCloseTo(
          layers.reduce((sum, l) => sum + l.thickness, 0),
          15,
        )
      }),
    )
  })
  test('a cylinder holds half of what a slab as thick as its radius does', () => {
    const shape = { layers: [skin], inner: 'adiabatic', cells: 37 } as const
    const sum = (kind: 'slab' | 'cylinder') =>
      wallOf({ ...shape, shape: kind }).capacity.reduce((total, C) => total + C, 0)
    expect(sum('cylinder') / sum('slab')).toBeCloseTo(0.5, 12)
  })
})

test('no temperature leaves the range of start and recovery', () => {
  fc.assert(
    fc.property(walls, fc.double({ min: 1, max: 1e4, noNaN: true }), (layers, h) => {
      const { T } = run({ wall: { layers }, air: () => ({ recovery, h }), seconds: 20, steps: 20 })
      expect(Math.min(...T)).toBeGreaterThan(start - 0.5)
      expect(Math.max(...T)).toBeLessThan(recovery + 0.5)
    }),
    { numRuns: 60 },
  )
})

test('both faces heated alike is twice the half', () => {
  const half = run({ wall: { layers: [skin, core] } })
  const whole = run({
    wall: { layers: [skin, { ...core, thickness: 2 * core.thickness }, skin], inner: 'heated', cells: 80 },
  })
  expect(whole.T[0]).toBeCloseTo(half.T[0], 3)
  expect(whole.T[0]).toBeCloseTo(whole.T.at(-1)!, 9)
  expect(whole.heat / (2 * half.heat)).toBeCloseTo(1, 4)
})

test('the order of layers matters, a cut through a layer does not', () => {
  const cut = [0.3, 0.7].map((share) => ({ ...skin, thickness: share * skin.thickness }))
  const [one, two] = [
    [skin, core],
    [...cut, core],
  ].map((layers) => run({ wall: { layers, cells: 200 } }))
  expect(two.T[0]).toBeCloseTo(one.T[0], 2)
  expect(Math.abs(run({ wall: { layers: [core, skin] } }).T[0] - one.T[0])).toBeGreaterThan(2)
})

test('a wall c times as thick in c² times the time at h/c is the same wall', () => {
  const c = 3
  const thicker = (l: ThermalLayer): ThermalLayer => ({ ...l, thickness: c * l.thickness })
  const one = run({})
  const other = run({
    wall: { layers: [skin, core].map(thicker) },
    air: () => ({ recovery, h: 800 / c }),
    seconds: 4 * c ** 2,
  })
  one.T.forEach((T, i) => {
    expect(other.T[i]).toBeCloseTo(T, 9)
  })
})

/** Heating that starts gently, so that nothing but the order of the method is seen. */
const gentle = (t: number) => ({ recovery: 290 + 100 * Math.sin(t / 3) ** 2, h: 900 * Math.sin(t / 4) ** 2 })
const orders = (values: readonly number[]): number[] =>
  values.slice(2).map((value, i) => Math.log2((values[i + 1] - values[i]) / (value - values[i + 1])))

test('second order in time', () => {
  const surface = [10, 20, 40, 80, 160].map((steps) => run({ air: gentle, steps }).T[0])
  for (const order of orders(surface).slice(1)) expect(Math.abs(order - 2)).toBeLessThan(0.15)
})

test('second order in depth', () => {
  const surface = [10, 20, 40, 80].map(
    (cells) => run({ wall: { layers: [skin], cells }, air: gentle, steps: 200 }).T[0],
  )
  for (const order of orders(surface)) expect(Math.abs(order - 2)).toBeLessThan(0.05)
})
