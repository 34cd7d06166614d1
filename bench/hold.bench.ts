/**
 * Will it hold: modes, flutter at 12 Mach numbers and more with the margin at every instant, strength and joint of the demo, one core, warm.
 *
 *   whole     nothing kept: every round has a fin of its own size, some hundredths of a per cent apart
 *   again     one ply of a cloth of another weight, or turned so that bending and stretching couple; the outline as it was
 *   aside     what stands beside the margins: other assumptions, what changes the flutter margin most, the fillet radius that is enough
 *
 * Wall-clock and processor time: on a busy machine the first is larger than what the work took.
 */
import { readFileSync } from 'node:fs'
import type { CanDesign, PlyDesign } from '../packages/core/src/assess/design.ts'
import { flown } from '../packages/core/src/assess/flown.ts'
import { willItHold } from '../packages/core/src/assess/hold.ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'

const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
const read = readPlan({ text: readFileSync('examples/demo.fincan.json', 'utf8'), readAttachment })
if (!read.ok || read.value.design.kind !== 'can') throw new Error('the demo is refused')
const demo: CanDesign = read.value.design
const flight = flown(demo.flight)
if (!flight.ok) throw new Error('the demo does not fly')

const rounds = 9
const warmUp = 6

function sized(round: number): CanDesign {
  const times = 1 + 1e-4 * round
  const points = demo.fins.outline.points.map(([x, y]) => [times * x, times * y] as const)
  return { ...demo, fins: { ...demo.fins, outline: { ...demo.fins.outline, points } } }
}

/** One ply, the second from the core, another in every round. */
const onePly =
  (change: (ply: PlyDesign, round: number) => PlyDesign) =>
  (round: number): CanDesign => ({
    ...demo,
    plies: demo.plies.map((ply, i) => (i === 1 ? change(ply, round) : ply)),
  })

const heavier = onePly((ply, round) => {
  const { arealMass } = ply.cloth
  return { ...ply, cloth: { ...ply.cloth, arealMass: { ...arealMass, value: (1 + 0.01 * round) * arealMass.value } } }
})

const turned = onePly((ply, round) => ({ ...ply, angle: ply.angle + 0.002 * round }))

const median = (times: readonly number[]): number => [...times].sort((a, b) => a - b)[Math.floor(times.length / 2)]

function timed(name: string, designOf: (round: number) => CanDesign, asides: boolean): number {
  const [wall, processor]: [number[], number[]] = [[], []]
  for (let round = 1; round <= warmUp + rounds; round++) {
    const design = designOf(round)
    const before = process.cpuUsage()
    const start = performance.now()
    const { value } = willItHold(design, flight.ok ? flight.value : { history: null, states: [] }, { asides })
    const { user, system } = process.cpuUsage(before)
    if (value.flutter.margin.speedRatio === null) throw new Error('the demo has no margin')
    if (round <= warmUp) continue
    wall.push(performance.now() - start)
    processor.push((user + system) / 1000)
  }
  const words = [wall, processor].map(
    (times) => `${median(times).toFixed(0)} ms (least ${Math.min(...times).toFixed(0)})`,
  )
  console.log(`${name}: median ${words[0]}, processor ${words[1]}, of ${rounds}`)
  return median(wall)
}

timed('whole (goal 1000 ms)', sized, false)
const again = timed('again, a heavier ply (goal 250 ms)', heavier, false)
timed('again, a ply turned, coupled (goal 250 ms)', turned, false)
const all = timed('again, a heavier ply, with what stands beside', heavier, true)
console.log(`aside: about ${(all - again).toFixed(0)} ms`)
