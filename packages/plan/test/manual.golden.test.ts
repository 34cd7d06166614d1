/**
 * The manual's tables are those of the reader. `FINWRIGHT_WRITE_MANUAL=1 npx vitest run packages/plan/test/manual` writes them
 * anew after a change of the data.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { manualTables } from '../src/manual.ts'
import { readPlan } from '../src/read-plan.ts'
import { beside } from './demo.ts'

const file = new URL('../../../docs/plan-file.md', import.meta.url)
const between = (name: string) => new RegExp(`(<!-- table: ${name} -->\n)[^]*?(\n<!-- end -->)`)

if (process.env.FINWRIGHT_WRITE_MANUAL === '1') {
  let text = readFileSync(file, 'utf8')
  for (const [name, render] of Object.entries(manualTables)) text = text.replace(between(name), (_, a, b) => a + render() + b)
  writeFileSync(file, text)
}

const manual = readFileSync(file, 'utf8')

describe('the manual of the plan file', () => {
  test.each(Object.keys(manualTables))('has the table of %s', (name) => {
    expect(between(name).exec(manual)?.[0]).toBe(`<!-- table: ${name} -->\n${manualTables[name]!()}\n<!-- end -->`)
  })

  const plans = [...manual.matchAll(/```json\n([^]*?)```/g)].map(([, text]) => text!).filter((text) => text.includes('finwright/plan'))
  test.each(plans)('its example plan is read without issues: %#', (text) => {
    const read = readPlan({ text, readAttachment: beside })
    expect(read.ok ? [] : read.issues).toEqual([])
  })

  test('has example plans', () => {
    expect(plans.length).toBeGreaterThanOrEqual(2)
  })
})
