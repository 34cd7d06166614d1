/** The answers given so far, kept in this window until a plan is made of them. */
import { type Cell, cell } from '../../state/store.ts'
import type { Units } from './make-plan.ts'
import { type Answers, examples } from './questions.data.ts'

const key = 'finwright.start'

/** What was answered; the examples stand where nothing was. */
export const answered: Cell<Partial<Answers>> = cell<Partial<Answers>>(kept())

export function answer(part: Partial<Answers>): void {
  answered.set({ ...answered.get(), ...part })
  globalThis.sessionStorage?.setItem(key, JSON.stringify(answered.get()))
}

export function forgetAnswers(): void {
  answered.set({})
  globalThis.sessionStorage?.removeItem(key)
}

export const answersIn = (given: Partial<Answers>, units: Units): Answers => ({ ...examples[units], ...given })

/** A kept text that is no list of known answers is as good as none. */
function kept(): Partial<Answers> {
  try {
    const read: unknown = JSON.parse(globalThis.sessionStorage?.getItem(key) ?? '{}')
    if (typeof read !== 'object' || read === null) return {}
    const known = Object.entries(read).filter(([name, value]) => name in examples.metric && typeof value === 'string')
    return Object.fromEntries(known) as Partial<Answers>
  } catch {
    return {}
  }
}
