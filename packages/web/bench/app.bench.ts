/**
 * The built app in headless Chromium on the demo, as a builder meets it: first load, then edits of one ply's angle by key and by a drag of
 * the dial. Per run the least and the median, since other work on the machine can only add.
 *
 * Times of an edit run from the key's event to the first frame after the number is fresh again. Main-thread tasks are told twice: by the wall
 * clock, as the browser's own long-task reports are, and by the time the thread was on a processor, which other work does not lengthen.
 *
 *   FINWRIGHT_BENCH_RUNS=3 node bench/run.mjs app
 */
import { buildApp, freshFolder, openBrowser, removeFolder, startServer } from '../test/browser/app.ts'
import { type Edit, firstLoad, type Load, moves, watchEdits } from './edit-watch.ts'
import { tasksOf, traced } from './main-thread.ts'

const runs = Number(process.env.FINWRIGHT_BENCH_RUNS ?? 3)
const edits = Number(process.env.FINWRIGHT_BENCH_EDITS ?? 9)

const budget = { margins: 300, load: 2000, task: 50 }

const median = (of: readonly number[]): number => [...of].sort((a, b) => a - b)[Math.floor(of.length / 2)] ?? Number.NaN
const told = (of: readonly number[]): string =>
  of.length === 0
    ? '–'
    : `least ${Math.min(...of).toFixed(0)}, median ${median(of).toFixed(0)}, most ${Math.max(...of).toFixed(0)} ms`

buildApp()
const data = freshFolder()
const server = await startServer(data)
const browser = await openBrowser()
try {
  const loads: Load[] = []
  for (const path of ['/', '/plies', '/hold']) {
    const of: Load[] = []
    for (let run = 0; run < runs; run++) of.push(await firstLoad(browser, server.address + path))
    loads.push(...of)
    console.log(`first load of ${path}, nothing kept (budget ${budget.load} ms)`)
    console.log(`  page drawn, can be worked on: ${told(of.map(({ interactive }) => interactive))}`)
    console.log(`  first numbers:                ${told(of.map(({ quick }) => quick))}`)
    console.log(`  every margin:                 ${told(of.map(({ margins }) => margins))}`)
    console.log(`  longest task till then:       ${told(of.map(({ longest }) => longest))}`)
  }
  for (const path of (process.env.FINWRIGHT_BENCH_PAGES ?? '/plies /shape /hold /cut /').split(' ')) {
    const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
    const watch = await watchEdits(page, server.address, path)
    const { result, trace } = await traced(page, async () => {
      const made: Edit[] = []
      for (let edit = 0; edit < edits; edit++) made.push(await watch.byKey())
      return made
    })
    report(`${path}: ${edits} ${path === '/plies' ? 'edits by key' : 'undos and redos'}`, result, trace)
    const drags = { '/plies': ['the dial', watch.byDial], '/shape': ['a corner of the tip', watch.byTip] } as const
    if (path === '/plies') {
      const { result, trace } = await traced(page, async () => {
        const made: Edit[] = []
        for (let edit = 0; edit < edits; edit++) made.push(await watch.byKeySoon())
        return made
      })
      report('/plies: edits by key, each soon after the margins of the one before', result, trace)
    }
    if (path === '/plies' || path === '/shape') {
      const [what, drag] = drags[path]
      const dragged = await traced(page, async () => [await drag()])
      report(`${path}: ${what} dragged through ${moves} places, from the last one`, dragged.result, dragged.trace)
    }
    await page.close()
  }
} finally {
  await browser.close()
  await server.stop()
  removeFolder(data)
}

function report(what: string, of: readonly Edit[], trace: Parameters<typeof tasksOf>[0]): void {
  const tasks = tasksOf(trace)
  const long = of.flatMap(({ longTasks }) => longTasks)
  console.log(`${what} (budget ${budget.margins} ms to the last margin, ${budget.task} ms a task)`)
  if (of.length > 1) console.log(`  shown as stale:                  ${told(of.map(({ stale }) => stale))}`)
  console.log(`  mass, thickness:                 ${told(of.map(({ quick }) => quick))}`)
  console.log(`  strength:                        ${told(of.map(({ strength }) => strength))}`)
  console.log(`  flutter:                         ${told(of.map(({ flutter }) => flutter))}`)
  console.log(`  every margin:                    ${told(of.map(({ margins }) => margins))}`)
  const whole = of.map((one) => one.whole).filter((time) => time > 0)
  if (whole.length > 0) console.log(`  everything:                      ${told(whole)}`)
  console.log(`  long tasks by the wall clock:    ${long.length}${long.length === 0 ? '' : `; ${told(long)}`}`)
  console.log(
    `  main thread on a processor:      longest task ${tasks.longest.toFixed(0)} ms, ${tasks.over} over ${budget.task} ms, ${tasks.total.toFixed(0)} ms in all`,
  )
  console.log(`  workers on a processor till then: ${told(tasks.workers)}`)
  for (const line of tasks.worst) console.log(`    ${line}`)
}
