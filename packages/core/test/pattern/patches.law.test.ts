/** Patches on one side, in every bay of every can: on the right fin's face, mirrored halves, one name a piece. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { area, bounds, signedArea } from '../../src/geometry/polygon.ts'
import { type Patterns, patterns } from '../../src/pattern/patterns.ts'
import type { PatternInput, ScheduledPly } from '../../src/pattern/schedule.ts'
import { type BayKnobs, bayInput, bayKnobs } from './bays.ts'
import { demo, ply, steps } from './demo.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })

interface Sides {
  readonly stepBack: number
  readonly onBody: number
  readonly angle: number
  readonly mirror: boolean
  readonly cans: number
}
const sides: fc.Arbitrary<Sides> = fc.record({
  stepBack: number(0, 0.03),
  onBody: number(0, 0.015),
  angle: fc.constantFrom(0, 30, 45, 90),
  mirror: fc.boolean(),
  cans: fc.integer({ min: 1, max: 3 }),
})

function made({ stepBack, onBody, angle, mirror, cans }: Sides, base: PatternInput): Patterns | null {
  const of = (id: string, cover: ScheduledPly['cover']): ScheduledPly => ({
    ...ply(id, angle, steps(stepBack, stepBack, stepBack)),
    cover,
    onBody,
    // as thin as can be, one build-up for both: what is left between them is the side
    thickness: 0,
  })
  const found = patterns({
    ...base,
    plies: [of('P1', 'next'), of('P2', 'previous'), of('P3', 'bay')],
    layup: { ...base.layup, mirrorAlternateBays: mirror && base.fins.count % 2 === 0 },
    cans: ['A', 'B', 'C'].slice(0, cans).map((letter) => ({ letter })),
  })
  return found.ok ? found.value : null
}

const even = (knobs: BayKnobs): BayKnobs => ({ ...knobs, cant: 0 })
const mirrored = (polygon: readonly Point[]) => polygon.map(([X, Y]): Point => [X, -Y])
const off = (p: readonly Point[], q: readonly Point[]): number =>
  Math.max(...p.map((a) => Math.min(...q.map((b) => Math.hypot(a[0] - b[0], a[1] - b[1])))))

describe('patches on one side', () => {
  test('next and previous mirror each other where the halves of the bay do, and each lies on its own half', () => {
    let seen = 0
    fc.assert(
      fc.property(bayKnobs, sides, (knobs, side) => {
        const found = made(side, bayInput(even(knobs)))
        if (found === null) return
        seen++
        const [next, previous, whole] = found.shapes
        for (const [a, b] of [
          [next!.netOutline, previous!.netOutline],
          [next!.outline, previous!.outline],
        ] as const) {
          expect(off(mirrored(a), b)).toBeLessThan(1e-8)
          expect(off(mirrored(b), a)).toBeLessThan(1e-8)
          expect(signedArea(a)).toBeGreaterThan(0)
          expect(signedArea(b)).toBeGreaterThan(0)
        }
        expect(off(mirrored(whole!.netOutline), whole!.netOutline)).toBeLessThan(1e-8)
        expect(bounds(next!.netOutline).bottom).toBeGreaterThan(0)
        expect(bounds(previous!.netOutline).top).toBeLessThan(0)
        expect(next!.bodyEnds).toEqual(previous!.bodyEnds)
        // Its tip is the whole ply's, on that side.
        expect(bounds(next!.netOutline).top).toBeCloseTo(bounds(whole!.netOutline).top, 9)
      }),
      { numRuns: 40 },
    )
    expect(seen).toBeGreaterThan(20)
  })

  test('with cant, next is the mirror image of previous under the opposite cant', () => {
    fc.assert(
      fc.property(bayKnobs, sides, (knobs, side) => {
        const [one, other] = [made(side, bayInput(knobs)), made(side, bayInput({ ...knobs, cant: -knobs.cant }))]
        if (one === null || other === null) return
        expect(off(mirrored(one.shapes[0]!.netOutline), other.shapes[1]!.netOutline)).toBeLessThan(1e-7)
        expect(off(mirrored(one.shapes[1]!.netOutline), other.shapes[0]!.netOutline)).toBeLessThan(1e-7)
      }),
      { numRuns: 25 },
    )
  })

  test('in every bay of every can, mirrored or not: the same half, the cloth alone turned; every piece has a name of its own', () => {
    let turned = 0
    fc.assert(
      fc.property(bayKnobs, sides, (knobs, side) => {
        const input = bayInput(knobs)
        const found = made(side, input)
        if (found === null) return
        const { pieces, shapes } = found
        expect(pieces).toHaveLength(side.cans * input.fins.count * 3)
        expect(new Set(pieces.map(({ id }) => id)).size).toBe(pieces.length)
        for (const piece of pieces) {
          const shape = shapes.find((one) => one.ply === piece.ply)!
          const { top, bottom } = bounds(piece.netOutline)
          // Seen from outside +Y is the next fin in every bay: the patch of the next fin never comes out below the centre line.
          if (shape.cover === 'next') expect(bottom).toBeGreaterThan(0)
          if (shape.cover === 'previous') expect(top).toBeLessThan(0)
          expect(piece.outline).toEqual(shape.outline)
          expect(area(piece.outline)).toBeCloseTo(shape.area, 15)
          if (piece.angle !== shape.angle) turned++
          expect(Math.abs(piece.angle)).toBe(Math.abs(shape.angle))
          expect(piece.id).toBe(`${piece.can}-${piece.bay}-${piece.ply}`)
        }
      }),
      {
        numRuns: 40,
        examples: [
          [
            { count: 4, narrows: 0, cant: 0, taper: 0 },
            { stepBack: 0.01, onBody: 0.005, angle: 30, mirror: true, cans: 2 },
          ],
        ],
      },
    )
    expect(turned).toBeGreaterThan(0)
  })

  test('so every fin gets a "next" patch on its previous face, one from each bay, and none on the other', () => {
    const found = made({ stepBack: 0.01, onBody: 0.005, angle: 0, mirror: false, cans: 1 }, demo)!
    const count = demo.fins.count
    const fins = Array.from({ length: count }, (_, i) => i + 1)
    const on = (ply: string) =>
      found.pieces
        .filter((piece) => piece.ply === ply)
        .map(({ bay, netOutline }) => {
          const { top, bottom } = bounds(netOutline)
          return top + bottom > 0 ? { fin: (bay % count) + 1, face: 'previous' } : { fin: bay, face: 'next' }
        })
    expect(
      on('P1')
        .map(({ fin }) => fin)
        .sort(),
    ).toEqual(fins)
    expect(on('P1').every(({ face }) => face === 'previous')).toBe(true)
    expect(
      on('P2')
        .map(({ fin }) => fin)
        .sort(),
    ).toEqual(fins)
    expect(on('P2').every(({ face }) => face === 'next')).toBe(true)
  })
})
