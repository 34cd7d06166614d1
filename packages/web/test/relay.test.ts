/** Two workers taking turns: a new ask never waits for a step of an older one once both are warm. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { Ask, Report } from '@finwright/plan/protocol/work.ts'
import { describe, expect, test } from 'vitest'
import { type Line, relay } from '../src/worker/relay.ts'

const soon = (ms = 15): Promise<void> => new Promise((done) => setTimeout(done, ms))
const ask = (ticket: number): Ask => ({ ticket, key: `plan ${ticket}`, text: '', files: {} })

/** Workers that end an ask when the test says so; each step of theirs lasts until then. */
function workers() {
  const made: { asked: number[]; stops: number; end: (answered: boolean) => Promise<void> }[] = []
  const start = (): Line => {
    const waiting: { ask: Ask; report: (report: Report) => void; done: () => void }[] = []
    const one = {
      asked: [] as number[],
      stops: 0,
      end: async (answered: boolean) => {
        const { ask: its, report, done } = waiting.shift()!
        if (answered)
          report({ kind: 'answer', ticket: its.ticket, key: its.key, assessment: {} as unknown as Assessment })
        done()
        await soon(1)
      },
    }
    made.push(one)
    return {
      answer: (its, report) => {
        one.asked.push(its.ticket)
        return new Promise((done) => void waiting.push({ ask: its, report, done }))
      },
      stop: () => void one.stops++,
    }
  }
  return { made, start }
}

describe('two workers', () => {
  test('there is one until it has answered and rested; then the second is warmed with the same plan, and nobody hears of it', async () => {
    const { made, start } = workers()
    const { ask: put } = relay(start, 5)
    const heard: number[] = []
    put(ask(1), ({ ticket }) => heard.push(ticket))
    await soon()
    expect(made.length).toBe(1)
    await made[0]!.end(true)
    await soon()
    expect(made.map(({ asked }) => asked)).toEqual([[1], [-1]])
    await made[1]!.end(true)
    await soon()
    expect(made[1]!.asked).toEqual([-1, -1])
    await made[1]!.end(true)
    await soon()
    expect(made[1]!.asked).toEqual([-1, -1])
    expect(heard).toEqual([1])
  })

  test('while one is at a step the other one answers, turn and turn about', async () => {
    const { made, start } = workers()
    const { ask: put } = relay(start, 5)
    const heard: number[] = []
    const told = ({ ticket }: Report): void => void heard.push(ticket)
    put(ask(1), told)
    await made[0]!.end(true)
    await soon()
    for (let i = 0; i < 2; i++) {
      await made[1]!.end(true)
      await soon()
    }
    put(ask(2), told)
    put(ask(3), told)
    put(ask(4), told)
    expect(made.map(({ asked }) => asked)).toEqual([
      [1, 2, 4],
      [-1, -1, 3],
    ])
    expect(made.map(({ stops }) => stops)).toEqual([1, 1])
    await made[0]!.end(false)
    await made[0]!.end(true)
    await made[1]!.end(false)
    expect(heard).toEqual([1, 4])
    put(ask(5), told)
    expect(made[0]!.asked.at(-1)).toBe(5)
  })

  test('a second worker that is not warm is not waited for: the first one keeps the work', async () => {
    const { made, start } = workers()
    const { ask: put } = relay(start, 5)
    put(ask(1), () => undefined)
    await made[0]!.end(true)
    await soon()
    put(ask(2), () => undefined)
    put(ask(3), () => undefined)
    expect(made.map(({ asked }) => asked)).toEqual([[1, 2, 3], [-1]])
    // it ends its warming, which takes the first one's time
    expect(made[1]!.stops).toBeGreaterThan(0)
  })
})
