import { readdirSync, readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { planJsonSchema } from '../src/schema/jsonSchema.ts'

const folder = new URL('../../../examples/', import.meta.url)
const names = readdirSync(folder).filter((name) => name.endsWith('.fincan.json'))
const accepts = new Ajv2020({ strict: true, allowUnionTypes: true }).compile(planJsonSchema())

test('says its draft and is not bloated', () => {
  const schema = planJsonSchema()
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema')
  console.log(JSON.stringify(schema).length)
})

describe('accepts the examples', () => {
  test.each(names)('%s', (name) => {
    const plan: unknown = JSON.parse(readFileSync(new URL(name, folder), 'utf8'))
    expect(accepts(plan) ? [] : accepts.errors).toEqual([])
  })
})
