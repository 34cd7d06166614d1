/** Cut list and cloth as CSV, read back by a parser of its own. */
import Papa from 'papaparse'
import { describe, expect, test } from 'vitest'
import { clothCsv, clothNeeds, cutListCsv, soldLength } from '../src/cut-list.ts'
import type { Primitive } from '../src/drawing/drawing.ts'
import { figuresIn } from '../src/layout/figures.ts'
import { papers } from '../src/layout/paper.ts'
import { buyList } from '../src/sheets/buy-list.ts'
import { demoAssessment, demoDesign } from './fixture/demo.ts'

const { pattern, nest } = demoAssessment
const rowsOf = (text: string) => Papa.parse<Record<string, string>>(text.trimEnd(), { header: true })
const input = {
  assessment: demoAssessment,
  design: demoDesign,
  identity: { project: 'demo', revision: { hash: '0', date: '2026-01-02' } },
  paper: papers.a4,
  figures: figuresIn('us'),
}
const wordsOf = (items: readonly Primitive[]): string[] =>
  items.flatMap((item) => (item.kind === 'text' ? [item.text] : item.kind === 'group' ? wordsOf(item.items) : []))

describe('the cut list', () => {
  const { data, errors } = rowsOf(cutListCsv(demoAssessment))

  test('has every piece once, with its area, mass and tolerance', () => {
    expect(errors).toEqual([])
    expect(data.map((row) => row.piece).sort()).toEqual(pattern.pieces.map(({ id }) => id).sort())
    for (const row of data) {
      const piece = pattern.pieces.find(({ id }) => id === row.piece)!
      expect(Number(row['area cm2'])).toBeCloseTo(piece.area_m2 * 1e4, 1)
      expect(Number(row['dry mass g'])).toBeCloseTo(piece.mass_kg * 1e3, 2)
      expect(Number(row['least g']) / Number(row['dry mass g'])).toBeCloseTo(0.95, 2)
      expect(Number(row['most g']) / Number(row['dry mass g'])).toBeCloseTo(1.05, 2)
    }
  })

  test('quotes what a spreadsheet would break at', () => {
    const odd = {
      ...demoAssessment,
      nest: { ...nest, rolls: nest.rolls.map((roll) => ({ ...roll, roll: 'a "b", c' })) },
    }
    const read = rowsOf(cutListCsv(odd))
    expect(read.errors).toEqual([])
    expect(new Set(read.data.map(({ roll }) => roll))).toEqual(new Set(['a "b", c']))
  })
})

describe('cloth in all', () => {
  test('is what the rolls are used for, in metres and yards, rounded up to what is sold', () => {
    const { data } = rowsOf(clothCsv(demoAssessment, demoDesign))
    expect(data).toHaveLength(3)
    const used = nest.rolls.reduce((sum, { usedLength_m }) => sum + usedLength_m, 0)
    expect(data.reduce((sum, row) => sum + Number(row['length needed m']), 0)).toBeCloseTo(used, 2)
    for (const row of data) {
      const metres = Number(row['length needed m'])
      expect(Number(row['length needed yd']) * 0.9144).toBeCloseTo(metres, 2)
      expect(Number(row['sold by the tenth metre m']) - metres).toBeLessThan(0.1001)
      expect(Number(row['sold by the quarter yard yd']) * 0.9144).toBeGreaterThanOrEqual(metres - 1e-3)
    }
  })

  test('0.61 m is 0.7 m or three quarters of a yard; 0.5 m stays 0.5 m', () => {
    expect(soldLength(0.61, 'metric')).toBeCloseTo(0.7, 12)
    expect(soldLength(0.61, 'us') / 0.9144).toBeCloseTo(0.75, 12)
    expect(soldLength(0.5, 'metric')).toBeCloseTo(0.5, 12)
  })

  test('stands on a page whether or not it has to be bought', () => {
    const words = buyList(input).flatMap(({ items }) => wordsOf(items))
    expect(words).toContain('CLOTH FOR EVERY CAN')
    expect(words).toContain('The stock covers every can of this plan.')
    const [first] = clothNeeds(demoAssessment, demoDesign)
    expect(words).toContain(`${(soldLength(first.length_m, 'us') / 0.9144).toFixed(2)} yd`)
  })
})
