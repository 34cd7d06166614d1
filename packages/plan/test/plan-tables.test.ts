/** Tables of the flight: rows of the plan and a file beside it say the same. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { planRows, readPlanTable, rowsInSi, tableAdvice, tableCsv } from '../src/csv/plan-tables.ts'
import { readPlan } from '../src/read-plan.ts'
import { demo } from './demo.ts'

const flown = 'time (s),altitude (ft),speed (ft/s)\n0,700,0\n0.05,701.5,61.2\n4.2,5300,1791\n'

describe('a file as rows of the plan', () => {
  test('keeps the numbers and units that were typed', () => {
    const table = readPlanTable('history', { name: 'flown.csv', text: flown })
    expect(table.issues).toEqual([])
    expect(planRows('history', table.columns!, table.units)).toEqual([
      ['0 s', '700 ft', '0 ft/s'],
      ['0.05 s', '701.5 ft', '61.2 ft/s'],
      ['4.2 s', '5300 ft', '1791 ft/s'],
    ])
  })

  test('a drag table has no units', () => {
    const table = readPlanTable('drag', { name: 'd.csv', text: 'Mach,Cd\n0,0.5\n1.2,0.71\n' })
    expect(planRows('drag', table.columns!, 'us')).toEqual([
      [0, 0.5],
      [1.2, 0.71],
    ])
  })

  test('a row that cannot be read gives no columns', () => {
    expect(rowsInSi('thrust', [['0 s', '3']])).toBeNull()
    expect(rowsInSi('thrust', 'demo-thrust.csv')).toBeNull()
  })

  test('the advice names each column with a unit', () => {
    expect(tableAdvice('history')).toBe("The first line must be like 'time (s), altitude (m), speed (m/s)'.")
  })
})

describe('rows as a file', () => {
  test.each(['metric', 'us'] as const)('%s: what is written is read back to nine digits', (system) => {
    const point = fc.tuple(
      fc.integer({ min: -1000, max: 36_000 }).map((tenths) => tenths / 10),
      fc.double({ min: -400, max: 2e5, noNaN: true }),
      fc.double({ min: -4999, max: 4999, noNaN: true }),
    )
    fc.assert(
      fc.property(fc.uniqueArray(point, { minLength: 2, maxLength: 12, selector: ([t]) => t + 0 }), (points) => {
        const rows = [...points].sort((a, b) => a[0] - b[0])
        const columns = [0, 1, 2].map((j) => rows.map((row) => row[j]!))
        const table = readPlanTable('history', { name: 'x.csv', text: tableCsv('history', columns, system) })
        expect(table.issues).toEqual([])
        const beyond = table.columns!.flatMap((column, j) =>
          column.map((value, i) => Math.abs(value - columns[j]![i]!) - 1e-8 * Math.abs(columns[j]![i]!)),
        )
        expect(Math.max(...beyond)).toBeLessThanOrEqual(1e-300)
      }),
    )
  })
})

test('rows in the plan and the same rows in a file make the same design', () => {
  const text = 'time (s),altitude (m),speed (m/s)\n0,200,0\n2,700,300\n4,2000,550\n'
  const { columns, units } = readPlanTable('history', { name: 'flown.csv', text })
  const read = (history: unknown) =>
    readPlan({
      text: JSON.stringify({ ...(demo() as object), flight: { kind: 'history', history } }),
      readAttachment: () => ({ ok: true, text }),
    })
  const [beside, inside] = [read('flown.csv'), read(planRows('history', columns!, units))]
  expect(beside.ok ? [] : beside.issues).toEqual([])
  expect(inside.ok ? [] : inside.issues).toEqual([])
  const flightOf = (one: typeof beside) => (one.ok && one.value.design.kind === 'can' ? one.value.design.flight : null)
  expect(flightOf(inside)).toEqual(flightOf(beside))
  expect(flightOf(inside)).not.toBeNull()
})

test('a flown history in the plan is told where it does not rise', () => {
  const history = [
    ['0 s', '200 m', '0 m/s'],
    ['0 s', '210 m', '10 m/s'],
  ]
  const read = readPlan({
    text: JSON.stringify({ ...(demo() as object), flight: { kind: 'history', history } }),
    readAttachment: () => ({ ok: false, reason: 'none' }),
  })
  expect(read.ok ? [] : read.issues).toMatchObject([{ code: 'flight/not-rising', path: 'flight.history[1][0]' }])
})
