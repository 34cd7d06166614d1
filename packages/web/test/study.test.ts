/** A study on the plan's page: its modes beside those that its source printed. */
import { readFileSync } from 'node:fs'
import { assess } from '@finwright/core/assess/assess.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'
import { figuresIn } from '@finwright/sheets/layout/figures.ts'
import { expect, test } from 'vitest'
import { modeRows, stateRows } from '../src/features/plan/study.results.ts'

test('shows its modes beside those that its note prints (NAFEMS FV16, Hz), within 2 %', () => {
  const text = readFileSync(new URL('../../../examples/study-square-plate.fincan.json', import.meta.url), 'utf8')
  const read = readPlan({ text, readAttachment: () => ({ ok: false, reason: 'none' }) })
  if (!read.ok || read.value.design.kind !== 'study') throw new Error('the example is no study')
  const { design } = read.value
  const made = assess(design)
  if (!made.ok) throw new Error('the example is not assessed')
  const rows = modeRows(made.value, design)
  const printed = [0.421, 1.029, 2.582, 3.306, 3.753, 6.555]
  printed.forEach((f, i) => {
    expect(Math.abs(Number.parseFloat(rows[i]![2]!) / f - 1)).toBeLessThan(0.02)
  })
  expect(stateRows(made.value, design, figuresIn('metric'))).toEqual([])
})
