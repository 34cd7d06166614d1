/**
 * Will it hold: modes, flutter at 12 Mach numbers and more with the margin at every instant, strength and joint of the demo, one core, warm.
 *
 *   whole     nothing kept: every round has a fin of its own size, some hundredths of a per cent apart
 *   again     one ply turned by a few degrees, the outline as it was
 *   aside     what stands beside the flutter margin: other assumptions and what changes it most
 */
import { readFileSync } from 'node:fs'
import type { CanDesign } from '../packages/core/src/assess/design.ts'
import { flown } from '../packages/core/src/assess/flown.ts'
import { willItHold } from '../packages/core/src/assess/hold.ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'

const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
const read = readPlan({ text: readFileSync('examples/demo.fincan.json', 'utf8'), readAttachment })
if (!read.ok || read.value.design.kind !== 'can') throw new Error('the demo is refused')
const demo: CanDesign = read.value.design
const flight = flown(demo.flight)
if (!flight.ok) throw new Error('the demo does not fly')

const rounds = 7
const warmUp = 4

function sized(round: number): CanDesign {
  const times = 1 + 1e-4 * round
  const points = demo.fins.outline.points.map(([x, y]) => [times * x, times * y] as const)
  return { ...demo, fins: { ...demo.fins, outline: { ...demo.fins.outline, points } } }
}

function turned(round: number): CanDesign {
  const plies = demo.plies.map((ply, i) => (i === 1 ? { ...ply, angle: ply.angle + 0.002 * round } : ply))
  return { ...demo, plies }
}

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]

function timed(name: string, designOf: (round: number) => CanDesign, asides: boolean): number {
  const times: number[] = []
  for (let round = 1; round <= warmUp + rounds; round++) {
    const design = designOf(round)
    const start = performance.now()
    const { value } = willItHold(design, flight.ok ? flight.value : { history: null, states: [] }, { asides })
    if (round > warmUp) times.push(performance.now() - start)
    if (value.flutter.margin.speedRatio === null) throw new Error('the demo has no margin')
  }
  const middle = median(times)
  console.log(`${name}: median ${middle.toFixed(0)} ms, least ${Math.min(...times).toFixed(0)} ms of ${rounds}`)
  return middle
}

timed('whole (goal 1000 ms)', sized, false)
const again = timed('again, one ply changed (goal 250 ms)', turned, false)
const all = timed('again, with what stands beside', turned, true)
console.log(`aside: about ${(all - again).toFixed(0)} ms`)
