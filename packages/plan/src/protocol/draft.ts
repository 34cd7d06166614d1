/**
 * The record as one window sees it: the newest revision the server has confirmed, and on top of it what was entered here
 * and is still on its way. Everything entered applies at once; with the server gone it waits here, and nothing is lost.
 *
 * One command is under way at a time, always made on the confirmed revision. What other windows did is carried into what
 * waits: `heard` moves the waiting commands' places along, and hands back those that can no longer be done.
 */
import { type Issue, invariant } from '@finwright/core/issue.ts'
import { applyBound, bindCommand, type NamedCommand } from './apply.ts'
import { type Change, carriedChange, inverse } from './change.ts'
import type { Bound } from './command.ts'
import { rebase } from './rebase.ts'
import type { PlanRecord } from './record.ts'

/** A command under a name of its own, so that one sent twice counts once. */
export interface Entry extends NamedCommand {
  /** Unique among all commands ever: 8 to 64 letters, digits, `-` or `_`. */
  readonly id: string
  /** Commands of one drag or one field's typing share it, and are undone in one step. */
  readonly gesture?: string | undefined
}

interface Waiting {
  readonly id: string
  readonly name: string
  readonly gesture: string | undefined
  readonly bound: Bound
  readonly changes: readonly Change[]
}

export interface Draft {
  readonly confirmed: Revision
  /** What the window shows. */
  readonly record: PlanRecord
  readonly waiting: readonly Waiting[]
}

export interface Revision {
  readonly revision: number
  readonly record: PlanRecord
}

/** What the server tells of revisions: the newest one whole, and what each since an older one changed. */
export interface News extends Revision {
  /** In order, from the one after the revision asked about. */
  readonly since: readonly { readonly revision: number; readonly id: string; readonly changes: readonly Change[] }[]
}

/** A command that was entered and cannot be done after all. */
export interface Dropped {
  readonly id: string
  readonly name: string
  readonly payload: unknown
  readonly issues: readonly Issue[]
}

export interface Moved {
  readonly draft: Draft
  readonly dropped: readonly Dropped[]
}

export const draftOf = (confirmed: Revision): Draft => ({ confirmed, record: confirmed.record, waiting: [] })

export type Entered =
  | { readonly ok: true; readonly draft: Draft }
  | { readonly ok: false; readonly issues: readonly Issue[] }

export function enter(draft: Draft, { id, name, payload, gesture }: Entry): Entered {
  const read = bindCommand({ name, payload })
  if (!read.ok) return read
  const made = applyBound(read.bound, draft.record)
  if (!made.ok) return made
  const one: Waiting = { id, name, gesture, bound: read.bound, changes: made.changes }
  return { ok: true, draft: { ...draft, record: made.record, waiting: [...draft.waiting, one] } }
}

/** What to send next, and the revision it is made on; null when nothing waits. */
export function next({ confirmed, waiting }: Draft): (Entry & { readonly base: number }) | null {
  const first = waiting[0]
  if (first === undefined) return null
  const { id, name, gesture, bound } = first
  return { id, name, payload: bound.payload, gesture, base: confirmed.revision }
}

/** What waits, as plain data to be kept where a closed window does not lose it. */
export interface Kept {
  readonly confirmed: Revision
  readonly entries: readonly Entry[]
}

/** Null when nothing waits. */
export function keptOf({ confirmed, waiting }: Draft): Kept | null {
  if (waiting.length === 0) return null
  const entries = waiting.map(({ id, name, gesture, bound }) => ({ id, name, payload: bound.payload, gesture }))
  return { confirmed, entries }
}

/** Work that was kept, gone on with: `news` is of the revisions since the one it was made on. What the server took already counts once. */
export function resumed({ confirmed, entries }: Kept, news: News): Moved {
  const dropped: Dropped[] = []
  let draft = draftOf(confirmed)
  for (const entry of entries) {
    const made = enter(draft, entry)
    if (made.ok) draft = made.draft
    else dropped.push({ id: entry.id, name: entry.name, payload: entry.payload, issues: made.issues })
  }
  const moved = heard(draft, news)
  return { draft: moved.draft, dropped: [...dropped, ...moved.dropped] }
}

/** After the server told of newer revisions, its own confirmations among them. Older news changes nothing. */
export function heard(draft: Draft, news: News): Moved {
  if (news.revision <= draft.confirmed.revision) return { draft, dropped: [] }
  const fresh = news.since.filter(({ revision }) => revision > draft.confirmed.revision)
  invariant(
    fresh.length === news.revision - draft.confirmed.revision,
    `news of revisions ${draft.confirmed.revision + 1} to ${news.revision}, each once`,
  )
  const dropped: Dropped[] = []
  const accepted = new Set(fresh.map(({ id }) => id))
  let waiting = draft.waiting
  let beneath: readonly Change[] = []
  for (const { id, changes } of fresh) {
    if (waiting[0]?.id !== id) {
      beneath = [...beneath, ...changes]
      continue
    }
    waiting = over(waiting, { beneath, head: null, accepted }, dropped).slice(1)
    beneath = []
  }
  waiting = over(waiting, { beneath, head: news.record, accepted }, dropped)
  return settled({ revision: news.revision, record: news.record }, waiting, dropped)
}

/** After the server refused one: it is taken out, and what was entered on top of it stays where it can. */
export function refusedByServer(draft: Draft, id: string, issues: readonly Issue[]): Moved {
  const at = draft.waiting.findIndex((one) => one.id === id)
  if (at < 0) return { draft, dropped: [] }
  const dropped: Dropped[] = [drop(draft.waiting[at]!, issues)]
  const beneath = { beneath: inverse(draft.waiting[at]!.changes), head: null, accepted: new Set<string>() }
  const later = over(draft.waiting.slice(at + 1), beneath, dropped)
  return settled(draft.confirmed, [...draft.waiting.slice(0, at), ...later], dropped)
}

interface Beneath {
  readonly beneath: readonly Change[]
  /** The record right after them, if it is at hand. */
  readonly head: PlanRecord | null
  /** Commands that the server is known to have taken: they wrote what another window wrote too. */
  readonly accepted: ReadonlySet<string>
}

/** The waiting commands carried over changes made beneath them; those that meet them are taken out. */
function over(waiting: readonly Waiting[], news: Beneath, dropped: Dropped[]): readonly Waiting[] {
  const kept: Waiting[] = []
  let { beneath } = news
  for (const one of waiting) {
    const moved = rebase(one.bound, beneath, news.head)
    if (moved.ok || news.accepted.has(one.id)) {
      const own = carriedThrough(one.changes, beneath)
      beneath = carriedThrough(beneath, one.changes)
      kept.push({ ...one, bound: moved.ok ? moved.bound : one.bound, changes: own })
      continue
    }
    dropped.push(drop(one, [moved.issue]))
    beneath = [...inverse(one.changes), ...beneath]
  }
  return kept
}

const carriedThrough = (changes: readonly Change[], beneath: readonly Change[]): readonly Change[] =>
  beneath.reduce<readonly Change[]>((now, by) => now.flatMap((change) => carriedChange(change, by) ?? []), changes)

/** Everything that waits applied anew; what cannot be applied is taken out. */
function settled(confirmed: Revision, waiting: readonly Waiting[], dropped: readonly Dropped[]): Moved {
  const kept: Waiting[] = []
  const out = [...dropped]
  let record = confirmed.record
  for (const one of waiting) {
    const made = applyBound(one.bound, record)
    if (!made.ok) {
      out.push(drop(one, made.issues))
      continue
    }
    record = made.record
    kept.push({ ...one, changes: made.changes })
  }
  return { draft: { confirmed, record, waiting: kept }, dropped: out }
}

const drop = ({ id, name, bound }: Waiting, issues: readonly Issue[]): Dropped => ({
  id,
  name,
  payload: bound.payload,
  issues,
})
