/**
 * Two workers that take turns. A step of the work cannot be broken off, and some last longer than a builder takes to turn a ply once more:
 * a new ask goes to the worker that rests, and the other one ends after its step. The second worker is started and warmed, by the plan of
 * the moment, when the first one has answered and rests; until then there is one.
 */
import type { Ask, Report } from '@finwright/plan/protocol/work.ts'
import type { Answerer } from './answerer.ts'

/** One worker. A newer ask ends the older one after its step. */
export interface Line {
  /** Comes back when it has ended, answered or not. */
  readonly answer: (ask: Ask, report: (report: Report) => void) => Promise<void>
  readonly stop: () => void
}

interface Runner extends Line {
  /** Asks that have not ended. */
  busy: number
  /** Answered to the end: what it keeps between answers is there, and its code has been translated. */
  answered: number
}

/** At rest for so long before the second worker is warmed, ms. */
const restBefore = 800

/** The first answers of a worker are its slowest: so many before it is relied on. */
const warmAfter = 2

/** Never one of the window's. */
const warmingTicket = -1

export function relay(start: () => Line, rest = restBefore): Answerer {
  const runner = (): Runner => ({ ...start(), busy: 0, answered: 0 })
  let now = runner()
  let other: Runner | null = null
  /** The second one is warm. */
  let pair = false
  let timer: ReturnType<typeof setTimeout> | undefined

  async function run(one: Runner, ask: Ask, told: (report: Report) => void): Promise<void> {
    one.busy++
    try {
      await one.answer(ask, (report) => {
        if (report.kind === 'answer') one.answered++
        told(report)
      })
    } finally {
      one.busy--
      pair ||= one === other && one.answered >= warmAfter
    }
    if (one.busy === 0 && one.answered > 0) warmLater(ask)
  }

  function warmLater(ask: Ask): void {
    clearTimeout(timer)
    if (pair) return
    timer = setTimeout(() => {
      other ??= runner()
      if (now.busy + other.busy === 0) void run(other, { ...ask, ticket: warmingTicket }, () => undefined)
    }, rest)
  }

  return {
    ask: (ask, report) => {
      clearTimeout(timer)
      if (!pair) other?.stop()
      if (now.busy > 0) {
        now.stop()
        // of two that are at work, the one that was told first to stop is free first
        if (pair && other !== null) [now, other] = [other, now]
      }
      void run(now, ask, report)
    },
    stop: () => {
      clearTimeout(timer)
      now.stop()
    },
  }
}
