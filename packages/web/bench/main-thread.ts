/** The browser's own trace of what its main thread and its workers did, by the wall clock and by time on a processor. */
import type { Page } from 'playwright-core'

interface TraceEvent {
  readonly name: string
  readonly ph: string
  readonly pid: number
  readonly tid: number
  readonly ts: number
  readonly dur?: number
  /** On a processor, µs. */
  readonly tdur?: number
  readonly args?: { readonly name?: string; readonly data?: Record<string, unknown> }
}

export interface Tasks {
  /** On a processor, ms. */
  readonly longest: number
  readonly over: number
  readonly total: number
  /** Workers on a processor from each edit to its last margin, ms. */
  readonly workers: readonly number[]
  /** The longest in words, with what took most of each. */
  readonly worst: readonly string[]
}

const long = 50

export async function traced<T>(page: Page, work: () => Promise<T>): Promise<{ result: T; trace: TraceEvent[] }> {
  const session = await page.context().newCDPSession(page)
  const trace: TraceEvent[] = []
  session.on('Tracing.dataCollected', ({ value }) => trace.push(...(value as unknown as TraceEvent[])))
  const categories = 'toplevel,devtools.timeline,disabled-by-default-devtools.timeline,v8,blink.user_timing'
  await session.send('Tracing.start', { categories, transferMode: 'ReportEvents' } as never)
  const result = await work()
  const complete = new Promise<void>((done) => session.once('Tracing.tracingComplete', () => done()))
  await session.send('Tracing.end')
  await complete
  await session.detach()
  return { result, trace }
}

const onProcessor = (event: TraceEvent): number => (event.tdur ?? event.dur ?? 0) / 1000

export function tasksOf(trace: readonly TraceEvent[]): Tasks {
  const mains = trace.filter(({ name, args }) => name === 'thread_name' && args?.name === 'CrRendererMain')
  const busiest = mains
    .map(({ pid, tid }) => trace.filter((event) => event.pid === pid && event.tid === tid))
    .sort((a, b) => b.length - a.length)[0]
  if (busiest === undefined) throw new Error('the trace knows no main thread')
  const tasks = busiest.filter(({ name, ph }) => ph === 'X' && name === 'RunTask')
  const sorted = [...tasks].sort((a, b) => onProcessor(b) - onProcessor(a))
  return {
    longest: sorted.length === 0 ? 0 : onProcessor(sorted[0]),
    over: sorted.filter((task) => onProcessor(task) > long).length,
    total: tasks.reduce((sum, task) => sum + onProcessor(task), 0),
    workers: workersOf(trace),
    worst: sorted.slice(0, 3).map((task) => {
      const inside = busiest.filter(
        ({ ts, dur = 0, ph, name }) =>
          ph === 'X' &&
          ts >= task.ts &&
          ts + dur <= task.ts + (task.dur ?? 0) &&
          !name.endsWith('RunTask') &&
          dur > 3000,
      )
      const parts = inside.slice(0, 8).map((event) => `${event.name} ${onProcessor(event).toFixed(0)}`)
      return `${onProcessor(task).toFixed(0)} ms (${((task.dur ?? 0) / 1000).toFixed(0)} by the wall): ${parts.join(', ')}`
    }),
  }
}

function workersOf(trace: readonly TraceEvent[]): number[] {
  const threads = trace.filter(({ name, args }) => name === 'thread_name' && args?.name?.startsWith('DedicatedWorker'))
  const work = trace.filter(
    ({ name, ph, pid, tid }) =>
      ph === 'X' && name === 'RunTask' && threads.some((one) => one.pid === pid && one.tid === tid),
  )
  const marks = trace
    .filter(({ name, ph }) => (name === 'pressed' || name === 'margins') && ph !== 'X')
    .sort((a, b) => a.ts - b.ts)
  return marks.flatMap((mark, i) => {
    const pressed = marks[i - 1]
    if (mark.name !== 'margins' || pressed?.name !== 'pressed') return []
    const during = work.filter(({ ts, dur = 0 }) => ts + dur > pressed.ts && ts < mark.ts)
    const share = (task: TraceEvent): number => {
      const dur = task.dur ?? 0
      const inside = Math.min(task.ts + dur, mark.ts) - Math.max(task.ts, pressed.ts)
      return dur === 0 ? 0 : (onProcessor(task) * inside) / dur
    }
    return [during.reduce((sum, task) => sum + share(task), 0)]
  })
}
