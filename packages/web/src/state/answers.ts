/** What the worker has to say about the present plan, section by section, each known to be fresh or stale. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { notComputed } from '@finwright/core/assess/not-computed.ts'
import { noStrength } from '@finwright/core/assess/strength-section.ts'
import type { Issue } from '@finwright/core/issue.ts'
import type { FileReference, PlanRecord } from '@finwright/plan/protocol/record.ts'
import {
  type Answers,
  answerKey,
  noAnswers,
  type PartName,
  recordChanged,
  reported,
} from '@finwright/plan/protocol/work.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import type { Answerer } from '../worker/answerer.ts'
import { cell, type Store } from './store.ts'

export interface AnswerStore extends Store<Answers> {
  readonly recordIs: (record: PlanRecord) => void
  /** Leaves what is known as it is; stale numbers stay stale. */
  readonly cancel: () => void
  /** Asks again after a cancel. */
  readonly again: () => void
}

export type ReadFile = (reference: FileReference) => Promise<string | null>

export function answerStore(answerer: Answerer, readFile: ReadFile): AnswerStore {
  const state = cell<Answers>(noAnswers)
  const contents = new Map<string, string>()
  let latest: PlanRecord | null = null

  async function ask(record: PlanRecord, ticket: number, key: string): Promise<void> {
    const files: Record<string, string> = {}
    for (const [name, reference] of Object.entries(record.files)) {
      const text = contents.get(reference.sha256) ?? (await readFile(reference))
      if (text === null) continue
      contents.set(reference.sha256, text)
      files[name] = text
    }
    if (state.get().asked?.ticket !== ticket) return
    answerer.ask({ ticket, key, text: planText(record.plan), files }, (report) =>
      state.set(reported(state.get(), report)),
    )
  }

  return {
    get: state.get,
    watch: state.watch,
    recordIs: (record) => {
      latest = record
      const key = answerKey(withoutDisplay(record))
      const turn = recordChanged(state.get(), key)
      state.set(turn.answers)
      if (turn.ask === null) return
      if (turn.ask.ticket > 0) void ask(record, turn.ask.ticket, key)
      else answerer.stop()
    },
    cancel: () => {
      answerer.stop()
      state.set({ ...state.get(), asked: null })
    },
    again: () => {
      if (latest === null) return
      const { key, tickets } = state.get()
      const ticket = tickets + 1
      state.set({ ...state.get(), tickets: ticket, asked: { ticket, key, step: '' } })
      void ask(latest, ticket, key)
    },
  }
}

/** The units that numbers are shown in change no number. */
function withoutDisplay(record: PlanRecord): PlanRecord {
  const { units: _, ...plan } = record.plan
  return { ...record, plan }
}

export interface Known<T> {
  readonly value: T
  readonly stale: boolean
}

/** Every number belongs to the present plan, and nothing is under way. */
export const atRest = ({ asked, assessment, key }: Answers): boolean => asked === null && assessment?.key === key

const noFaults: readonly Issue[] = []

/** What keeps the present plan from being worked out. */
export const faultsOf = ({ issues, key }: Answers): readonly Issue[] => (issues?.key === key ? issues.value : noFaults)

/** Whether what stands beside the flutter margin belongs to an earlier plan. */
export const asidesStale = ({ assessment, key }: Answers): boolean => assessment === null || assessment.key !== key

const unknownFlutter: Assessment['flutter'] = {
  ...{
    boundary: [],
    divergence: [],
    beside: [],
    drivers: [],
    history: null,
    curves: null,
    covers: null,
    screening: null,
  },
  margin: { speedRatio: null, verdict: 'not determined', at: null, requiredRatio: 1, kind: null, mode: null },
}

/**
 * The sections so far as one assessment, for the drawings and sentences that read one; null while one of `needed` was never
 * answered. Sections that are not needed may be empty.
 */
export function assessmentOf(answers: Answers, needed: readonly PartName[]): Known<Assessment> | null {
  if (needed.some((name) => answers.parts[name] === undefined)) return null
  const whole = answers.assessment?.value
  const { flight, fin, structure, flutter, strength, bond, pattern, nest, resin, sources } = answers.parts
  const before = whole ?? blank
  const value: Assessment = {
    ...before,
    flight: flight?.value ?? before.flight,
    fin: fin?.value ?? before.fin,
    structure: structure?.value ?? before.structure,
    flutter: { ...before.flutter, ...flutter?.value },
    strength: strength?.value ?? before.strength,
    bond: bond?.value ?? before.bond,
    pattern: pattern?.value ?? before.pattern,
    nest: nest?.value ?? before.nest,
    resin: resin?.value ?? before.resin,
    sources: sources?.value ?? before.sources,
  }
  return { value, stale: needed.some((name) => answers.parts[name]?.key !== answers.key) }
}

const blank: Assessment = {
  ...{ format: 'finwright/assessment', version: 1, kind: 'can', name: '', note: '' },
  flight: {
    ...{ maximumMach: null, maximumDynamicPressure_Pa: null, maximumAltitude_m: null },
    ...{ at: null, recovery: null, heat: null, history: null },
  },
  fin: { area_m2: null, mass_kg: null, thickness_m: { root: null, tip: null }, laminates: [], plies: [] },
  structure: { modes: [], tipLoad: null, root: null, mesh: null, shapes: null },
  flutter: unknownFlutter,
  ...notComputed.noCan,
  strength: noStrength,
  ...{ sources: [], warnings: [] },
}
