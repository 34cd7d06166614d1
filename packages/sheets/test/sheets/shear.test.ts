/** The shear map: drawn from the assessment's field and nothing else. */
import { expect, test } from 'vitest'
import { figuresIn } from '../../src/layout/figures.ts'
import { papers } from '../../src/layout/paper.ts'
import type { SheetInput } from '../../src/sheet.ts'
import { shearSheets } from '../../src/sheets/shear-sheet.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'

const demoInput: SheetInput = {
  assessment: demoAssessment,
  design: demoDesign,
  identity: { project: 'demo', revision: { hash: '0', date: '2026-01-02' } },
  paper: papers.a4,
  figures: figuresIn('metric'),
}

const { shear } = demoAssessment.pattern
const withShear = (changed: typeof shear, relief = demoAssessment.pattern.relief) =>
  shearSheets({
    ...demoInput,
    assessment: { ...demoAssessment, pattern: { ...demoAssessment.pattern, shear: changed, relief } },
  })
const textOf = (leaves: ReturnType<typeof shearSheets>) => JSON.stringify(leaves)

test('has a square for every square of the field of the ply that shears most and stays', () => {
  const [leaf] = shearSheets(demoInput)
  const worst = shear.find(({ ply }) => ply === 'P5')!
  expect(worst.field.length).toBeGreaterThan(100)
  const inside = leaf!.items.flatMap((item) => (item.kind === 'group' ? item.items : [item]))
  const filled = inside.filter((item) => item.kind === 'path' && item.layer === 'fill')
  expect(filled).toHaveLength(worst.field.length)
  expect(textOf([leaf!])).toContain(`P5 turns most, by ${worst.greatest_deg.toFixed(1)}°`)
  expect(textOf([leaf!])).toContain('(a guess)')
})

test('squares past the limit are red, cuts are listed', () => {
  const low = shear.map((one) => ({ ...one, limit_deg: 5, limitIsGuess: false }))
  const relief = [
    { ply: 'P5', kind: 'cut', from_m: [-0.01, 0.03], to_m: [0, 0.03], shear_deg: 12, opening_m: 0.001, area_m2: 1e-5 },
  ] as const
  const words = textOf(withShear(low, relief))
  expect(words).toContain('"danger"')
  expect(words).toContain('CUTS THAT RELIEVE IT')
  expect(textOf(withShear(low))).not.toContain('CUTS THAT')
})

test('nothing to draw, no sheet', () => {
  expect(withShear([])).toEqual([])
  expect(withShear(shear.map((one) => ({ ...one, field: [] })))).toEqual([])
})
