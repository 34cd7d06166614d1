/**
 * The first four modes of the demo fin, everything made anew, beside the same fin as a solid in an independent solver
 * (packages/core/checks/calculix-plate): of its meshes the coarsest whose frequencies are as near those of its finest as ours are.
 *
 * Processor times: ours here and now, warm; the solver's as stored, one thread. It tells a size, not a race: the solid knows more than a plate.
 */
import { readFileSync } from 'node:fs'
import type { CanDesign } from '../packages/core/src/assess/design.ts'
import { finPlate } from '../packages/core/src/assess/fin-plate.ts'
import { curedPlies } from '../packages/core/src/assess/skins.ts'
import { plateModes } from '../packages/core/src/plate/modes.ts'

interface Solid {
  readonly size: number
  readonly frequencies: readonly number[]
  readonly modalSeconds: number
}

interface Fixture {
  readonly solver: string
  readonly design: CanDesign
  readonly fine: Solid
  readonly coarse: Solid
  /** Modes only, the coarsest first. */
  readonly coarser: readonly Solid[]
}

const stored = readFileSync('packages/core/checks/calculix-plate/demo-fin.json', 'utf8')
const { solver, design, fine, coarse, coarser } = JSON.parse(stored) as Fixture

/** A millionth larger every round, so that nothing is kept from the one before. */
function modesOf(round: number): readonly number[] {
  const { outline } = design.fins
  const points = outline.points.map(([x, y]) => [(1 + 1e-6 * round) * x, (1 + 1e-6 * round) * y] as const)
  const own = { ...design, fins: { ...design.fins, outline: { ...outline, points } } }
  return plateModes(finPlate(own, curedPlies(own)).model, 4).omega.map((omega) => omega / (2 * Math.PI))
}

const worst = (found: readonly number[]): number =>
  Math.max(...fine.frequencies.map((exact, i) => Math.abs(found[i] / exact - 1)))
const percent = (share: number): string => `${(100 * share).toFixed(2)} %`

const error = worst(modesOf(0))
const times: number[] = []
for (let round = 1; round <= 40; round++) {
  const before = process.cpuUsage()
  modesOf(round)
  const { user, system } = process.cpuUsage(before)
  if (round > 10) times.push((user + system) / 1000)
}
const ours = times.sort((a, b) => a - b)[times.length >> 1]
console.log(`ours: ${ours.toFixed(0)} ms, ${percent(error)} from the finest solid of ${fine.size} mm`)
const meshes = [...coarser, coarse]
for (const { size, frequencies, modalSeconds } of meshes) {
  console.log(`${solver}, solid of ${size} mm: ${modalSeconds} s, ${percent(worst(frequencies))} from its finest`)
}
const equal = meshes.find(({ frequencies }) => worst(frequencies) <= error) ?? coarse
console.log(
  `at equal accuracy (${equal.size} mm): ${((1000 * equal.modalSeconds) / ours).toFixed(0)} times as long as ours`,
)
