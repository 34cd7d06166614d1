/**
 * Packages being made, each in a thread of its own, one at a time; those asked for meanwhile wait their turn. A finished one
 * stays in memory until newer ones take its place, and the same plan is not made twice. Nothing is written to disk.
 */
import { Worker } from 'node:worker_threads'
import type { Issue } from '@finwright/core/issue.ts'
import type { Job } from '@finwright/plan/protocol/wire.ts'
import type { DrawnDocument, MadeFile, PackageTask, ThreadMessage } from './messages.ts'

export interface Jobs {
  /** The job that makes this package: one under way or done, or a new one; null when too many wait. */
  readonly ask: (order: Order) => string | null
  readonly find: (id: string) => Job | undefined
  readonly files: (id: string) => readonly MadeFile[]
  readonly page: (id: string, document: number, page: number) => string | undefined
  /** Resolves when the job is done, cancelled or failed. */
  readonly finished: (id: string) => Promise<void>
  readonly cancel: (id: string) => void
  readonly cancelOf: (plan: string) => void
  readonly close: () => void
}

export interface Order {
  readonly plan: string
  readonly revision: number
  /** Same key, same package. */
  readonly key: string
  readonly task: PackageTask
}

interface Running extends Order {
  job: Job
  drawn: readonly DrawnDocument[]
  files: readonly MadeFile[]
  worker: Worker | null
  /** Documents begun; all but the last of them are made. */
  begun: number
  readonly ends: (() => void)[]
}

const mostWaiting = 8
const mostKept = 3

interface Options {
  /** The bundled `thread.ts`. */
  readonly thread: URL
  readonly newId: () => string
  readonly onChange: (job: Job) => void
}

export function packageJobs({ thread, newId, onChange }: Options): Jobs {
  const all = new Map<string, Running>()
  const inState = (...states: readonly Job['state'][]) =>
    [...all.values()].filter(({ job }) => states.includes(job.state))

  const update = (one: Running, job: Partial<Job>): void => {
    one.job = { ...one.job, ...job }
    onChange(one.job)
  }

  const end = (one: Running, state: 'done' | 'cancelled' | 'failed', issues: readonly Issue[] = []): void => {
    if (one.job.state !== 'waiting' && one.job.state !== 'working') return
    update(one, { state, issues })
    void one.worker?.terminate()
    one.worker = null
    for (const tell of one.ends.splice(0)) tell()
    const over = inState('done', 'cancelled', 'failed')
    for (const old of over.slice(0, Math.max(0, over.length - mostKept))) all.delete(old.job.id)
    startNext()
  }

  const startNext = (): void => {
    if (inState('working').length > 0) return
    const first = inState('waiting')[0]
    if (first === undefined) return
    update(first, { state: 'working', step: 'Starting' })
    const worker = new Worker(thread, { workerData: first.task })
    first.worker = worker
    worker.on('message', (message: ThreadMessage) => heard(first, message))
    worker.on('error', (problem) => {
      console.error(problem)
      end(first, 'failed', [threadFailed(problem)])
    })
    worker.on('exit', () => end(first, 'failed', [threadFailed(new Error('it ended before it was done'))]))
  }

  const heard = (one: Running, message: ThreadMessage): void => {
    if (one.job.state !== 'working') return
    if (message.kind === 'step') {
      if (message.document) one.begun += 1
      update(one, { step: message.step, made: Math.max(0, one.begun - 1) })
    } else if (message.kind === 'documents') {
      one.drawn = [...one.drawn, ...message.documents]
      const documents = one.drawn.map(({ path, what, pages }) => ({ path, what, pages }))
      update(one, { documents, of: message.of })
    } else if (message.kind === 'done') {
      one.files = message.files
      const files = message.files.map(({ path, bytes }) => ({ path, size: bytes.length }))
      update(one, { files, made: one.job.of ?? files.length, step: '' })
      end(one, 'done')
    } else end(one, 'failed', message.issues)
  }

  return {
    ask: (order) => {
      const same = inState('waiting', 'working', 'done').find(({ key }) => key === order.key)
      if (same !== undefined) return same.job.id
      if (inState('waiting').length >= mostWaiting) return null
      const id = newId()
      const { plan, revision, task } = order
      const empty = { step: '', made: 0, of: null, issues: [], files: [], documents: [] }
      const job: Job = { id, plan, revision, paper: task.paper, state: 'waiting', ...empty }
      all.set(id, { ...order, job, drawn: [], files: [], worker: null, begun: 0, ends: [] })
      startNext()
      return id
    },
    find: (id) => all.get(id)?.job,
    files: (id) => all.get(id)?.files ?? [],
    page: (id, document, page) => all.get(id)?.drawn[document]?.svg[page],
    finished: (id) =>
      new Promise((resolve) => {
        const one = all.get(id)
        if (one === undefined || (one.job.state !== 'waiting' && one.job.state !== 'working')) resolve()
        else one.ends.push(resolve)
      }),
    cancel: (id) => {
      const one = all.get(id)
      if (one !== undefined) end(one, 'cancelled')
    },
    cancelOf: (plan) => {
      for (const one of inState('waiting', 'working')) if (one.plan === plan) end(one, 'cancelled')
    },
    close: () => {
      for (const one of inState('waiting').reverse()) end(one, 'cancelled')
      for (const one of inState('working')) end(one, 'cancelled')
    },
  }
}

const threadFailed = (problem: Error): Issue => ({
  code: 'server/package-failed',
  path: '',
  value: problem.message,
  message: `The package could not be made, which is a fault of ours and not of your plan: ${problem.message}.`,
  hint: 'Try again. If it fails again, finwright sheets PLAN --out DIR shows more.',
})
