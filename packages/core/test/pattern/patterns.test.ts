import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { EdgeName, FinOutline } from '../../src/geometry/fin-outline.ts'
import type { Point } from '../../src/geometry/point.ts'
import { contains, signedArea } from '../../src/geometry/polygon.ts'
import { selfCrossing } from '../../src/geometry/polygon-crossing.ts'
import { mirroredMark, type PlyMark } from '../../src/pattern/marks.ts'
import { patterns } from '../../src/pattern/patterns.ts'
import type { PatternInput } from '../../src/pattern/schedule.ts'
import { demo, filleted, ply, stepped, steps, tipStepsOnly } from './demo.ts'

const madeOf = (input: PatternInput) => {
  const result = patterns(input)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join(' '))
  return result.value
}
const faults = (input: PatternInput) => {
  const result = patterns(input)
  return result.ok ? [] : result.issues
}

describe('pieces', () => {
  const { pieces, shapes } = madeOf(demo)

  test('one a ply, bay and can, each with its own name', () => {
    expect(pieces).toHaveLength(2 * 4 * 7)
    expect(new Set(pieces.map(({ id }) => id)).size).toBe(pieces.length)
    expect(pieces[0]!.id).toBe('A-1-P1')
    expect(pieces.find(({ id }) => id === 'A-2-P3')).toMatchObject({ can: 'A', bay: 2, ply: 'P3', angle: 0 })
    expect(pieces.at(-1)!.id).toBe('B-4-R1')
  })

  test('shapes are numbered from the core outward, all plies counted', () => {
    expect(shapes.map(({ sequence, of }) => `${sequence} of ${of}`)[2]).toBe('3 of 7')
    expect(shapes.map(({ ply: id }) => id)).toEqual(['P1', 'P2', 'P3', 'P4', 'P5', 'V1', 'R1'])
  })

  test('mirrored bays carry the opposite angle, alternately', () => {
    const mirrored = madeOf({ ...demo, layup: { ...demo.layup, mirrorAlternateBays: true } }).pieces
    const angles = mirrored.filter(({ can, ply: id }) => can === 'A' && id === 'P2').map(({ angle }) => angle)
    expect(angles.map((angle) => Math.round((angle * 180) / Math.PI))).toEqual([45, -45, 45, -45])
    expect(mirrored.every(({ angle }) => !Object.is(angle, -0))).toBe(true)
  })

  test('mass is that of the dry cloth as cut', () => {
    for (const shape of shapes.slice(0, 5)) expect(shape.mass).toBeCloseTo(0.2 * shape.area, 12)
  })
})

describe('covers', () => {
  const { covers } = madeOf({ ...demo, plies: stepped })

  test('each later ply against each earlier one, peel ply apart', () => {
    expect(covers).toHaveLength(15)
    expect(covers.find(({ ply: id, covers: other }) => id === 'P5' && other === 'P4')!.by.tip).toBeCloseTo(0.015, 12)
    expect(covers.find(({ ply: id, covers: other }) => id === 'V1' && other === 'P5')!.by.leading).toBe(0)
  })
})

describe('marks', () => {
  const { shapes } = madeOf({
    ...demo,
    plies: stepped,
    layup: { ...demo.layup, overrun: { forward: 0.02, aft: 0.02 } },
  })
  const kinds = (marks: readonly PlyMark[]) => new Set(marks.map(({ kind }) => kind))

  test('every piece has centre line, fillet lines, root ends, forward and warp', () => {
    for (const { marks } of shapes)
      for (const kind of ['centre', 'fillet', 'forward', 'warp'] as const) expect(kinds(marks).has(kind)).toBe(true)
    const full = shapes[4]!.marks
    expect(full.filter(({ kind }) => kind === 'fillet')).toHaveLength(4)
    expect(full.filter(({ kind }) => kind === 'root').map(({ points }) => points[0]![0])).toEqual([0, 0.3])
    // on the centre line and each foot: a cross at each end of the root, a stroke at each end of the piece
    expect(full.filter(({ kind }) => kind === 'tick')).toHaveLength(18)
  })

  test('only bias plies carry a pull-back rectangle, of their net size', () => {
    expect(shapes.filter(({ marks }) => kinds(marks).has('pull-back')).map(({ ply: id }) => id)).toEqual(['P2', 'P4'])
    const p4 = shapes[3]!
    const corners = p4.marks.find(({ kind }) => kind === 'pull-back')!.points
    expect(Math.max(...corners.map(([, Y]) => Y)) * 2).toBeCloseTo(p4.width, 12)
  })

  test('the edge of the ply beneath is drawn on the ply that covers it', () => {
    const beneath = shapes[4]!.marks.filter(({ label }) => label === 'edge of P4, beneath')
    const length = beneath.reduce((sum, { points }) => sum + points.length, 0)
    expect(length).toBeGreaterThan(6)
    for (const { points } of beneath) for (const p of points) expect(contains(shapes[4]!.outline, p, 1e-9)).toBe(true)
  })

  test('the forward arrow points forward, the warp lies at the ply’s angle from +Y towards +X', () => {
    const [tail, head] = shapes[1]!.marks.find(({ kind }) => kind === 'forward')!.points
    expect(head![0]).toBeLessThan(tail![0])
    const warp = shapes[1]!.marks.find(({ kind }) => kind === 'warp')!
    const [a, b] = warp.points
    expect(Math.atan2(b![0] - a![0], b![1] - a![1])).toBeCloseTo(Math.PI / 4, 12)
    const [c, d] = mirroredMark(warp).points
    expect(Math.abs(Math.atan2(d![0] - c![0], d![1] - c![1]))).toBeCloseTo((3 * Math.PI) / 4, 12)
  })

  test('a label has its box inside the net line; a small piece has a tab', () => {
    for (const { label, netOutline } of shapes) {
      expect(label.onTab).toBe(false)
      for (const [u, v] of [
        [-1, -1],
        [1, -1],
        [1, 1],
        [-1, 1],
      ] as const)
        expect(contains(netOutline, [label.at[0] + (u * label.length) / 2, (v * label.width) / 2])).toBe(true)
    }
    const small = madeOf({ ...demo, plies: [ply('P1', 0, steps(0.08, 0.1, 0.13))] }).shapes[0]!
    expect(small.label.onTab).toBe(true)
    expect(small.label.at[0]).toBeGreaterThan(Math.max(...small.outline.map(([X]) => X)))
  })
})

describe('what cannot be made says what to change', () => {
  const one = (stepBack: ReturnType<typeof steps>) =>
    faults({ ...demo, plies: [ply('P1', 0, stepBack), ...tipStepsOnly.slice(4)] })

  test('a ply stepped to nothing', () => {
    expect(one(steps(0.12))).toMatchObject([{ code: 'pattern/ply-gone', path: 'plies[0].stepBack.tip', value: 0.12 }])
    expect(one(steps(0.12))[0]!.message).toContain('110.0 mm span')
  })

  test('no chord left, nothing left on the body', () => {
    expect(one(steps(0, 0.12))[0]).toMatchObject({ code: 'pattern/chord-gone' })
    expect(one(steps(0, 0, 0.16))[0]).toMatchObject({ code: 'pattern/body-gone' })
  })

  test('fillets that meet', () => {
    const eight = faults({ ...demo, fins: { ...filleted(demo.fins, 0.04), count: 8 } })
    expect(eight).toMatchObject([{ code: 'bond/fillets-meet', path: 'fins.fillet.radius' }])
  })

  test('a lay-up thicker than the fillet is round', () => {
    const thick = stepped.map((p) => ({ ...p, thickness: 0.004 }))
    const issues = faults({ ...demo, plies: thick })
    expect(issues.map(({ code }) => code)).toEqual([
      'pattern/fillet-gone',
      'pattern/fillet-gone',
      'pattern/fillet-gone',
    ])
    expect(issues[0]!.message).toContain('P5')
  })

  test('every fault of every ply at once', () => {
    const plies = [ply('P1', 0, steps(0.12)), ply('P2', 0, steps(0, 0.2)), ply('P3', 0, steps(0, 0, 0.2))]
    expect(faults({ ...demo, plies }).map(({ path }) => path)).toEqual([
      'plies[0].stepBack.tip',
      'plies[1].stepBack.leading',
      'plies[2].stepBack.bodyForward',
    ])
  })

  test('numbers that are none, and outlines that cross or do not stand on the body', () => {
    const bad = faults({ ...demo, plies: [{ ...ply('P1', Number.NaN, steps(Number.NaN)), thickness: -1 }] })
    expect(bad.map(({ path }) => path)).toEqual(['plies[0].stepBack.tip', 'plies[0].thickness', 'plies[0].angle'])
    const outline = (
      points: readonly Point[],
      edges: readonly EdgeName[] = ['leading', 'tip', 'trailing'],
    ): PatternInput => ({
      ...demo,
      fins: { ...demo.fins, outline: { points, edges } },
    })
    const crossed = outline(
      [
        [0, 0],
        [0.2, 0.1],
        [0.1, 0.1],
        [0.15, 0],
      ].reverse() as unknown as Point[],
    )
    expect(
      faults(
        outline([
          [0, 0],
          [0.25, 0.1],
          [0.05, 0.1],
          [0.3, 0],
        ]),
      )[0]!.code,
    ).toBe('pattern/outline-crosses')
    expect(faults(crossed).length).toBeGreaterThan(0)
    expect(
      faults(
        outline(
          [
            [0, 0],
            [0.1, 0.1],
          ],
          ['leading'],
        ),
      )[0]!.code,
    ).toBe('pattern/outline-points')
    expect(
      faults(
        outline([
          [0, 0.01],
          [0.1, 0.1],
          [0.2, 0.1],
          [0.3, 0],
        ]),
      )[0]!.code,
    ).toBe('pattern/outline-root')
    expect(
      faults(
        outline([
          [0, 0],
          [0.1, -0.1],
          [0.2, 0.1],
          [0.3, 0],
        ]),
      )[0]!.code,
    ).toBe('pattern/outline-range')
  })
})

describe('outlines of any shape', () => {
  const notched: FinOutline = {
    points: [
      [0, 0],
      [0.05, 0.1],
      [0.12, 0.1],
      [0.13, 0.07],
      [0.15, 0.07],
      [0.16, 0.1],
      [0.24, 0.1],
      [0.3, 0],
    ],
    edges: ['leading', 'tip', 'tip', 'tip', 'tip', 'tip', 'trailing'],
  }

  test('a notch in the tip is stepped round, and a ply it would part is refused', () => {
    const fins = { ...demo.fins, outline: notched }
    const { shapes } = madeOf({
      ...demo,
      fins,
      plies: [ply('P1', 0, steps(0.01)), ply('P2', 0, steps(0), { overhang: 0.005 })],
    })
    for (const { outline, netOutline } of shapes)
      for (const polygon of [outline, netOutline]) {
        expect(selfCrossing(polygon)).toBeNull()
        expect(signedArea(polygon)).toBeGreaterThan(0)
      }
    expect(shapes[1]!.outline.length).toBeGreaterThan(30)
    const necked: FinOutline = {
      points: [
        [0, 0],
        [0.1, 0.05],
        [0.02, 0.1],
        [0.28, 0.1],
        [0.16, 0.05],
        [0.3, 0],
      ],
      edges: ['leading', 'leading', 'tip', 'trailing', 'trailing'],
    }
    const parted = faults({
      ...demo,
      fins: { ...demo.fins, outline: necked },
      plies: [ply('P1', 0, steps(0.005, 0.028))],
    })
    expect(parted[0]).toMatchObject({ code: 'pattern/ply-parted' })
  })

  test('a triangle without a tip edge', () => {
    const triangle: FinOutline = {
      points: [
        [0, 0],
        [0.18, 0.12],
        [0.2, 0],
      ],
      edges: ['leading', 'trailing'],
    }
    const { shapes } = madeOf({
      ...demo,
      fins: { ...demo.fins, outline: triangle },
      plies: [ply('P1', 0, steps(0), { overhang: 0.01 })],
    })
    expect(selfCrossing(shapes[0]!.outline)).toBeNull()
    expect(shapes[0]!.cutWidth).toBeGreaterThan(shapes[0]!.width + 0.02)
  })

  test('anything at all gives patterns or issues, never an exception or a number that is none', () => {
    const wild = fc.oneof(
      fc.double({ min: 0, max: 0.1, noNaN: true }),
      fc.double({ min: 0, max: 0.01, noNaN: true }),
      fc.constant(0),
      fc.double(),
    )
    const sane = fc.double({ min: 0, max: 0.06, noNaN: true })
    const stepsOf = (each: fc.Arbitrary<number>) =>
      fc.record({ leading: each, trailing: each, tip: each, bodyForward: each, bodyAft: each })
    const outlines = fc.array(
      fc.tuple(fc.double({ min: 0.02, max: 0.15, noNaN: true }), fc.double({ min: 0.2, max: 1, noNaN: true })),
      {
        minLength: 1,
        maxLength: 12,
      },
    )
    const plies = fc.array(
      fc.record({
        stepBack: fc.oneof(stepsOf(sane), stepsOf(wild)),
        angle: fc.double({ min: -400, max: 400 }),
        overhang: sane,
      }),
      { maxLength: 4 },
    )
    let count = 0
    fc.assert(
      fc.property(outlines, plies, fc.integer({ min: 2, max: 9 }), wild, wild, (shape, laid, fins, radius, overrun) => {
        const inner = shape.map(([y, w], i): Point => [(0.3 * (i + w)) / shape.length, y])
        const points: Point[] = [[0, 0], ...inner, [0.3, 0]]
        const names: readonly EdgeName[] = ['leading', 'tip', 'trailing']
        const edges = points.slice(1).map((_, i) => names[Math.floor((3 * i) / (points.length - 1))]!)
        const input: PatternInput = {
          ...demo,
          fins: { ...filleted(demo.fins, radius), count: fins, outline: { points, edges } },
          plies: laid.map(({ stepBack, angle, overhang }, i) => ply(`P${i + 1}`, angle, stepBack, { overhang })),
          layup: { ...demo.layup, overrun: { forward: overrun, aft: overrun } },
        }
        const result = patterns(input)
        if (!result.ok) {
          expect(result.issues.length).toBeGreaterThan(0)
          return
        }
        count++
        for (const { outline, netOutline, area, mass } of result.value.shapes) {
          expect(outline.flat().every(Number.isFinite) && netOutline.flat().every(Number.isFinite)).toBe(true)
          expect(signedArea(outline)).toBeGreaterThan(0)
          expect(selfCrossing(netOutline)).toBeNull()
          expect(area + mass).toBeGreaterThan(0)
        }
      }),
      { numRuns: 400 },
    )
    expect(count).toBeGreaterThan(20)
  })
})

test('all patterns of the demo take well under a tenth of a second', () => {
  const fastest = Math.min(
    ...Array.from({ length: 20 }, () => {
      const start = performance.now()
      madeOf({ ...demo, plies: stepped })
      return performance.now() - start
    }),
  )
  expect(fastest).toBeLessThan(20)
})
