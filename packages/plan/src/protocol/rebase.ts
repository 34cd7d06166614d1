/**
 * A command made on an older revision, carried over what has happened since. Where it touches nothing that was touched, it
 * holds on the newest revision too, its places moved along with the lists they lie in; else it is refused with both values.
 *
 * Two commands meet when a place that one writes lies in, or holds, a place that the other writes; when both change the
 * order of one list; when one takes away what the other writes. Two that write the same value at one place do not meet.
 */
import type { Issue } from '@finwright/core/issue.ts'
import { sentence, shown } from '../schema/judge.ts'
import { fieldAt, type Path, pathText, valueAt } from '../schema/locate.ts'
import { type Change, carried, overlapping, within } from './change.ts'
import type { Bound } from './command.ts'
import { type PlanRecord, sameJson } from './record.ts'

/** What met, and both values; `theirs` is null where the place is gone. */
export interface Conflict {
  readonly path: string
  readonly mine: unknown
  readonly theirs: unknown
}

export type Rebased =
  | { readonly ok: true; readonly bound: Bound }
  | { readonly ok: false; readonly conflict: Conflict; readonly issue: Issue }

/** `head` is the record right after the changes; null where it is not at hand, and then any two that meet are refused. */
export function rebase(bound: Bound, changes: readonly Change[], head: PlanRecord | null): Rebased {
  let now = bound
  let met = false
  for (const change of changes) {
    const place = meeting(now, change)
    if (place !== null && !writesOnly(now)) return clash(now, place, head)
    if (place !== null) met = true
    const next = now.carried((path) => carried(path, change))
    if (next === null) return gone(now)
    now = next
  }
  if (!met || sameAsHead(now, head)) return { ok: true, bound: now }
  return clash(now, now.footprint.values[0]!, head)
}

/** The place where a command and a change meet, or null. */
function meeting({ footprint }: Bound, change: Change): Path | null {
  const { values, orders, files = [] } = footprint
  if (change.kind === 'file') return files.includes(change.name) ? ['files', change.name] : null
  const { path } = change
  if (change.kind === 'value') {
    return values.find((value) => overlapping(value, path)) ?? orders.find((order) => within(order, path)) ?? null
  }
  return values.find((value) => within(path, value)) ?? orders.find((order) => overlapping(order, path)) ?? null
}

/** Whether it writes one value and nothing else: then what met may turn out to be the same value. */
const writesOnly = ({ writes }: Bound): boolean => writes !== null

const sameAsHead = ({ writes, footprint }: Bound, head: PlanRecord | null): boolean =>
  writes !== null && head !== null && sameJson(writes.value, valueAt(head.plan, footprint.values[0]!))

function clash(bound: Bound, place: Path, head: PlanRecord | null): Rebased {
  if (head === null) return told(place, written(bound), null, 'there it was changed too')
  const theirs = place[0] === 'files' ? head.files[String(place[1])] : valueAt(head.plan, place)
  return told(place, written(bound), theirs, `now it is ${shown(theirs)}`)
}

const gone = (bound: Bound): Rebased =>
  told(bound.footprint.values[0]!, written(bound), null, 'now it is no longer there')

/** What the command would have put there, as far as it is one value. */
const written = ({ writes, payload }: Bound): unknown => (writes === null ? payload : writes.value)

function told(place: Path, mine: unknown, theirs: unknown, state: string): Rebased {
  const path = pathText(place)
  const name = place.length === 0 ? 'the plan' : (fieldAt(place)?.label ?? `'${path}'`)
  const issue: Issue = {
    code: 'command/conflict',
    path,
    value: theirs ?? null,
    message: `${sentence(name)} was changed in another window meanwhile: here ${shown(mine)}, ${state}.`,
    hint: 'What the other window did was kept. Look at it, and do this again if it is still wanted.',
  }
  return { ok: false, conflict: { path, mine, theirs: theirs ?? null }, issue }
}
