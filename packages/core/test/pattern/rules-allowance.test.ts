/** Print error and bias shear together, against arithmetic by hand on rectangles, and on the example can. */
import { describe, expect, test } from 'vitest'
import { type Patterns, type PlyShape, patterns } from '../../src/pattern/patterns.ts'
import { allowanceRules, allowances } from '../../src/pattern/rules-allowance.ts'
import { pieceNameRule } from '../../src/pattern/rules-numbering.ts'
import { demo, stepped } from './demo.ts'

const degree = Math.PI / 180
const box = (length: number, width: number) =>
  [
    [-length / 2, -width / 2],
    [length / 2, -width / 2],
    [length / 2, width / 2],
    [-length / 2, width / 2],
  ] as const

/** Net and cut rectangles in mm. */
const rectangle = (ply: string, angleDeg: number, net: readonly [number, number], cut: readonly [number, number]) => ({
  shape: {
    ply,
    angle: angleDeg * degree,
    netOutline: box(net[0] * 1e-3, net[1] * 1e-3),
    outline: box(cut[0] * 1e-3, cut[1] * 1e-3),
    buildUp: 0,
  } as unknown as PlyShape,
  ply: { id: ply, role: 'structural' as const, overhang: { edges: 0.01, bodyEnds: 0.01 } },
})

function judged(pieces: readonly ReturnType<typeof rectangle>[], biasShear = 4 * degree) {
  const input = {
    shapes: pieces.map(({ shape }) => shape),
    plies: pieces.map(({ ply }) => ply),
    biasShear,
    narrowing: 0,
  }
  const found = allowances(input)
  return { found, rules: allowanceRules(input, found) }
}

describe('a full ply of 287.9 mm with 10 mm of overhang', () => {
  const full = (angle: number) => rectangle('P1', angle, [300, 287.9], [320, 307.9])

  test('along the axes loses half a per cent of its width: (307.9 × 0.995 − 287.9) / 2 = 9.23 mm are left', () => {
    const { found, rules } = judged([full(0)])
    expect(found[0]!.left! * 1e3).toBeCloseTo((320 * 0.995 - 300) / 2, 6)
    expect((307.9 * 0.995 - 287.9) / 2).toBeCloseTo(9.23, 2)
    expect(found[0]!.bareAtShear).toBeNull()
    expect(rules).toEqual([])
  })

  test('on the bias without an allowance keeps (307.9 × 0.995 × 0.9645 − 287.9) / 2 mm at 4°, and is bare at 10°', () => {
    const kept = Math.cos(2 * degree) - Math.sin(2 * degree)
    const { found, rules } = judged([full(45)])
    expect(found[0]!.left! * 1e3).toBeCloseTo((307.9 * 0.995 * kept - 287.9) / 2, 6)
    expect(rules).toEqual([])
    const bare = judged([full(45)], 10 * degree)
    expect(bare.rules.map(({ code, path }) => `${code} ${path}`)).toEqual(['pattern/net-bare plies[0].overhang.edges'])
    // (287.9 − 307.9 × 0.995 × 0.9091) / 2 = 4.7 mm: half a per cent of print makes the 4 mm of the shear alone worse.
    expect(bare.rules[0]!.message).toContain('4.7 mm')
  })

  test('the shear that bares it is where 307.9 × 0.995 (cos g/2 − sin g/2) = 287.9', () => {
    const g = judged([full(45)]).found[0]!.bareAtShear!
    expect(307.9 * 0.995 * (Math.cos(g / 2) - Math.sin(g / 2))).toBeCloseTo(287.9, 6)
    expect(g / degree).toBeGreaterThan(6)
  })
})

describe('covers', () => {
  /** Widened by 1 / 0.9645 for 4° of shear; not pulled at all it is that much wider. */
  const kept = Math.cos(2 * degree) - Math.sin(2 * degree)
  const bias = rectangle('P1', 45, [270, 257.9], [270, 257.9 / kept])
  const cover = rectangle('P2', 0, [300, 287.9], [320, 307.9])

  test('a bias ply that nobody pulls comes out by its allowance, and the cover is less by that and the print', () => {
    const { found, rules } = judged([bias, cover])
    const long = (257.9 / kept) * 1.005
    expect(found[1]!.covers[0]!.least * 1e3).toBeCloseTo((287.9 - long) / 2, 6)
    expect(rules).toEqual([])
  })

  test('an edge that comes out from under the ply that covers it as drawn is a broken rule', () => {
    const close = rectangle('P1', 45, [290, 281.9], [290, 281.9 / kept])
    const { rules } = judged([close, cover])
    expect(rules.map(({ code }) => code)).toEqual(['pattern/cover-lost'])
    expect(rules[0]!.message).toContain(`${(((281.9 / kept) * 1.005) / 2 - 287.9 / 2).toFixed(1)} mm`)
  })
})

test('the example keeps cloth beyond every trimmed line, and every cover, at its worst', () => {
  const input = { ...demo, plies: stepped, layup: { ...demo.layup, overrun: { forward: 0.015, aft: 0.015 } } }
  const made = patterns(input)
  if (!made.ok) throw new Error('the example has patterns')
  const { shapes, section }: Patterns = made.value
  const narrowing = section.filletArc + section.filletFoot - Math.PI / section.finCount
  const all = { shapes, plies: stepped, biasShear: demo.layup.biasShear, narrowing }
  const found = allowances(all)
  expect(allowanceRules(all, found)).toEqual([])
  for (const { ply, left, short, covers } of found) {
    const trimmed = ['P5', 'V1', 'R1'].includes(ply)
    expect(left === null).toBe(!trimmed)
    if (left !== null) expect(left).toBeGreaterThan(0.005)
    expect(short).toBeLessThan(1e-3)
    for (const { ply: beneath, least } of covers)
      if (ply === 'V1' && beneath === 'P5') expect(Math.abs(least)).toBeLessThan(2e-5)
      else expect(least, `${ply} over ${beneath}`).toBeGreaterThan(0.003)
  }
})

test('two pieces of one name are found', () => {
  const named = (id: string) => ({ id, can: id[0]! })
  expect(pieceNameRule([named('A-1-P1'), named('A-1-P2'), named('B-1-P1')])).toEqual([])
  const [issue] = pieceNameRule([named('A-1-P1'), named('A-1-P2'), named('A-1-P1')])
  expect(issue).toMatchObject({ code: 'pattern/piece-name', value: ['A-1-P1'] })
})
