import { describe, expect, test } from 'vitest'
import { issueCodes } from '../src/codes.data.ts'
import { readPlan } from '../src/read-plan.ts'
import { type BadPlan, badPlans } from './bad-plans.data.ts'
import { beside, demo, exampleText, put } from './demo.ts'

function readBad({ edits = [], csv }: BadPlan) {
  const plan = demo()
  for (const [path, value] of edits) put(plan, path, value)
  return readPlan({
    text: JSON.stringify(plan),
    readAttachment: (name) => (csv !== undefined && name.endsWith('.csv') ? { ok: true, text: csv } : beside(name)),
  })
}

describe('bad plans', () => {
  test('there are at least twenty-five', () => {
    expect(badPlans.length).toBeGreaterThanOrEqual(25)
  })

  test.each(badPlans)('$name', (bad) => {
    const read = readBad(bad)
    const issues = read.ok ? [] : read.issues
    const order = (list: readonly (readonly [string, string])[]) => list.map((pair) => pair.join(' at ')).sort()
    expect(order(issues.map(({ code, path }) => [code, path] as const))).toEqual(order(bad.issues))
    expect(issues.map(({ message }) => message).join('\n')).toContain(bad.says)
    for (const { code, message, hint } of issues) {
      expect(message.length).toBeGreaterThan(20)
      expect(hint.length).toBeGreaterThan(8)
      expect(message).not.toMatch(/undefined|\[object|NaN m(?!m)/)
      expect(Object.keys(issueCodes)).toContain(code)
    }
  })

  test('every issue of the demo with nothing wrong is none', () => {
    expect(readPlan({ text: exampleText('demo.fincan.json'), readAttachment: beside }).ok).toBe(true)
  })
})

const brokenTexts = [
  ['', 'json/syntax', 'line 1, column 1'],
  ['{', 'json/syntax', 'line 1, column 2'],
  ['{\n  "format": "finwright/plan",\n  "version": 1,\n}', 'json/syntax', 'line 4, column 1'],
  ['{"name": \'demo\'}', 'json/syntax', 'line 1, column 10'],
  ['{"name": "demo" "note": ""}', 'json/syntax', 'line 1, column 17'],
  ['[1, 2', 'json/syntax', 'line 1, column 6'],
  ['{"a": 01}', 'json/syntax', 'line 1, column 8'],
  ['{} {}', 'json/syntax', 'line 1, column 4'],
  ['[]', 'plan/wrong-type', 'it must be an object'],
  ['null', 'plan/wrong-type', 'it must be an object'],
  ['[[[[['.repeat(20), 'json/syntax', 'deeper than 40 levels'],
] as const

describe('texts that are no plan', () => {
  test.each(brokenTexts)('%j', (text, code, says) => {
    const read = readPlan({ text, readAttachment: beside })
    expect(read.ok).toBe(false)
    if (read.ok) return
    expect(read.issues.map((issue) => issue.code)).toEqual([code])
    expect(read.issues[0]!.message).toContain(says)
  })

  test('a name that stands twice is told beside the rest', () => {
    const text = exampleText('demo.fincan.json').replace('"units": "metric"', '"units": "metric", "units": "us"')
    const read = readPlan({ text, readAttachment: beside })
    expect(read.ok ? [] : read.issues.map(({ code, path }) => `${code} at ${path}`)).toEqual([
      'json/repeated-name at units',
    ])
  })

  test('a plan of no format says so first', () => {
    const read = readPlan({ text: '{}', readAttachment: beside })
    expect(read.ok ? [] : read.issues.map(({ code }) => code)).toEqual(['plan/format'])
  })
})

test('what an edge may say depends on its shape', () => {
  const plan = demo()
  put(plan, 'fins.edges.leading', { shape: 'square', width: '3 mm' })
  const read = readPlan({ text: JSON.stringify(plan), readAttachment: beside })
  const said = read.ok ? [] : read.issues.map(({ message }) => message)
  expect(said).toEqual(["'width' is not known in 'fins.edges.leading'; allowed there: shape."])
})
