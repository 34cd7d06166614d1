/** Every derivation on the demo: whole sentences, figures that are numbers, sources that the assessment has, fields that the plan has. */
import { fieldAt, parsePath } from '@finwright/plan/schema/locate.ts'
import { describe, expect, test } from 'vitest'
import { derivationNames, derivationOf } from '../src/derivations/derivations.ts'
import { figuresIn } from '../src/layout/figures.ts'
import { demoAssessment } from './fixture/demo.ts'

const context = {
  assessment: demoAssessment,
  figures: figuresIn('metric'),
  field: (path: string) => ({ label: path, value: '', field: path }),
}

/** Places of a plan that hold a name, a choice or a list. */
const noQuantity = new Set([
  ...['plies', 'materials', 'cans', 'fins.outline', 'fins.core.material', 'fins.fillet.adhesive'],
  ...['resin.system', 'resin.postCure', 'resin.ratio.by'],
])

/** Their source is one of the trade, said in words, not a method of the assessment. */
const withoutMethod = new Set(['resin.mix', 'resin.ratio', 'resin.kit'])

describe.each(derivationNames)('%s', (name) => {
  const why = derivationOf(name, context)!

  test('is whole', () => {
    expect(JSON.stringify(why)).not.toMatch(/undefined|NaN|Infinity/)
    expect(why.value).not.toBe('')
    expect(why.formula.length).toBeGreaterThan(0)
    expect(why.limits.length + why.uncertainty.length).toBeGreaterThan(0)
  })

  test('names sources that are there', () => {
    expect(why.sources.length > 0).toBe(!withoutMethod.has(name))
  })

  test('leads to fields that are there, and to derivations that are there', () => {
    const fields = why.inputs.flatMap(({ field }) => (field === undefined ? [] : [field]))
    expect(fields.filter((field) => !noQuantity.has(field) && fieldAt(parsePath(field)) === null)).toEqual([])
    expect(
      why.inputs.flatMap(({ why: of }) => (of === undefined ? [] : [of])).filter((of) => !derivationNames.includes(of)),
    ).toEqual([])
  })
})

test('there is none of another name', () => {
  expect(derivationOf('toString', context)).toBeNull()
})
