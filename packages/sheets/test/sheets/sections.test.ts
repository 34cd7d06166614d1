/** Sections, the stack taken apart, covers and rules: what they show is what the assessment holds. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Path, Primitive } from '../../src/drawing/drawing.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { papers } from '../../src/layout/paper.ts'
import type { SheetInput } from '../../src/sheet.ts'
import { coverSheets } from '../../src/sheets/covers-sheet.ts'
import { sectionSheets } from '../../src/sheets/section-sheet.ts'
import { layersAlong, spansAlong, stackPicture } from '../../src/sheets/stack-section.ts'
import { stackSheet } from '../../src/sheets/stack-sheet.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'

const input: SheetInput = {
  assessment: demoAssessment,
  design: demoDesign,
  identity: { project: 'demo', revision: { hash: '0', date: '2026-01-02' } },
  paper: papers.a4,
  figures: figuresIn('metric'),
}
const { shapes } = demoAssessment.pattern

const wordsOf = (items: readonly Primitive[]): string[] =>
  items.flatMap((item) => (item.kind === 'text' ? [item.text] : item.kind === 'group' ? wordsOf(item.items) : []))

describe('a line through the bay map', () => {
  const square = [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
  ] as const

  test('is cut to the outline, wherever it runs', () => {
    expect(spansAlong(square, { from: [-1, 1], to: [3, 1] })).toEqual([[1, 3]])
    expect(spansAlong(square, { from: [0.5, 1], to: [1, 1] })).toEqual([[0, 0.5]])
    expect(spansAlong(square, { from: [3, 0], to: [3, 2] })).toEqual([])
    const [[a, b]] = spansAlong(square, { from: [-1, -1], to: [3, 3] })
    expect(b - a).toBeCloseTo(2 * Math.SQRT2, 12)
  })

  test('turned with its outline gives the same spans', () => {
    const place = fc.double({ min: -3, max: 3, noNaN: true })
    const angle = fc.double({ min: -3, max: 3, noNaN: true })
    fc.assert(
      fc.property(place, place, place, place, angle, (x0, y0, x1, y1, turn) => {
        const length0 = Math.hypot(x1 - x0, y1 - y0)
        fc.pre(length0 > 0.1)
        // a line through a corner may be taken either way
        const off = ([x, y]: readonly [number, number]) => ((x - x0) * (y1 - y0) - (y - y0) * (x1 - x0)) / length0
        fc.pre(square.every((corner) => Math.abs(off(corner)) > 1e-6))
        const [c, s] = [Math.cos(turn), Math.sin(turn)]
        const turned = ([x, y]: readonly [number, number]) => [c * x - s * y, s * x + c * y] as const
        const length = (spans: readonly (readonly [number, number])[]) => spans.reduce((sum, [a, b]) => sum + b - a, 0)
        const plain = spansAlong(square, { from: [x0, y0], to: [x1, y1] })
        const other = spansAlong(square.map(turned), { from: turned([x0, y0]), to: turned([x1, y1]) })
        expect(length(other)).toBeCloseTo(length(plain), 6)
      }),
    )
  })

  test('has every ply on those beneath: along the body the stack is as high as its plies where all lie', () => {
    const layers = layersAlong(shapes, demoAssessment.fin.plies, { from: [-0.1, 0], to: [0.4, 0] })
    const items = stackPicture({
      layers,
      page: (along, height) => [along * 1e3, height * 1e3],
      figures: input.figures,
      middle: null,
    })
    const tops = items.map((item) => Math.max(...(item as Path).vertices.map(([, y]) => y)))
    const sum = demoAssessment.fin.plies.reduce((total, { thickness_m }) => total + thickness_m, 0)
    expect(Math.max(...tops)).toBeCloseTo(sum * 1e3, 9)
    // P5 comes down by a ply's thickness at each of the four steps beneath it, at both ends
    const P5 = items[4] as Path
    expect(new Set(P5.vertices.map(([, y]) => y.toFixed(6))).size).toBe(6)
  })
})

test('the standard sections stand on the sheets, and those that the plan asks for', () => {
  const words = sectionSheets(input).flatMap(({ items }) => wordsOf(items))
  for (const title of ['B–B ALONG THE BODY', 'C–C THROUGH A FINISHED FIN', 'D–D THROUGH THE FILLET'])
    expect(words).toContain(title)
  expect(words.join(' ')).toMatch(/Thickness drawn \d+ times larger/)
  const sections = [
    { from: [0.05, -0.14], to: [0.25, 0.14] },
    { from: [-5, -5], to: [-4, -4] },
  ] as const
  const asked = sectionSheets({
    ...input,
    design: { ...demoDesign, printing: { ...demoDesign.printing, sections } },
  }).flatMap(({ items }) => wordsOf(items))
  expect(asked).toContain('S1–S1 AS ASKED')
  expect(asked.join(' ')).toContain('From (50.0 mm, −140.0 mm) to (250.0 mm, 140.0 mm)')
  expect(asked).toContain('No ply lies on this line.')
})

test('the stack has every ply once, peel ply too, in the order of laying', () => {
  const words = stackSheet(input).flatMap(({ items }) => wordsOf(items))
  const names = words.filter((word) => /^[PVR]\d+ {3}/.test(word)).map((word) => word.split(' ')[0])
  expect(names).toEqual(shapes.map(({ ply }) => ply))
})

describe('covers and rules', () => {
  const words = coverSheets(input).flatMap(({ items }) => wordsOf(items))
  test('every pair stands there with its worst cover, every rule with its answer', () => {
    expect(words.filter((word) => word === 'kept')).toHaveLength(10)
    for (const { least_m } of demoAssessment.pattern.covers)
      expect(words).toContain(input.figures.length(least_m).replace(' mm', ''))
  })
  test('a broken rule is said in words', () => {
    const rule = {
      code: 'pattern/angle-couples',
      path: 'plies[1].angle',
      value: 1,
      message: 'The two faces do not balance.',
      hint: 'Mirror alternate bays.',
    }
    const pattern = { ...demoAssessment.pattern, rules: [rule] }
    const broken = coverSheets({ ...input, assessment: { ...demoAssessment, pattern } }).flatMap(({ items }) =>
      wordsOf(items),
    )
    expect(broken.filter((word) => word === 'kept')).toHaveLength(9)
    expect(broken.join(' ')).toContain('The two faces do not balance. Mirror alternate bays.')
  })
})
