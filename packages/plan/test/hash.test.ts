/** SHA-256 against the worked examples of FIPS 180-2 (2002), appendix B.1 and B.2, and Node's own. */
import { createHash } from 'node:crypto'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'
import { contentHash, sha256 } from '../src/text/hash.ts'
import { exampleText } from './demo.ts'

describe('SHA-256', () => {
  test.each([
    ['abc', 'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad'],
    [
      'abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq',
      '248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1',
    ],
    ['', 'e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855'],
  ])('of %j', (text, digest) => {
    expect(sha256(text)).toBe(digest)
  })

  test('of any text is what Node says', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 300 }), (text) => {
        expect(sha256(text)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'))
      }),
    )
  })
})

describe("the plan's fingerprint", () => {
  const hashOf = (plan: string, csv: string): string => {
    const read = readPlan({ text: plan, readAttachment: () => ({ ok: true, text: csv }) })
    return read.ok ? read.value.hash : 'refused'
  }
  const plan = exampleText('demo.fincan.json')
  const csv = exampleText('demo-thrust.csv')

  test('is 12 hexadecimal digits, the same for other line ends', () => {
    expect(hashOf(plan, csv)).toMatch(/^[0-9a-f]{12}$/)
    expect(hashOf(plan.replaceAll('\n', '\r\n'), csv.replaceAll('\n', '\r\n'))).toBe(hashOf(plan, csv))
  })

  test('moves with the plan and with what is attached', () => {
    expect(hashOf(plan.replace('102.0 mm', '102.1 mm'), csv)).not.toBe(hashOf(plan, csv))
    expect(hashOf(plan, csv.replace('2130', '2131'))).not.toBe(hashOf(plan, csv))
  })

  test('cannot be fooled by moving text between the parts', () => {
    const two = contentHash([{ name: 'a', text: 'bc' }])
    expect(contentHash([{ name: 'ab', text: 'c' }])).not.toBe(two)
  })
})
