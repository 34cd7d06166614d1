/** What the pictures say: the weave at the ply's angle, plies in contour, the nest with its warp. */
import { describe, expect, test } from 'vitest'
import type { Lines, Primitive, XY } from '../../src/drawing/drawing.ts'
import { bayFrame } from '../../src/sheets/bay-frame.ts'
import { bayStrip, stepsOf } from '../../src/sheets/bay-strip.ts'
import { layersAt } from '../../src/sheets/bay-thickness.ts'
import { placedPieces, warpAcross } from '../../src/sheets/nest-picture.ts'
import { finNumbering } from '../../src/sheets/sketches.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'

const { pattern, nest } = demoAssessment
const section = pattern.section!

describe('the bay map', () => {
  const strip = bayStrip({ shapes: pattern.shapes, section, design: demoDesign, frame: bayFrame(0.5, [100, 50]) })
  const weaves = strip.filter((item): item is Lines => item.kind === 'lines' && item.stroke.ink === 'mid')
  test('draws each step’s warp from +Y (right) towards +X (down) by the ply’s angle', () => {
    const steps = stepsOf(pattern.shapes)
    expect(weaves).toHaveLength(steps.length)
    steps.forEach(({ plies }, i) => {
      const outermost = plies.filter(({ role }) => role === 'structural').at(-1) ?? plies[0]
      const angle = demoDesign.plies.find(({ id }) => id === outermost.ply)!.angle
      expect(weaves[i].pairs.length).toBeGreaterThan(5)
      for (const [a, b] of weaves[i].pairs) expect(Math.atan2(b[1] - a[1], b[0] - a[0])).toBeCloseTo(angle, 9)
    })
  })
  test('puts the next fin to the right and aft down', () => {
    const frame = bayFrame(1, [0, 0])
    expect(frame.at([0.01, 0.02])).toEqual([20, 10])
  })
  test('leaves the peel ply out of the contours and the stack', () => {
    const named = stepsOf(pattern.shapes).flatMap(({ plies }) => plies.map(({ role }) => role))
    expect(named).not.toContain('peel')
    const layers = layersAt(pattern, demoAssessment.fin.plies, 0.2)
    expect(layers.map(({ shape }) => shape.ply)).toEqual(['P1', 'P2', 'P3', 'P4', 'P5', 'V1'])
    for (const { spans } of layers) expect(spans).toHaveLength(1)
  })
})

test('fins count clockwise from the tail, bay k after fin k', () => {
  const words = finNumbering([0, 0], 40, 4).filter(
    (item): item is Extract<Primitive, { kind: 'text' }> => item.kind === 'text',
  )
  const at = (name: string): XY => words.find(({ text }) => text === name)!.at
  expect(at('1')[1]).toBeLessThan(at('2')[1])
  expect(at('2')[0]).toBeGreaterThan(at('4')[0])
  expect(at('bay 1')[0]).toBeGreaterThan(20)
  expect(at('bay 1')[1]).toBeLessThan(20)
  expect(at('bay 3')[0]).toBeLessThan(20)
  expect(at('bay 3')[1]).toBeGreaterThan(20)
})

describe('the nest', () => {
  test('is drawn from the placements: every piece once, inside its roll, in order down the cloth', () => {
    let count = 0
    for (const roll of nest.rolls) {
      const placed = placedPieces(roll, pattern.pieces)
      count += placed.length
      let before = -1
      for (const { outline } of placed) {
        const start = Math.min(...outline.map(([x]) => x))
        expect(start).toBeGreaterThanOrEqual(before)
        before = start
        for (const [x, y] of outline) {
          expect(x > -1e-6 && x < roll.usedLength_m + 1e-6).toBe(true)
          expect(y > roll.selvedge_m - 1e-6 && y < roll.width_m - roll.selvedge_m + 1e-6).toBe(true)
        }
      }
    }
    expect(count).toBe(pattern.pieces.length)
  })
  test('tells a piece whose warp lies along the roll from one that was turned a quarter', () => {
    const [piece] = pattern.pieces
    const placed = (angle_deg: number, rotation_deg: number) => ({
      piece: { ...piece, angle_deg },
      outline: [],
      rotation_deg,
    })
    // the warp of a piece at 0° points along +Y; turned back by a quarter it points along the roll
    expect(warpAcross(placed(0, -90))).toBe(false)
    expect(warpAcross(placed(0, 90))).toBe(false)
    expect(warpAcross(placed(0, 0))).toBe(true)
    expect(warpAcross(placed(45, -45))).toBe(false)
    expect(warpAcross(placed(45, 45))).toBe(true)
  })
})
