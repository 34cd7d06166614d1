/** The worker: reads and assesses plans in steps, and between two of them hears whether something newer is asked for. */
import { type Ask, answering } from '@finwright/plan/protocol/work.ts'
import { expose } from 'comlink'
import { type Sent, sender } from './sent.ts'

let newest = 0
const packed = sender()

/** One line for all reports, so that they arrive in the order they were made. */
let report: (sent: Sent) => void = () => undefined

const work = {
  listen(told: (sent: Sent) => void): void {
    report = told
  },
  /** Ends early when a newer ask comes in. */
  async answer(ask: Ask): Promise<void> {
    newest = ask.ticket
    for (const step of answering(ask)) {
      if (newest !== ask.ticket) return
      report(packed(step))
      await breath()
    }
  },
  stop(): void {
    newest = -1
  },
}

export type AnswerWork = typeof work

/** Lets messages in; a timeout would wait 4 ms. */
function breath(): Promise<void> {
  return new Promise((done) => {
    const { port1, port2 } = new MessageChannel()
    port1.onmessage = () => {
      port1.close()
      done()
    }
    port2.postMessage(null)
  })
}

expose(work)
