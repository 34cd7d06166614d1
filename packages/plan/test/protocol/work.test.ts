/** Between window and worker: the newest record counts, an older answer is stale, and nothing is asked twice. */
import { describe, expect, test } from 'vitest'
import { applyCommand } from '../../src/protocol/apply.ts'
import {
  type Answers,
  answer,
  answering,
  answerKey,
  isStale,
  noAnswers,
  type Report,
  recordChanged,
  reported,
} from '../../src/protocol/work.ts'
import { planText } from '../../src/text/write-plan.ts'
import { beside, exampleText } from '../demo.ts'
import { demoRecord, exampleRecord, someFile } from './records.ts'

const refusedReport = (ticket: number, key: string): Report => ({ kind: 'refused', ticket, key, issues: [] })
/** No view reads it here. */
const answered = (ticket: number, key: string): Report => ({ kind: 'answer', ticket, key, assessment: {} as never })
const read = (ticket: number, key: string): Report => ({ kind: 'read', ticket, key, document: {} as never })

describe('the newest record counts', () => {
  test('an edit while the worker is at it ends that, and asks anew', () => {
    const first = recordChanged(noAnswers, 'a')
    expect(first.ask).toEqual({ ticket: 1, cancel: false })
    const second = recordChanged(first.answers, 'b')
    expect(second.ask).toEqual({ ticket: 2, cancel: true })
    const late = reported(second.answers, answered(1, 'a'))
    expect(late).toBe(second.answers)
    const then = reported(late, answered(2, 'b'))
    expect([then.asked, isStale(then), then.assessment?.key]).toEqual([null, false, 'b'])
  })

  test('what is shown is stale until the answer is there', () => {
    let answers: Answers = reported(recordChanged(noAnswers, 'a').answers, answered(1, 'a'))
    answers = recordChanged(answers, 'b').answers
    expect(isStale(answers)).toBe(true)
    answers = reported(answers, refusedReport(2, 'b'))
    expect([isStale(answers), answers.issues?.key]).toEqual([true, 'b'])
  })

  test('back to a record that is answered already asks nothing', () => {
    const answers = reported(reported(recordChanged(noAnswers, 'a').answers, read(1, 'a')), answered(1, 'a'))
    const away = recordChanged(answers, 'b')
    const back = recordChanged(away.answers, 'a')
    expect([back.ask, isStale(back.answers)]).toEqual([{ ticket: 0, cancel: true }, false])
    expect(recordChanged(back.answers, 'a').ask).toBeNull()
  })

  test('back to it once the other has been read, whose sections may stand by then, asks anew', () => {
    const answers = reported(reported(recordChanged(noAnswers, 'a').answers, read(1, 'a')), answered(1, 'a'))
    const away = reported(recordChanged(answers, 'b').answers, read(2, 'b'))
    const half = reported(away, { kind: 'parts', ticket: 2, key: 'b', parts: { fin: {} as never } })
    expect(half.parts.fin?.key).toBe('b')
    const back = recordChanged(half, 'a')
    expect(back.ask).toEqual({ ticket: 3, cancel: true })
    const whole = reported(reported(back.answers, read(3, 'a')), answered(3, 'a'))
    expect([whole.asked, whole.document?.key, whole.parts.fin?.key]).toEqual([null, 'a', 'a'])
  })
})

describe('the work', () => {
  const record = exampleRecord('study-square-plate')

  test('reads, then assesses', () => {
    const reports: Report[] = []
    answer({ ticket: 1, key: 'k', text: planText(record.plan), files: {} }, (report) => reports.push(report))
    expect(reports.map(({ kind }) => kind)).toEqual(['step', 'read', 'step', 'answer'])
  })

  test('sections of a can come before the whole, and are those of the whole', () => {
    const record = demoRecord()
    const files = { 'demo-thrust.csv': exampleText('demo-thrust.csv') }
    let answers = recordChanged(noAnswers, 'k').answers
    const seen: string[] = []
    for (const report of answering({ ticket: 1, key: 'k', text: planText(record.plan), files })) {
      if (report.kind === 'answer') {
        const { whole, told } = { whole: report.assessment, told: answers.parts }
        expect(told.flutter?.value.margin).toEqual(whole.flutter.margin)
        expect(told.strength?.value).toEqual(whole.strength)
        expect(told.nest?.value).toEqual(whole.nest)
        expect(whole.flutter.drivers.length).toBeGreaterThan(0)
      }
      if (report.kind === 'parts') seen.push(...Object.keys(report.parts))
      answers = reported(answers, report)
    }
    expect(seen.indexOf('flutter')).toBeLessThan(seen.indexOf('nest'))
    expect(new Set(seen).size).toBe(10)
    expect([answers.asked, answers.parts.fin?.key]).toEqual([null, 'k'])
  })

  test('says what is wrong with a plan whose file is missing', () => {
    const reports: Report[] = []
    answer({ ticket: 1, key: 'k', text: planText(demoRecord().plan), files: {} }, (report) => reports.push(report))
    const last = reports.at(-1)
    expect(last?.kind === 'refused' ? last.issues.map(({ code }) => code) : []).toEqual(['csv/unreadable'])
    expect(beside('demo-thrust.csv').ok).toBe(true)
    expect(exampleText('demo-thrust.csv')).toContain('thrust')
  })

  test('the key tells plans and files apart', () => {
    const one = demoRecord()
    const set = applyCommand({ name: 'field.set', payload: { path: ['tube', 'wall'], value: '2.1 mm' } }, one)
    const keys = [
      one,
      set.ok ? set.record : one,
      { ...one, files: { 'a.csv': someFile('a') } },
      { ...one, files: { 'a.csv': someFile('b') } },
    ].map(answerKey)
    expect(new Set(keys).size).toBe(4)
    expect(answerKey(demoRecord())).toBe(keys[0])
  })
})
