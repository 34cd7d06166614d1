/** Whoever works out answers: workers in the app, something simpler in tests. */
import type { Ask, Report } from '@finwright/plan/protocol/work.ts'
import { proxy, wrap } from 'comlink'
import type { AnswerWork } from './answer.worker.ts'
import { type Line, relay } from './relay.ts'
import { receiver, type Sent } from './sent.ts'

export interface Answerer {
  /** A newer ask ends the older one. */
  readonly ask: (ask: Ask, report: (report: Report) => void) => void
  readonly stop: () => void
}

/** With two workers where the machine can run two things at once. */
export const workerAnswerer = (): Answerer => (navigator.hardwareConcurrency > 1 ? relay(workerLine) : oneWorker())

/** For what may wait. */
export function oneWorker(): Answerer {
  const { answer, stop } = workerLine()
  return { ask: (ask, report) => void answer(ask, report), stop }
}

function workerLine(): Line {
  const worker = new Worker(new URL('./answer.worker.ts', import.meta.url), { type: 'module', name: 'assess' })
  const work = wrap<AnswerWork>(worker)
  const unpacked = receiver()
  let told: (report: Report) => void = () => undefined
  void work.listen(proxy((sent: Sent) => told(unpacked(sent))))
  return {
    answer: (ask, report) => {
      told = report
      return work.answer(ask)
    },
    stop: () => void work.stop(),
  }
}
