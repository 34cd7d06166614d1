/** Reports between worker and window: what the window has already is not sent again, and what comes out is what went in. */

import { readFileSync } from 'node:fs'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Answers, type Ask, answering, noAnswers, recordChanged, reported } from '@finwright/plan/protocol/work.ts'
import { describe, expect, test } from 'vitest'
import { receiver, sender } from '../src/worker/sent.ts'

const demo = readFileSync('examples/demo.fincan.json', 'utf8')
const files = { 'demo-thrust.csv': readFileSync('examples/demo-thrust.csv', 'utf8') }
const turned = demo.replace('"angle": "45 deg"', '"angle": "30 deg"')

describe('reports on their way', () => {
  test('two asks after each other: whole at the end, sections that did not change are the same objects', () => {
    expect(turned).not.toBe(demo)
    const [pack, unpack] = [sender(), receiver()]
    let bytes = 0
    let made: Assessment | null = null
    let answers: Answers = noAnswers
    const ask = (text: string, key: string): void => {
      bytes = 0
      const turn = recordChanged(answers, key)
      answers = turn.answers
      const asked: Ask = { ticket: turn.ask!.ticket, key, text, files }
      for (const report of answering(asked)) {
        if (report.kind === 'answer') made = report.assessment
        const sent = structuredClone(pack(report))
        bytes += JSON.stringify(sent).length
        answers = reported(answers, unpack(sent))
      }
    }
    ask(demo, 'first')
    const first = answers
    // the plan as read, the sections, and the whole without what was told in sections
    expect(bytes).toBeLessThan(1.5 * JSON.stringify(made).length)
    const whole = bytes
    expect(first.assessment?.value).toEqual(made)
    for (const name of ['pattern', 'nest', 'strength', 'sources'] as const)
      expect(first.assessment?.value[name], name).toBe(first.parts[name]?.value)

    ask(turned, 'second')
    expect(answers.assessment?.value).toEqual(made)
    expect(answers.parts.sources?.value).toBe(first.parts.sources?.value)
    expect(answers.parts.strength?.value).not.toEqual(first.parts.strength?.value)
    expect(bytes).toBeLessThan(whole)
  })
})
