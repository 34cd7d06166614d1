import fc from 'fast-check'
import { expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'
import type { Json } from './bad-plans.data.ts'
import { beside, demo, exampleNames, exampleText } from './demo.ts'

/** Every path of a plan. */
function places(value: Json | undefined, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof value !== 'object' || value === null) return [path]
  return [path, ...Object.entries(value).flatMap(([key, part]) => places(part as Json, [...path, key]))]
}

const odd = fc.oneof(
  fc.constantFrom<Json>(null, true, 0, -1, 1e308, '', ' ', '-1 mm', '1e999 m', 'NaN mm', '5 kg', '3:0', '45', [], {}, [
    [],
  ]),
  fc.constantFrom<Json>(
    '__proto__',
    'constructor',
    'toString',
    '1 m'.repeat(40),
    '1/0 in',
    '0 mm',
    '100 %',
    '1e-400 m',
  ),
  fc.string(),
  fc.jsonValue() as fc.Arbitrary<Json>,
)

interface Change {
  readonly at: number
  readonly what: 'replace' | 'remove' | 'rename' | 'double'
  readonly value: Json
}

const change: fc.Arbitrary<Change> = fc.record({
  at: fc.nat(),
  what: fc.constantFrom('replace', 'remove', 'rename', 'double'),
  value: odd,
})

function apply(plan: Json, { at, what, value }: Change): void {
  const all = places(plan).slice(1)
  const path = all[at % all.length]!
  let parent = plan as Record<string, Json>
  for (const part of path.slice(0, -1)) parent = parent[part] as Record<string, Json>
  const key = path.at(-1)!
  if (Array.isArray(parent)) {
    if (what === 'double') parent.push(structuredClone(parent[Number(key)]!))
    else if (what === 'remove') parent.splice(Number(key), 1)
    else parent[Number(key)] = value
    return
  }
  const old = parent[key]!
  if (what === 'remove') delete parent[key]
  else if (what === 'rename') {
    delete parent[key]
    Object.defineProperty(parent, String(value), { value: old, enumerable: true, configurable: true, writable: true })
  } else parent[key] = what === 'double' ? [old, old] : value
}

function mustAnswer(text: string): boolean {
  const read = readPlan({ text, readAttachment: beside })
  if (read.ok) return true
  expect(read.issues.length).toBeGreaterThan(0)
  for (const { code, message, hint } of read.issues) {
    expect(code).toMatch(/^[a-z]+\/[a-z-]+$/)
    expect(message.length * hint.length).toBeGreaterThan(0)
  }
  return false
}

test('changed at random, the examples are read or refused, never thrown', { timeout: 120_000 }, () => {
  let refused = 0
  fc.assert(
    fc.property(fc.constantFrom(...exampleNames), fc.array(change, { minLength: 1, maxLength: 4 }), (name, changes) => {
      const plan = JSON.parse(exampleText(name)) as Json
      for (const one of changes) apply(plan, one)
      if (!mustAnswer(JSON.stringify(plan))) refused += 1
    }),
    { numRuns: 600 },
  )
  expect(refused).toBeGreaterThan(200)
})

test('with characters changed, the text is read or refused, never thrown', () => {
  const text = JSON.stringify(demo(), null, 2)
  const slip = fc.tuple(
    fc.nat({ max: text.length - 1 }),
    fc.constantFrom('', '"', ',', '{', ']', '\\', '9', '-', '\u0000', 'é'),
  )
  fc.assert(
    fc.property(fc.array(slip, { minLength: 1, maxLength: 3 }), (slips) => {
      const changed = slips.reduce((now, [at, character]) => now.slice(0, at) + character + now.slice(at + 1), text)
      mustAnswer(changed)
    }),
    { numRuns: 200 },
  )
})

test('any CSV is read or refused, never thrown', () => {
  const cell = fc.oneof(
    fc.constantFrom('time (s)', 'thrust (N)', '1', '-1', '', 'NaN', '1e999', '"', '"a\nb"', 'x (', '[m]'),
    fc.string(),
  )
  const csv = fc
    .array(
      fc.array(cell, { maxLength: 4 }).map((cells) => cells.join(',')),
      { maxLength: 8 },
    )
    .map((rows) => rows.join('\n'))
  fc.assert(
    fc.property(csv, (text) => {
      const read = readPlan({ text: exampleText('demo.fincan.json'), readAttachment: () => ({ ok: true, text }) })
      return read.ok || read.issues.every(({ path }) => path === 'flight.thrust')
    }),
    { numRuns: 200 },
  )
})
