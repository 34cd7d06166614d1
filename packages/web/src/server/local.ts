/**
 * A server without a server: one plan, its revisions in memory and, where a browser has it, in local storage. For tests and for
 * work on the app alone; it follows the same rules of revisions as the real one.
 */
import type { Issue } from '@finwright/core/issue.ts'
import { applyBound, bindCommand } from '@finwright/plan/protocol/apply.ts'
import { type Change, inverse } from '@finwright/plan/protocol/change.ts'
import { rebase } from '@finwright/plan/protocol/rebase.ts'
import type { PlanRecord } from '@finwright/plan/protocol/record.ts'
import type { CommandRequest, NewsReply, ServerEvent, StepRequest } from '@finwright/plan/protocol/wire.ts'
import { sha256 } from '@finwright/plan/text/hash.ts'
import type { PlanServer, Reply } from './client.ts'

interface Made {
  readonly id: string
  readonly record: PlanRecord
  readonly changes: readonly Change[]
}

/** One step of undo: the revisions of a gesture taken together. */
interface Deed {
  readonly label: string
  readonly gesture: string | undefined
  readonly before: PlanRecord
  readonly after: PlanRecord
  readonly changes: readonly Change[]
}

interface Book {
  readonly made: readonly Made[]
  readonly done: readonly Deed[]
  readonly undone: readonly Deed[]
}

export interface LocalOptions {
  readonly record: PlanRecord
  /** Contents of the record's files, by name. */
  readonly files: Readonly<Record<string, string>>
  readonly store?: Pick<Storage, 'getItem' | 'setItem'>
}

const storeKey = 'finwright.local'
const filesKey = 'finwright.local.files'

export function localServer({
  record,
  files,
  store,
}: LocalOptions): PlanServer & { readonly fail: (gone: boolean) => void } {
  let book: Book = kept(store) ?? { made: [{ id: 'made', record, changes: [] }], done: [], undone: [] }
  const texts = new Map<string, string>([
    ...Object.values(files).map((text) => [sha256(text), text] as const),
    ...keptFiles(store),
  ])
  let gone = false
  const listeners = new Set<(event: ServerEvent | { readonly kind: 'gone' | 'back' }) => void>()
  const tell = (event: Parameters<Parameters<PlanServer['listen']>[0]>[0]): void => {
    for (const told of listeners) told(event)
  }
  const answer = <T>(value: () => Reply<T>): Promise<Reply<T>> => Promise.resolve(gone ? { kind: 'gone' } : value())
  const keep = (next: Book, client: string): void => {
    book = next
    store?.setItem(storeKey, JSON.stringify(book))
    tell({ kind: 'revision', plan: 'local', revision: book.made.length - 1, client })
  }
  return {
    standing: () =>
      answer(() => {
        const { record, revision, undo, redo, changed } = newsSince(book, book.made.length - 1)
        return { kind: 'answer', value: { id: 'local', record, revision, undo, redo, changed } }
      }),
    send: (_, command) => answer(() => sent(book, command, keep)),
    undo: (_, step) => answer(() => stepped(book, 'undo', step, keep)),
    redo: (_, step) => answer(() => stepped(book, 'redo', step, keep)),
    news: (_, since) => answer(() => ({ kind: 'answer', value: newsSince(book, since) })),
    fileText: (_, { sha256: wanted }) =>
      answer(() => {
        const text = texts.get(wanted)
        return text === undefined ? { kind: 'refused', issues: [] } : { kind: 'answer', value: text }
      }),
    keepFile: (text) =>
      answer(() => {
        const reference = { sha256: sha256(text), size: new TextEncoder().encode(text).length }
        texts.set(reference.sha256, text)
        store?.setItem(filesKey, JSON.stringify([...texts]))
        return { kind: 'answer', value: reference }
      }),
    listen: (told) => {
      listeners.add(told)
      return () => listeners.delete(told)
    },
    fail: (now) => {
      gone = now
      tell({ kind: now ? 'gone' : 'back' })
    },
  }
}

type Keep = (next: Book, client: string) => void

const headOf = (book: Book): PlanRecord => book.made.at(-1)!.record

function sent(book: Book, command: CommandRequest, keep: Keep): Reply<NewsReply> {
  if (book.made.some(({ id }) => id === command.id)) return { kind: 'answer', value: newsSince(book, command.base) }
  const read = bindCommand(command)
  if (!read.ok) return { kind: 'refused', issues: read.issues }
  const head = headOf(book)
  const since = book.made.slice(command.base + 1).flatMap(({ changes }) => changes)
  const moved = rebase(read.bound, since, head)
  if (!moved.ok) return { kind: 'refused', issues: [moved.issue] }
  const applied = applyBound(moved.bound, head)
  if (!applied.ok) return { kind: 'refused', issues: applied.issues }
  const { record, changes, label } = applied
  const last = book.done.at(-1)
  const joins = last !== undefined && command.gesture !== undefined && last.gesture === command.gesture
  const deed: Deed = joins
    ? { ...last, after: record, changes: [...last.changes, ...changes] }
    : { label, gesture: command.gesture, before: head, after: record, changes }
  const done = [...(joins ? book.done.slice(0, -1) : book.done), deed]
  const made = [...book.made, { id: command.id, record, changes }]
  keep({ made, done, undone: [] }, command.client)
  return { kind: 'answer', value: newsSince({ made, done, undone: [] }, command.base) }
}

function stepped(book: Book, way: 'undo' | 'redo', step: StepRequest, keep: Keep): Reply<NewsReply> {
  const from = way === 'undo' ? book.done : book.undone
  const deed = from.at(-1)
  if (deed === undefined) return { kind: 'refused', issues: [nothing(way)] }
  const record = way === 'undo' ? deed.before : deed.after
  const changes = way === 'undo' ? inverse(deed.changes) : deed.changes
  const next: Book = {
    made: [...book.made, { id: step.id, record, changes }],
    done: way === 'undo' ? book.done.slice(0, -1) : [...book.done, deed],
    undone: way === 'undo' ? [...book.undone, deed] : book.undone.slice(0, -1),
  }
  keep(next, step.client)
  return { kind: 'answer', value: newsSince(next, step.base) }
}

const nothing = (way: string): Issue => ({
  code: `command/nothing-to-${way}`,
  path: '',
  value: null,
  message: `There is nothing to ${way}.`,
  hint: 'Nothing was changed.',
})

function newsSince({ made, done, undone }: Book, since: number): NewsReply {
  return {
    revision: made.length - 1,
    record: made.at(-1)!.record,
    since: made.slice(since + 1).map(({ id, changes }, i) => ({ revision: since + 1 + i, id, changes })),
    undo: done.at(-1)?.label ?? null,
    redo: undone.at(-1)?.label ?? null,
    changed: '',
  }
}

function keptFiles(store: LocalOptions['store']): readonly (readonly [string, string])[] {
  const text = store?.getItem(filesKey) ?? null
  return text === null ? [] : (JSON.parse(text) as [string, string][])
}

function kept(store: LocalOptions['store']): Book | null {
  const text = store?.getItem(storeKey) ?? null
  return text === null ? null : (JSON.parse(text) as Book)
}
