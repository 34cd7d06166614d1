import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readJson } from '../src/text/json.ts'

const read = (text: string) => {
  const reading = readJson(text)
  return reading.ok ? { value: reading.value } : 'refused'
}
const byLanguage = (text: string) => {
  try {
    return { value: JSON.parse(text) as unknown }
  } catch {
    return 'refused'
  }
}

describe('our reader and the language agree', () => {
  test('on any JSON', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 8 }), (text) => {
        expect(read(text)).toEqual(byLanguage(text))
      }),
    )
  })

  test('on JSON with a character changed', () => {
    fc.assert(
      fc.property(
        fc.json({ maxDepth: 4 }),
        fc.nat(),
        fc.constantFrom('', '"', ',', '0', '.', '}', '\t', '\\'),
        (text, at, c) => {
          const place = at % text.length
          const changed = text.slice(0, place) + c + text.slice(place + 1)
          expect(read(changed)).toEqual(byLanguage(changed))
        },
      ),
      { numRuns: 2000 },
    )
  })
})

test('a name like that of a prototype is a name like any other', () => {
  const reading = readJson('{"__proto__": {"a": 1}}')
  expect(reading.ok && Object.keys(reading.value as object)).toEqual(['__proto__'])
  expect(reading.ok && Object.getPrototypeOf(reading.value)).toBe(Object.prototype)
})
