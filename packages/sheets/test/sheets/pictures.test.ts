/** What the pictures say: the weave at the ply's angle, plies in contour, the nest with its warp. */
import { describe, expect, test } from 'vitest'
import type { Lines, Path, Primitive, XY } from '../../src/drawing/drawing.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { bayFrame } from '../../src/sheets/bay-frame.ts'
import { bayStrip, stepsOf } from '../../src/sheets/bay-strip.ts'
import { layersAt } from '../../src/sheets/bay-thickness.ts'
import { nestPicture, nestScale, offcutMark, placedPieces, warpAcross } from '../../src/sheets/nest-picture.ts'
import { finNumbering } from '../../src/sheets/sketches.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'

const rectangle = (x: number, y: number, length: number, width: number): [number, number][] => [
  [x, y],
  [x + length, y],
  [x + length, y + width],
  [x, y + width],
]

const { pattern, nest } = demoAssessment

describe('the bay map', () => {
  const strip = bayStrip({
    shapes: pattern.shapes,
    bay: pattern.bay!,
    design: demoDesign,
    frame: bayFrame(0.5, [100, 50]),
  })
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
  test('shows flaws and off-cuts of the used length where they lie on the cloth', () => {
    const first = nest.rolls[0]!
    const roll = {
      ...first,
      defects_m: [rectangle(0.1, 0.2, 0.05, 0.04), rectangle(first.usedLength_m + 1, 0.2, 0.1, 0.1)],
      offcuts: [
        { roll: 'x', x_m: first.usedLength_m + 0.003, y_m: 0, length_m: 5, width_m: first.width_m },
        { roll: 'x off-cut 1', x_m: 0.3, y_m: 0.4, length_m: 0.2, width_m: 0.15 },
      ],
    }
    const view = { roll, placed: placedPieces(roll, pattern.pieces), figures: figuresIn('metric') }
    const drawn = nestPicture({ ...view, at: [0, 0], width: 200, height: 250 })
    const marks = drawn.filter((item): item is Path => item.kind === 'path' && item.layer === 'mark' && item.closed)
    const cloth = nestScale(roll, { width: 200, height: 250 }) * 1e3
    // Down the page along the roll, to the right across it.
    const boxes = marks.map(({ vertices }) => {
      const [X, Y] = ([0, 1] as const).map((axis) => vertices.map((vertex) => vertex[axis]! / cloth)) as [
        number[],
        number[],
      ]
      return [Math.max(...Y) - Math.min(...Y), Math.max(...X) - Math.min(...X)]
    })
    const like = (length: number, width: number): boolean =>
      boxes.some(([l, w]) => Math.abs(l - length) < 1e-9 && Math.abs(w - width) < 1e-9)
    expect([like(0.05, 0.04), like(0.2, 0.15), like(0.1, 0.1), like(5, first.width_m)]).toEqual([
      true,
      true,
      false,
      false,
    ])
    const words = drawn.flatMap((item) => (item.kind === 'text' ? [item.text] : []))
    expect(words).toContain(`${offcutMark}2`)
    expect(words).not.toContain(`${offcutMark}1`)
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
