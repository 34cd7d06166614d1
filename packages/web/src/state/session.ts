/** One window's session: the plan, its answers, and what the answers were before the last change. */

import type { Answers, PartName } from '@finwright/plan/protocol/work.ts'
import type { PlanServer } from '../server/client.ts'
import type { Answerer } from '../worker/answerer.ts'
import { type AnswerStore, answerStore, type ReadFile } from './answers.ts'
import { type PlanDocumentStore, planDocument } from './document.ts'
import { type Cell, cell, type Store } from './store.ts'

/** The answers at rest before the last gesture: what `before → after` compares with. */
export interface Before {
  readonly gesture: string
  readonly parts: Answers['parts']
}

export interface Session {
  readonly document: PlanDocumentStore
  readonly answers: AnswerStore
  readonly before: Store<Before | null> & { readonly forget: () => void }
  /** What is under the hand: a ply, a fin edge, a piece. The same on every picture. */
  readonly hand: Cell<Hand | null>
  /** A file beside the plan; null where it cannot be had. */
  readonly readFile: ReadFile
  /** Puts a text beside the plans, to be attached; the issues where it cannot be kept, `gone` with the server. */
  readonly keepFile: PlanServer['keepFile']
}

/** `P3`, as pieces, plies and shapes are named; other kinds as they come. */
export interface Hand {
  readonly kind: 'ply' | 'piece' | 'point'
  readonly id: string
}

export function session(server: PlanServer, answerer: Answerer, document = planDocument(server)): Session {
  const readFile: ReadFile = async (reference) => {
    const { id } = document.get()
    if (id === null) return null
    const reply = await server.fileText(id, reference)
    return reply.kind === 'answer' ? reply.value : null
  }
  const answers = answerStore(answerer, readFile)
  const before = cell<Before | null>(null)
  document.beforeEntry((gesture) => {
    const now = before.get()
    if (now?.gesture === gesture) return
    const { parts, key } = answers.get()
    const atRest = marginParts.every((name) => parts[name]?.key === key)
    if (atRest) before.set({ gesture, parts })
    else if (now !== null) before.set({ ...now, gesture })
  })
  let latest: unknown = null
  document.watch(() => {
    const record = document.get().draft?.record
    if (record === undefined || record === latest) return
    latest = record
    answers.recordIs(record)
  })
  const forget = (): void => before.set(null)
  return {
    document,
    answers,
    before: { get: before.get, watch: before.watch, forget },
    hand: cell<Hand | null>(null),
    readFile,
    keepFile: server.keepFile,
  }
}

/** Sections that carry margins. */
export const marginParts: readonly PartName[] = ['flight', 'fin', 'structure', 'flutter', 'strength', 'bond', 'resin']
