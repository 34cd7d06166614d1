/**
 * The other schedule: a copy kept to compare with. It keeps its own answers, worked out for the plan as it is now with the other
 * plies in it, by a worker of its own that waits until the present plan has its margins.
 *
 * Switching puts the other's plies in the plan and keeps the present ones as the other; undoing that, or doing it again, turns the
 * two round again, so that neither is ever lost.
 */
import { type JsonObject, sameJson } from '@finwright/plan/protocol/record.ts'
import type { Answers } from '@finwright/plan/protocol/work.ts'
import { answerStore } from '../../state/answers.ts'
import { marginParts, type Session } from '../../state/session.ts'
import { cell, type Store } from '../../state/store.ts'
import { oneWorker } from '../../worker/answerer.ts'
import { adopt, pliesOf } from './schedule.commands.ts'

export type Plies = readonly JsonObject[]

export interface Kept {
  readonly plies: Plies
  /** What it was switched with last; null before the first switch. */
  readonly twin: Plies | null
}

/** What is kept after the plan's plies went from one to another. */
export function turned(kept: Kept, before: Plies, now: Plies): Kept {
  const round = kept.twin !== null && sameJson(before, kept.twin) && sameJson(now, kept.plies)
  return round ? { plies: before, twin: now } : kept
}

/** Every margin is of the plan as it is now. */
export const marginsKnown = ({ parts, key }: Answers): boolean => marginParts.every((name) => parts[name]?.key === key)

export interface Other extends Store<Kept | null> {
  readonly answers: Store<Answers>
  readonly keep: () => void
  readonly drop: () => void
  readonly switchOver: () => void
}

const made = new WeakMap<Session, Other>()

/** One a session, made when it is first asked for. */
export function otherOf(session: Session): Other {
  const known = made.get(session)
  if (known !== undefined) return known
  const one = otherSchedule(session)
  made.set(session, one)
  return one
}

function otherSchedule(session: Session): Other {
  const { document } = session
  const plies = (): Plies => pliesOf(document.get().draft?.record.plan ?? {})
  const place = `finwright.other.${document.get().id ?? ''}`
  const state = cell<Kept | null>(stored(place))
  const answers = answerStore(oneWorker(), session.readFile)
  let before = plies()

  const set = (kept: Kept | null): void => {
    state.set(kept)
    store(place, kept)
    work()
  }
  /** The present plan comes first. */
  function work(): void {
    const record = document.get().draft?.record
    const kept = state.get()
    if (record === undefined || kept === null || !marginsKnown(session.answers.get())) return
    answers.recordIs({ ...record, plan: { ...record.plan, plies: kept.plies } })
  }

  document.watch(() => {
    const now = plies()
    const kept = state.get()
    if (now !== before && kept !== null) {
      const next = turned(kept, before, now)
      if (next !== kept) set(next)
    }
    before = now
  })
  session.answers.watch(work)
  work()
  return {
    get: state.get,
    watch: state.watch,
    answers,
    keep: () => set({ plies: plies(), twin: null }),
    drop: () => set(null),
    switchOver: () => {
      const kept = state.get()
      const present = plies()
      if (kept === null || sameJson(kept.plies, present)) return
      state.set({ plies: kept.plies, twin: present })
      document.enter(adopt(kept.plies))
    },
  }
}

function stored(place: string): Kept | null {
  try {
    const text = localStorage.getItem(place)
    const read = text === null ? null : (JSON.parse(text) as unknown)
    return Array.isArray(read) ? { plies: read as Plies, twin: null } : null
  } catch {
    return null
  }
}

/** Kept in this browser; where there is no room it lives as long as the window. */
function store(place: string, kept: Kept | null): void {
  try {
    if (kept === null) localStorage.removeItem(place)
    else localStorage.setItem(place, JSON.stringify(kept.plies))
  } catch {
    // nothing to do: it is kept in memory
  }
}
