import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { area, bounds, contains, signedArea } from '../../src/geometry/polygon.ts'
import { selfCrossing } from '../../src/geometry/polygon-crossing.ts'
import { type PlyShape, patterns } from '../../src/pattern/patterns.ts'
import type { PatternInput, ScheduledPly } from '../../src/pattern/schedule.ts'
import { bayInput, bayKnobs } from './bays.ts'
import { demo, ply, steps } from './demo.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

const shapesOf = (input: PatternInput): readonly PlyShape[] => {
  const made = patterns(input)
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value.shapes
}
const withPly = (over: Partial<ScheduledPly>, input: PatternInput = demo): PatternInput => ({
  ...input,
  plies: [{ ...ply('P1', 0, steps(0), { overhang: 0.01 }), ...over }],
})
const onCan = (ahead: number | null, behind: number | null, input: PatternInput = demo): PatternInput => ({
  ...input,
  tube: { ...input.tube, ahead, behind },
  layup: { ...input.layup, overrun: { forward: 0.02, aft: 0.02 } },
})
const mirrored = (polygon: readonly Point[]) => polygon.map(([X, Y]): Point => [X, -Y])
/** Greatest distance of a polygon's corners from the other's nearest corner. */
const off = (p: readonly Point[], q: readonly Point[]): number =>
  Math.max(...p.map((a) => Math.min(...q.map((b) => Math.hypot(a[0] - b[0], a[1] - b[1])))))

describe('outlines of bays that are not straight', () => {
  test('are simple, counter-clockwise and hold their net line; cant turned round mirrors them', () => {
    fc.assert(
      fc.property(bayKnobs, number(0, 0.03), fc.constantFrom(null, -0.02, 0.005), (knobs, back, end) => {
        const input = onCan(end, end, withPly({ stepBack: steps(back, back, back / 2) }, bayInput(knobs)))
        const [shape] = shapesOf(input)
        for (const polygon of [shape!.outline, shape!.netOutline]) {
          expect(selfCrossing(polygon)).toBeNull()
          expect(signedArea(polygon)).toBeGreaterThan(0)
        }
        for (const p of shape!.netOutline) expect(contains(shape!.outline, p, 2e-5)).toBe(true)
        const [other] = shapesOf(
          onCan(
            end,
            end,
            withPly({ stepBack: steps(back, back, back / 2) }, bayInput({ ...knobs, cant: -knobs.cant })),
          ),
        )
        expect(off(mirrored(shape!.netOutline), other!.netOutline)).toBeLessThan(1e-7)
      }),
      { numRuns: 40 },
    )
  })

  test('tend to the straight bay’s as cant, narrowing and taper vanish', () => {
    const [straight] = shapesOf(withPly({}))
    const offsets = [1, 0.1].map((size) => {
      const [bent] = shapesOf(withPly({}, bayInput({ count: 4, narrows: 0.1 * size, cant: size, taper: 0.1 * size })))
      return Math.abs(bent!.netArea / straight!.netArea - 1)
    })
    expect(offsets[0]).toBeGreaterThan(1e-3)
    expect(offsets[1]).toBeLessThan(0.12 * offsets[0]!)
  })

  test('a straight bay’s halves mirror each other; a canted one’s do not', () => {
    const [straight] = shapesOf(withPly({}))
    const [canted] = shapesOf(withPly({}, bayInput({ count: 4, narrows: 0, cant: 1, taper: 0 })))
    expect(off(mirrored(straight!.netOutline), straight!.netOutline)).toBeLessThan(1e-12)
    expect(off(mirrored(canted!.netOutline), canted!.netOutline)).toBeGreaterThan(1e-3)
  })
})

describe('where the can ends before the root', () => {
  const [long] = shapesOf(onCan(null, null, withPly({})))
  const [short] = shapesOf(onCan(null, -0.03, withPly({})))

  test('the body and its fillets end with the can; the face goes on, parted by a slit', () => {
    const onBody = ({ netOutline }: PlyShape) =>
      Math.max(...netOutline.filter(([, Y]) => Math.abs(Y) < 0.02 + 1e-9 || Math.abs(Y) < 0.0283).map(([X]) => X))
    expect(onBody(long!)).toBeCloseTo(0.32, 9)
    expect(onBody(short!)).toBeCloseTo(0.27, 9)
    expect(bounds(short!.netOutline).right).toBeCloseTo(0.3, 3)
    expect(selfCrossing(short!.outline)).toBeNull()
    expect(contains(short!.netOutline, [0.2705, 0.04])).toBe(false)
    expect(contains(short!.netOutline, [0.275, 0.04])).toBe(true)
  })

  test('a longer can than the lay-up changes nothing; a shorter one takes the body’s ends with it', () => {
    expect(shapesOf(onCan(0.5, 0.5, withPly({})))[0]).toEqual(long)
    const [flush] = shapesOf(onCan(0.005, 0, withPly({})))
    expect(bounds(flush!.netOutline).left).toBeCloseTo(-0.005, 12)
  })
})

describe('patches and wraps', () => {
  const [whole] = shapesOf(withPly({}))
  const patch = (cover: 'next' | 'previous', onBody = 0.01) => shapesOf(withPly({ cover, onBody }))[0]!

  test('a patch is one side of the whole, to a line on the body parallel to the fillet’s foot', () => {
    const foot = whole!.marks.find(({ label }) => label === 'fillet foot')!.points[0]![1]
    const next = patch('next')
    expect(bounds(next.netOutline).top).toBe(bounds(whole!.netOutline).top)
    expect(bounds(next.netOutline).bottom).toBeCloseTo(Math.abs(foot) - 0.01, 9)
    expect(off(mirrored(next.netOutline), patch('previous').netOutline)).toBeLessThan(1e-12)
    // Two patches that meet in the middle are the whole.
    expect(2 * patch('next', Math.abs(foot)).netArea).toBeCloseTo(whole!.netArea, 12)
    expect(signedArea(patch('previous').outline)).toBeGreaterThan(0)
    expect(bounds(patch('next', 1).netOutline).bottom).toBeCloseTo(foot < 0 ? foot : -foot, 9)
  })

  test('a patch has its own fillet lines, warp and label within it, and covers no other ply', () => {
    const { marks, netOutline, label } = patch('next')
    expect(marks.filter(({ kind }) => kind === 'fillet')).toHaveLength(2)
    expect(marks.some(({ kind }) => kind === 'centre')).toBe(false)
    for (const { points } of marks.filter(({ kind }) => kind === 'warp' || kind === 'forward'))
      for (const p of points) expect(contains(netOutline, p, 1e-6)).toBe(true)
    expect(contains(netOutline, label.at) || label.onTab).toBe(true)
    const made = patterns({
      ...demo,
      plies: [ply('P1', 0, steps(0.03, 0.03, 0.03)), { ...ply('P2', 0, steps(0)), cover: 'next', onBody: 0.01 }],
    })
    expect(made.ok && made.value.covers).toEqual([])
    expect(made.ok && made.value.rules.map(({ code }) => code)).toEqual(['pattern/patch-one-face'])
  })

  test('a wrapped ply runs on round the land, on every edge that it reaches and no other, and says where it folds', () => {
    const [wrapped] = shapesOf(withPly({ wrap: 0.008 }))
    // Square tip of 3.2 mm, the ply's middle half its thickness out.
    const past = 0.0032 + Math.PI * (0.253e-3 / 2) + 0.008
    expect(wrapped!.width).toBeCloseTo(whole!.width + 2 * past, 9)
    expect(wrapped!.cutWidth).toBe(wrapped!.width)
    expect(wrapped!.marks.filter(({ label }) => label === 'fold over the edge').length).toBeGreaterThanOrEqual(2)
    const [inner] = shapesOf(withPly({ wrap: 0.008, stepBack: steps(0.02) }))
    const [same] = shapesOf(withPly({ stepBack: steps(0.02) }))
    expect(inner!.width).toBeCloseTo(same!.width, 12)
    expect(area(inner!.netOutline)).toBeGreaterThan(area(same!.netOutline))
  })
})

test('a body too steep, a cant too large and a fillet that does not fit aft say what to change', () => {
  const codes = (input: PatternInput) => {
    const made = patterns(input)
    return made.ok ? [] : made.issues.map(({ code, path }) => `${code} ${path}`)
  }
  const { tube, fins } = demo
  expect(codes({ ...demo, tube: { ...tube, aftRadius: -0.2 } })).toEqual(['pattern/body-steep tube.aftDiameter'])
  expect(codes({ ...demo, fins: { ...fins, cant: 0.3 } })).toEqual(['pattern/cant-range fins.cant'])
  expect(codes({ ...demo, tube: { ...tube, aftRadius: 0.007 } })).toEqual(['bond/fillets-meet fins.fillet.radius'])
  expect(codes({ ...demo, fins: { ...fins, fillet: { ...fins.fillet, radiusAft: 0.2 } } })[0]).toContain('bond/fillet')
})
