import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { planJsonSchema } from '../src/json-schema.ts'
import { badPlans } from './bad-plans.data.ts'
import { demo, exampleNames, exampleText, put } from './demo.ts'

const accepts = new Ajv2020({ strict: true }).compile(planJsonSchema())

test('the schema says its draft and names itself', () => {
  const schema = planJsonSchema()
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
  expect(schema.title).toBe('Finwright plan')
})

describe('accepts the examples', () => {
  test.each(exampleNames)('%s', (name) => {
    const plan: unknown = JSON.parse(exampleText(name))
    expect(accepts(plan) ? [] : accepts.errors).toEqual([])
  })
})

/** What depends on limits of quantities, on other fields or on files is no matter of the schema. */
describe('refuses what is of the wrong shape, and only that', () => {
  test.each(badPlans.filter(({ edits }) => edits !== undefined))('$name', ({ edits = [], schema }) => {
    const plan = demo()
    for (const [path, value] of edits) put(plan, path, value)
    expect(accepts(plan)).toBe(!schema)
  })

  test('both sorts are there', () => {
    expect(badPlans.filter(({ schema }) => schema).length).toBeGreaterThan(10)
    expect(badPlans.filter(({ schema }) => !schema).length).toBeGreaterThan(10)
  })
})

test('a default in the schema is the one that is filled in', () => {
  const text = JSON.stringify(planJsonSchema())
  expect(text).toContain('"default":"170 g"')
  expect(text).toContain('"default":"1:1"')
})
