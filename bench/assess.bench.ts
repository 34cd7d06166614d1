/**
 * The whole assessment of the demo in a fresh process (cold: start of Node, bundle, everything) and again in this one (warm).
 * The budget is 2 s for a fresh process.
 */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { assess } from '../packages/core/src/assess/assess.ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'

const plan = 'examples/demo.fincan.json'
const rounds = 9

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]

function timed(work: () => void): number {
  const start = performance.now()
  work()
  return performance.now() - start
}

function fresh(): void {
  const { status, stderr } = spawnSync(process.execPath, ['packages/cli/bin/finwright.js', 'assess', plan, '--json'])
  if (status !== 0) throw new Error(String(stderr))
}

fresh() // makes the bundle when it is out of date
const cold = median(Array.from({ length: rounds }, () => timed(fresh)))

const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
const read = readPlan({ text: readFileSync(plan, 'utf8'), readAttachment })
if (!read.ok) throw new Error('the demo is refused')
const { design } = read.value
const again = (): void => {
  if (!assess(design).ok) throw new Error('the demo cannot be assessed')
}
again()
const warm = median(Array.from({ length: rounds }, () => timed(again)))

console.log(
  `assess, demo: fresh process ${cold.toFixed(0)} ms (budget 2000 ms), warm ${warm.toFixed(0)} ms; medians of ${rounds}`,
)
