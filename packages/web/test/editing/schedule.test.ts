/** The schedule's commands and results without a browser. */
import { readFileSync } from 'node:fs'
import { applyCommand } from '@finwright/plan/protocol/apply.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import type { JsonObject, PlanRecord } from '@finwright/plan/protocol/record.ts'
import { answer, noAnswers, type Report, reported } from '@finwright/plan/protocol/work.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import { figuresIn } from '@finwright/sheets/layout/figures.ts'
import { describe, expect, test } from 'vitest'
import { turned } from '../../src/features/schedule/other.ts'
import {
  addOutermost,
  adopt,
  duplicate,
  halfTurn,
  moveTo,
  pliesOf,
  remove,
  setAngle,
  snapped,
} from '../../src/features/schedule/schedule.commands.ts'
import {
  answerInWords,
  compared,
  halfWidthOf,
  laminateFigures,
  plyRows,
  plyShownAt,
} from '../../src/features/schedule/schedule.results.ts'

const plan = JSON.parse(readFileSync('examples/demo.fincan.json', 'utf8')) as JsonObject
const record: PlanRecord = { kind: 'plan', plan, files: {} }
const thrust = readFileSync('examples/demo-thrust.csv', 'utf8')

function after(intent: Intent | null, on = record): readonly JsonObject[] {
  if (intent === null) throw new Error('no command')
  const made = applyCommand(intent, on)
  if (!made.ok) throw new Error(made.issues[0]!.message)
  return pliesOf(made.record.plan)
}

const rowsOf = (plies: readonly JsonObject[]) => plyRows({ plies, materials: undefined, halfWidth: 0.15, cured: [] })

/** Everything but the sheets' asides, of the demo with these plies. */
function partsOf(plies: readonly JsonObject[]) {
  let answers = { ...noAnswers, key: 'k', asked: { ticket: 1, key: 'k', step: '' } }
  const ask = { ticket: 1, key: 'k', text: planText({ ...plan, plies }), files: { 'demo-thrust.csv': thrust } }
  answer(ask, (report: Report) => {
    answers = reported(answers, report) as typeof answers
  })
  expect(answers.issues).toBeNull()
  return answers.parts
}

describe('commands on the stack', () => {
  test('a ply moves, is doubled, is taken out, is put in outermost of its kind', () => {
    expect(after(moveTo(0, 1, 7)).map(({ angle }) => angle)).toEqual([
      ...['45 deg', '0 deg', '0 deg', '45 deg', '0 deg'],
      ...[undefined, undefined],
    ])
    expect(after(duplicate(1))).toHaveLength(8)
    expect(after(remove(0, 7))).toHaveLength(6)
    const more = after(addOutermost(pliesOf(plan)))
    expect(more[5]).toEqual({ cloth: 'glass-plain-200', angle: '0 deg' })
    expect(more[6]).toMatchObject({ role: 'surface' })
  })
  test('beyond the ends it stays at the end; the last ply stays', () => {
    expect(moveTo(0, -3, 7)).toBeNull()
    expect(moveTo(5, 12, 7)).toEqual({ name: 'plies.move', payload: { from: 5, to: 6 } })
    expect(remove(0, 1)).toBeNull()
  })
  test('an angle is written with its unit, a schedule as a whole', () => {
    expect(after(setAngle(2, 37))[2]).toMatchObject({ angle: '37 deg', cloth: 'glass-plain-200' })
    const two = pliesOf(plan).slice(0, 2)
    expect(after(adopt(two))).toEqual(two)
  })
  test('an angle that cannot be is refused with what to do', () => {
    const made = applyCommand(setAngle(0, 400), record)
    expect(made.ok ? null : made.issues[0]).toMatchObject({ code: 'value/out-of-range', path: 'plies[0].angle' })
  })
})

describe('the dial', () => {
  test.each([
    [3, 0],
    [-4, 0],
    [5, 5],
    [42, 45],
    [-48, -45],
    [-88, 90],
    [178, 0],
    [135, -45],
  ])('%d degrees of the hand are %d', (hand, angle) => {
    expect(snapped(hand)).toBe(angle)
  })
  test('free, it stands at every whole degree', () => {
    expect([snapped(3, true), snapped(-91, true), snapped(44.6, true)]).toEqual([3, 89, 45])
    expect([halfTurn(-90), halfTurn(270), halfTurn(-135)]).toEqual([90, 90, 45])
  })
})

describe('rows', () => {
  test('are named as pieces and sheets name them, and reach as far as they are cut', () => {
    const rows = rowsOf(pliesOf(plan))
    expect(rows.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3', 'P4', 'P5', 'V1', 'R1'])
    expect(rows.map(({ angle }) => angle)).toEqual([0, 45, 0, 45, 0, 0, 0].map((a) => expect.closeTo(a, 9)))
    expect(rows[0]!.setBack).toBeCloseTo(0.4, 9)
    expect(rows[4]!.setBack).toBe(0)
  })
  test('before the pattern is known, the strips are as wide as face and body', () => {
    const read = readPlan({ text: planText(plan), readAttachment: () => ({ ok: true, text: thrust }) })
    expect(halfWidthOf(null, read.ok ? read.value.design : undefined)).toBeCloseTo(0.11 + (Math.PI * 0.051) / 4, 12)
    expect(halfWidthOf(null, undefined)).toBeNull()
  })
  test('an angle that is none is shown as typed', () => {
    expect(rowsOf([{ cloth: 'glass-plain-200', angle: 'askew' }])[0]).toMatchObject({ angle: null, angleText: 'askew' })
  })
})

describe('the other schedule', () => {
  const [A, B, C] = ['0 deg', '30 deg', '60 deg'].map((angle) => [{ cloth: 'glass-plain-200', angle }])
  test('turns round with undo and redo of a switch, and with nothing else', () => {
    const switched = turned({ plies: B!, twin: A! }, A!, B!)
    expect(switched).toEqual({ plies: A, twin: B })
    const undone = turned(switched, B!, A!)
    expect(undone).toEqual({ plies: B, twin: A })
    expect(turned(undone, A!, B!)).toEqual({ plies: A, twin: B })
    expect(turned(switched, B!, C!)).toBe(switched)
    expect(turned({ plies: A!, twin: null }, B!, A!)).toEqual({ plies: A, twin: null })
  })
})

describe('two schedules of the demo', () => {
  const figures = figuresIn('metric')
  const present = partsOf(pliesOf(plan))
  const other = partsOf(after(remove(1, 7)))
  test('every margin and the laminate stand beside each other', () => {
    const rows = new Map(compared(present, other, figures).map((row) => [row.id, row]))
    expect([rows.get('count')!.present, rows.get('count')!.other]).toEqual(['6', '5'])
    for (const id of ['flutter', 'frequency', 'mass', 'skin', 'D11', 'D22', 'D66', 'areal'])
      expect(rows.get(id)!, id).toMatchObject({ differs: true })
    const grams = (text: string): number => Number.parseFloat(text)
    expect(grams(rows.get('mass')!.other)).toBeLessThan(grams(rows.get('mass')!.present))
    expect(grams(rows.get('D66')!.other)).toBeLessThan(grams(rows.get('D66')!.present))
  })
  test('the laminate is the thickest one, in the units asked for', () => {
    const [metric, us] = [figures, figuresIn('us')].map((one) => laminateFigures(present.fin?.value, one))
    const D = Math.max(...present.fin!.value.laminates.map(({ bendingStiffness_Nm }) => bendingStiffness_Nm[0][0]))
    expect(Number.parseFloat(metric!.find(({ id }) => id === 'D11')!.value)).toBeCloseTo(D, 0)
    expect(us!.find(({ id }) => id === 'D11')!.value).toMatch(/lbf·in$/)
  })
  test('the answer is in words', () => {
    expect(answerInWords(pliesOf(plan), present.fin?.value, figures)).toMatch(
      /^5 structural plies and 1 surface ply on every face, with peel ply that comes off again\. One skin is 1\.\d\d mm/,
    )
  })
  test('on the bay map the ply is found that ends under the hand', () => {
    const { shapes } = present.pattern!.value
    expect(plyShownAt(shapes, [0.15, 0])).toBe('P1')
    const P5 = shapes.find(({ ply }) => ply === 'P5')!
    const tip = Math.max(...P5.netOutline_m.map(([, y]) => y))
    expect(plyShownAt(shapes, [0.21, tip - 2e-3])).toBe('P5')
    expect(plyShownAt(shapes, [0.21, tip + 2e-3])).toBeNull()
  })
})
