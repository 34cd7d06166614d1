/**
 * Records and their revisions. A command is carried to the newest revision, applied, and written with its undo step in one
 * transaction; no feature writes any of that by hand. Nothing is ever overwritten but the newest revision's number: history
 * stays, undo and redo are revisions too.
 */
import { deflateSync, inflateSync } from 'node:zlib'
import type { Issue } from '@finwright/core/issue.ts'
import { invariant } from '@finwright/core/issue.ts'
import { applyBound, bindCommand } from '@finwright/plan/protocol/apply.ts'
import { type Change, inverse } from '@finwright/plan/protocol/change.ts'
import { type Conflict, rebase } from '@finwright/plan/protocol/rebase.ts'
import type { PlanRecord, RecordKind } from '@finwright/plan/protocol/record.ts'
import type {
  CommandRequest,
  History,
  HistoryEntry,
  NewsReply,
  PlanSummary,
  Standing,
  StepRequest,
} from '@finwright/plan/protocol/wire.ts'
import type { Contents } from './contents.ts'
import type { Database } from './database.ts'
import { type Step, stepsIn } from './steps.ts'

export interface Head {
  readonly id: string
  readonly kind: RecordKind
  readonly name: string
  readonly revision: number
  readonly created: string
  readonly changed: string
  readonly removed: string | null
}

export type Taken =
  | { readonly ok: true; readonly news: NewsReply; readonly fresh: boolean }
  | { readonly ok: false; readonly status: 409 | 422; readonly issues: readonly Issue[]; readonly conflict?: Conflict }

export interface Ledger {
  readonly make: (id: string, record: PlanRecord, label: string) => void
  /** Undefined where there is none of that name and kind, taken away ones included. */
  readonly find: (id: string, kind: RecordKind) => Head | undefined
  readonly heads: (kind: RecordKind) => readonly Head[]
  readonly setRemoved: (id: string, removed: boolean) => void
  readonly standing: (head: Head) => Standing
  readonly at: (head: Head, revision: number) => PlanRecord | undefined
  readonly news: (head: Head, base: number) => Taken
  readonly take: (head: Head, request: CommandRequest) => Taken
  readonly undo: (head: Head, request: StepRequest) => Taken
  readonly redo: (head: Head, request: StepRequest) => Taken
  readonly history: (head: Head, before: number, limit: number) => History
}

/** Windows further behind than this load the record anew. */
const longestNews = 5000

interface Sources {
  readonly database: Database
  readonly contents: Contents
  readonly now: () => Date
}

interface NewRevision {
  readonly record: PlanRecord
  readonly kind: HistoryEntry['kind']
  readonly label: string
  readonly client: string
  readonly command: string
  readonly gesture: string | null
  readonly changes: readonly Change[]
}

export function ledgerIn({ database, contents, now }: Sources): Ledger {
  const steps = stepsIn(database)

  const at = ({ id }: Pick<Head, 'id'>, revision: number): PlanRecord | undefined => {
    const row = database.one<{ content: Buffer | null }>(
      'SELECT content FROM revisions WHERE record = ? AND revision = ?',
      id,
      revision,
    )
    return row?.content ? (JSON.parse(inflateSync(row.content).toString()) as PlanRecord) : undefined
  }

  const newest = (head: Head): PlanRecord => {
    const record = at(head, head.revision)
    invariant(record !== undefined, `revision ${head.revision} of ${head.id} is kept`)
    return record
  }

  const since = ({ id }: Head, base: number) =>
    database
      .all<{ revision: number; command: string; changes: string }>(
        'SELECT revision, command, changes FROM revisions WHERE record = ? AND revision > ? ORDER BY revision',
        id,
        base,
      )
      .map(({ revision, command, changes }) => ({
        revision,
        id: command,
        changes: JSON.parse(changes) as readonly Change[],
      }))

  const find = (id: string, kind: RecordKind): Head | undefined =>
    database.one<Head>('SELECT * FROM records WHERE id = ? AND kind = ?', id, kind)

  const standing = (head: Head): Standing => ({
    revision: head.revision,
    record: newest(head),
    undo: steps.last(head.id)?.label ?? null,
    redo: steps.undone(head.id)?.label ?? null,
    changed: head.changed,
  })

  const news = (old: Head, base: number, fresh = false): Taken => {
    const head = find(old.id, old.kind) ?? old
    if (base > head.revision) return { ok: false, status: 409, issues: [unknownRevision(base, head.revision)] }
    if (head.revision - base > longestNews)
      return { ok: false, status: 409, issues: [tooFarBehind(base, head.revision)] }
    return { ok: true, fresh, news: { ...standing(head), since: since(head, base) } }
  }

  /** Writes the next revision; to be called within a transaction. */
  const write = (head: Head, made: NewRevision): number => {
    const revision = head.revision + 1
    const stamp = now().toISOString()
    database.run(
      'INSERT INTO revisions (record, revision, at, kind, label, client, command, gesture, changes, content) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)',
      head.id,
      revision,
      stamp,
      made.kind,
      made.label,
      made.client,
      made.command,
      made.gesture,
      JSON.stringify(made.changes),
      deflateSync(JSON.stringify(made.record)),
    )
    contents.use(head.id, Object.values(made.record.files))
    const name = nameOf(made.record)
    database.run('UPDATE records SET revision = ?, changed = ?, name = ? WHERE id = ?', revision, stamp, name, head.id)
    return revision
  }

  const done = ({ id }: Head, command: string): boolean =>
    database.one('SELECT 1 AS one FROM revisions WHERE record = ? AND command = ?', id, command) !== undefined

  const take = (head: Head, request: CommandRequest): Taken => {
    if (done(head, request.id)) return news(head, request.base)
    const asked = news(head, request.base)
    if (!asked.ok) return asked
    const read = bindCommand(request)
    if (!read.ok) return { ok: false, status: 422, issues: read.issues }
    const { record, since: changed } = asked.news
    const carried = rebase(
      read.bound,
      changed.flatMap(({ changes }) => changes),
      record,
    )
    if (!carried.ok) return { ok: false, status: 409, issues: [carried.issue], conflict: carried.conflict }
    const made = applyBound(carried.bound, record)
    if (!made.ok) return { ok: false, status: 422, issues: made.issues }
    const missing = contents.missing(Object.values(made.record.files))
    if (missing.length > 0) return { ok: false, status: 422, issues: [contentMissing(made.record, missing[0]!.sha256)] }
    const { client, id: command, gesture = null } = request
    const { label, changes } = made
    const revision = write(head, { record: made.record, kind: 'command', label, client, command, gesture, changes })
    const dropped = steps.add(head.id, { before: revision - 1, after: revision, label, client, gesture })
    if (dropped !== null) {
      database.run('UPDATE revisions SET content = NULL WHERE record = ? AND revision = ?', head.id, dropped)
    }
    return news(head, request.base, true)
  }

  /** To the record before or after a step. Undo and redo are asked of what the window sees, so nothing unseen is undone. */
  const travel = (head: Head, request: StepRequest, kind: 'undo' | 'redo'): Taken => {
    if (done(head, request.id)) return news(head, request.base)
    if (request.base !== head.revision) return { ok: false, status: 409, issues: [notNewest(kind, request.base, head)] }
    const step = kind === 'undo' ? steps.last(head.id) : steps.undone(head.id)
    if (step === undefined) return { ok: false, status: 409, issues: [nothingTo(kind)] }
    const record = at(head, kind === 'undo' ? step.before : step.after)
    invariant(record !== undefined, `the record at step ${step.step} of ${head.id} is kept`)
    const { id: command, client } = request
    const changes = changesOf(head, step, kind)
    write(head, { record, kind, label: step.label, client, command, gesture: null, changes })
    steps.mark(head.id, step.step, kind === 'undo')
    return news(head, request.base, true)
  }

  const changesOf = (head: Head, step: Step, kind: 'undo' | 'redo'): readonly Change[] => {
    const forward = since(head, step.before)
      .filter(({ revision }) => revision <= step.after)
      .flatMap(({ changes }) => changes)
    return kind === 'undo' ? inverse(forward) : forward
  }

  const whole =
    <A extends { readonly id: string }>(work: (head: Head, request: A) => Taken) =>
    (head: Head, request: A): Taken =>
      database.transaction(() => work(find(head.id, head.kind) ?? head, request))

  return {
    make: (id, record, label) => {
      const stamp = now().toISOString()
      const name = nameOf(record)
      database.run(
        'INSERT INTO records (id, kind, name, revision, created, changed, removed) VALUES (?, ?, ?, 0, ?, ?, NULL)',
        id,
        record.kind,
        name,
        stamp,
        stamp,
      )
      const head: Head = { id, kind: record.kind, name, revision: 0, created: stamp, changed: stamp, removed: null }
      write(head, { record, kind: 'made', label, client: '', command: `made-${id}`, gesture: null, changes: [] })
    },
    find,
    heads: (kind) => database.all<Head>('SELECT * FROM records WHERE kind = ? ORDER BY changed DESC, id', kind),
    setRemoved: (id, removed) => {
      database.run('UPDATE records SET removed = ? WHERE id = ?', removed ? now().toISOString() : null, id)
    },
    standing,
    at,
    news,
    take: whole(take),
    undo: whole((head, request: StepRequest) => travel(head, request, 'undo')),
    redo: whole((head, request: StepRequest) => travel(head, request, 'redo')),
    history: ({ id }, before, limit) => {
      const rows = database.all<Omit<HistoryEntry, 'kept'> & { kept: number }>(
        'SELECT revision, at, kind, label, client, content IS NOT NULL AS kept FROM revisions WHERE record = ? AND revision < ? ORDER BY revision DESC LIMIT ?',
        id,
        before,
        limit,
      )
      const entries = rows.map(({ revision, at: time, kind, label, client, kept }) => ({
        revision,
        at: time,
        kind,
        label,
        client,
        kept: kept === 1,
      }))
      const last = entries.at(-1)?.revision ?? 0
      return { entries, older: last > 1 ? last : null }
    },
  }
}

export const summaryOf = ({ id, name, revision, created, changed }: Head, record: PlanRecord): PlanSummary => ({
  id,
  name,
  kind: Object.hasOwn(record.plan, 'study') ? 'study' : 'can',
  revision,
  created,
  changed,
})

const nameOf = ({ kind, plan }: PlanRecord): string => (kind === 'shelf' ? 'shelf' : String(plan.name ?? ''))

const unknownRevision = (base: number, newest: number): Issue => ({
  code: 'server/unknown-revision',
  path: 'base',
  value: base,
  message: `Revision ${base} is not known here; the newest is ${newest}.`,
  hint: 'The data folder is another one than before, or an older copy of it: load the plan anew.',
})

const tooFarBehind = (base: number, newest: number): Issue => ({
  code: 'server/too-far-behind',
  path: 'base',
  value: base,
  message: `Revision ${base} is ${newest - base} revisions old; at most ${longestNews} are told one by one.`,
  hint: 'Load the plan anew.',
})

const notNewest = (kind: 'undo' | 'redo', base: number, { revision }: Head): Issue => ({
  code: 'server/changed-meanwhile',
  path: 'base',
  value: base,
  message: `The plan is at revision ${revision}, this window at ${base}: another window changed it. To ${kind} something that was not seen is refused.`,
  hint: `Look at what changed, and ${kind} again.`,
})

const nothingTo = (kind: 'undo' | 'redo'): Issue => ({
  code: `server/nothing-to-${kind}`,
  path: '',
  value: null,
  message: `There is nothing to ${kind}.`,
  hint: kind === 'undo' ? 'This is how the plan was made.' : 'Nothing was undone since the last change.',
})

function contentMissing({ files }: PlanRecord, sha256: string): Issue {
  const name = Object.entries(files).find(([, file]) => file.sha256 === sha256)?.[0] ?? ''
  return {
    code: 'server/content-missing',
    path: `files.${name}`,
    value: sha256,
    message: `What '${name}' holds was not uploaded, or has another size than stated.`,
    hint: 'Upload it with POST /api/files first.',
  }
}
