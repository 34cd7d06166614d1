import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'

const folder = new URL('../../../examples/', import.meta.url)
const names = readdirSync(folder).filter((name) => name.endsWith('.fincan.json'))

export const readExample = (name: string) =>
  readPlan({
    text: readFileSync(new URL(name, folder), 'utf8'),
    readAttachment: (file) => ({ ok: true, text: readFileSync(new URL(file, folder), 'utf8') }),
  })

describe('the examples', () => {
  test('there are four', () => {
    expect(names.length).toBeGreaterThanOrEqual(4)
  })

  test.each(names)('%s has no issue', (name) => {
    const read = readExample(name)
    expect(read.ok ? [] : read.issues).toEqual([])
  })
})
