import { describe, expect, test } from 'vitest'
import { type PlyShape, patterns } from '../../src/pattern/patterns.ts'
import { demo, ply, steps, thin, tipStepsOnly } from '../../test/pattern/demo.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'bay-map'
const band = {
  methodError: 0.01,
  why: 'The printed areas end a ply square in the fillet; the code trims it along the plane of the fin’s edge.',
}

function shapesOf(plies = thin(tipStepsOnly), span = 0.11): readonly PlyShape[] {
  const [a, b, c, d] = demo.fins.outline.points
  const points = [a!, [b![0], span] as const, [c![0], span] as const, d!]
  const made = patterns({ ...demo, plies, fins: { ...demo.fins, outline: { ...demo.fins.outline, points } } })
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value.shapes
}

const cm2 = (area: number): number => area * 1e4
const mm = (length: number): number => length * 1e3

describe('five plies stepped from the tip', () => {
  const plain = thin([0.06, 0.04, 0.02, 0].map((tip, i) => ply(`P${i + 1}`, 0, steps(tip))))
  const rows = [
    { step: 0, printed: '668' },
    { step: 20, printed: '614' },
    { step: 40, printed: '546' },
    { step: 60, printed: '466' },
  ]
  test.each(rows)('net area at a tip step of $step mm', ({ step, printed }) => {
    const shape = shapesOf(plain)[3 - step / 20]!
    expectPublished({
      source,
      quantity: `net area, tip step ${step} mm, cm²`,
      printed,
      computed: cm2(shape.netArea),
      ...band,
    })
    expect(shape.area).toBeCloseTo(shape.netArea, 12)
  })

  test('a full ply with 10 mm of overhang', () => {
    const full = shapesOf().find(({ ply: id }) => id === 'P5')!
    expectPublished({
      source,
      quantity: 'area with 10 mm overhang, cm²',
      printed: '771',
      computed: cm2(full.area),
      ...band,
    })
    expectPublished({
      source,
      quantity: 'width with 10 mm overhang, mm',
      printed: '307.9',
      computed: mm(full.cutWidth),
    })
    expectPublished({ source, quantity: 'net width, mm', printed: '287.9', computed: mm(full.width) })
  })

  test('a full bias ply with the allowance for 4°', () => {
    const bias = shapesOf().find(({ ply: id }) => id === 'P4')!
    expectPublished({
      source,
      quantity: 'width of a bias ply with 10 mm overhang and 4° allowed, mm',
      printed: '319.4',
      computed: mm(bias.cutWidth),
      methodError: 0.001,
      why: 'printed with the factor rounded to 0.964',
    })
    expect(bias.width).toBeCloseTo(0.2879, 4)
  })

  test('dry mass of the five plies as cut, allowance for shear left out', () => {
    const noShear = patterns({ ...demo, layup: { ...demo.layup, biasShear: 0 }, plies: thin(tipStepsOnly) })
    if (!noShear.ok) throw new Error('can be made')
    const mass = noShear.value.shapes.slice(0, 5).reduce((sum, shape) => sum + shape.mass, 0)
    expectPublished({ source, quantity: 'dry mass of five plies, g', printed: '63.4', computed: mass * 1e3, ...band })
  })

  test('has teeth: three millimetres of span are noticed', () => {
    const longer = shapesOf(plain, 0.113)[3]!
    expect(agrees(cm2(longer.netArea), published('668'), 0.01)).toBe(false)
    expect(agrees(mm(longer.width), published('287.9'))).toBe(false)
  })
})
