/** Whoever works out answers: the worker in the app, something simpler in tests. */
import type { Ask, Report } from '@finwright/plan/protocol/work.ts'
import { proxy, wrap } from 'comlink'
import type { AnswerWork } from './answer.worker.ts'
import { receiver, type Sent } from './sent.ts'

export interface Answerer {
  /** A newer ask ends the older one. */
  readonly ask: (ask: Ask, report: (report: Report) => void) => void
  readonly stop: () => void
}

export function workerAnswerer(): Answerer {
  const worker = new Worker(new URL('./answer.worker.ts', import.meta.url), { type: 'module', name: 'assess' })
  const work = wrap<AnswerWork>(worker)
  const unpacked = receiver()
  let told: (report: Report) => void = () => undefined
  void work.listen(proxy((sent: Sent) => told(unpacked(sent))))
  return {
    ask: (ask, report) => {
      told = report
      void work.answer(ask)
    },
    stop: () => void work.stop(),
  }
}
