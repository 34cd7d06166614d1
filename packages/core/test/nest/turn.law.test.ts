import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { NestCloth } from '../../src/nest/piece.ts'
import {
  allowedTurns,
  isBalanced,
  leastWidth,
  placedOutline,
  rotationFor,
  turned,
  warpDirection,
} from '../../src/nest/turn.ts'

const anyAngle = fc.double({ min: -7, max: 7, noNaN: true })

describe('a turned piece', () => {
  test('has its warp along the roll at half turns and across it at odd quarter turns', () => {
    fc.assert(
      fc.property(anyAngle, fc.integer({ min: 0, max: 3 }), (angle, quarters) => {
        const [along, across] = turned(warpDirection(angle), rotationFor(angle, quarters))
        const expected = [1, 0, -1, 0][quarters]
        expect(along).toBeCloseTo(expected, 12)
        expect(across).toBeCloseTo([0, 1, 0, -1][quarters], 12)
      }),
    )
  })

  test('by hand: a 0° ply turns by 270° or 90°, a +45° ply by 315° or 135°', () => {
    const degrees = (angle: number): number[] => [0, 2].map((k) => (rotationFor(angle, k) * 180) / Math.PI)
    expect(degrees(0)).toEqual([270, 90])
    expect(degrees(Math.PI / 4)[0]).toBeCloseTo(315, 12)
    expect(degrees(Math.PI / 4)[1]).toBeCloseTo(135, 12)
    expect(degrees(Math.PI / 2)).toEqual([0, 180])
  })

  test('by hand: the warp of a +45° ply runs from forward and the lower-numbered fin to aft and the next', () => {
    const [x, y] = warpDirection(Math.PI / 4)
    expect(x).toBeCloseTo(Math.SQRT1_2, 15)
    expect(y).toBeCloseTo(Math.SQRT1_2, 15)
    // 315° counter-clockwise is 45° clockwise: it lays that diagonal along +x.
    const [u, v] = turned([1, 1], (315 * Math.PI) / 180)
    expect(u).toBeCloseTo(Math.SQRT2, 12)
    expect(v).toBeCloseTo(0, 12)
  })

  test('keeps its handedness: it is never turned face down', () => {
    fc.assert(
      fc.property(anyAngle, fc.integer({ min: 0, max: 3 }), (angle, quarters) => {
        const rotation = rotationFor(angle, quarters)
        const [[ax, ay], [bx, by], [cx, cy]] = placedOutline(
          [
            [0, 0],
            [1, 0],
            [0, 1],
          ],
          { x: 3, y: -2, rotation },
        )
        expect((bx - ax) * (cy - ay) - (by - ay) * (cx - ax)).toBeCloseTo(1, 12)
      }),
    )
  })

  test('quarter turns are exact to the last bit', () => {
    expect(turned([0.3, 0.1], rotationFor(0, 2))).toEqual([-0.1, 0.3])
  })
})

describe('balance', () => {
  const cloth = (weave: NestCloth['weave'], share: number) => ({ id: '', name: '', weave, warpShare: { value: share } })
  test('needs as much weft as warp and two like faces', () => {
    expect(isBalanced(cloth('plain', 0.5))).toBe(true)
    expect(isBalanced(cloth('twill', 0.5))).toBe(true)
    expect(isBalanced(cloth('plain', 0.52))).toBe(false)
    expect(isBalanced(cloth('satin', 0.5))).toBe(false)
    expect(isBalanced(cloth('plain', Number.NaN))).toBe(false)
  })
  test('opens quarter turns', () => {
    expect(allowedTurns(true)).toEqual([0, 1, 2, 3])
    expect(allowedTurns(false)).toEqual([0, 2])
  })
  test('a long piece fits a tape only where it may be turned by a quarter', () => {
    const strip = [
      [0, 0],
      [0.32, 0],
      [0.32, 0.168],
      [0, 0.168],
    ] as const
    expect(leastWidth(strip, 0, true)).toBeCloseTo(0.168, 12)
    expect(leastWidth(strip, 0, false)).toBeCloseTo(0.32, 12)
  })
})
