/**
 * Nesting.
 *
 * 1 The demo against rectangles in rows: at least 15 % less cloth in under 5 s, the start in under 3 s.
 * 2 Irregular strip packing instances of the literature: share of the record density after 10 s and 60 s, median of five
 *   seeds, at least 94 % in 60 s. They are not part of this repository: NESTING_INSTANCES names a folder of JSON files
 *   { name, stripHeight, record: { stripLength }, items: [{ demand, allowedRotationsDeg, polygon }] }. Without it this part is left out.
 *
 * Time is that of the processor, which on a busy machine is less than the clock's. Every nest is checked for overlap by two
 * polygon libraries: clipper2-ts, of which the search uses only the parallel curve, and polyclip-ts, which has no part in it.
 * NESTING_SECONDS, NESTING_SEEDS, NESTING_FIRST_SEED and NESTING_NAMES (with commas) shorten a trial.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { cpus, loadavg } from 'node:os'
import { join } from 'node:path'
import { canPatterns } from '@finwright/core/assess/can-patterns.ts'
import { nestingBudgets } from '@finwright/core/assess/nest-section.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import { type NestInput, nestPieces, usualGap } from '@finwright/core/nest/nest.ts'
import type { NestCloth, NestPiece, Point } from '@finwright/core/nest/piece.ts'
import { type NestProgress, nestSteps, searchNest } from '@finwright/core/nest/search-nest.ts'
import { placedOutline } from '@finwright/core/nest/turn.ts'
import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import { intersection } from 'polyclip-ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'
import { boxOf, rowsLength } from './nest-rows.ts'

const seconds = Number(process.env.NESTING_SECONDS ?? 60)
const firstSeed = Number(process.env.NESTING_FIRST_SEED ?? 1)
const seeds = Array.from({ length: Number(process.env.NESTING_SEEDS ?? 5) }, (_, i) => i + firstSeed)
const wanted = process.env.NESTING_NAMES?.split(',')
const marks = [10, seconds].filter((mark, i) => i === 1 || mark < seconds)
const leastShare = 0.94
const leastSaving = 0.15
let failed = false

const load = (): string => loadavg()[0].toFixed(2)
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]
const percent = (value: number): string => `${(100 * value).toFixed(2)} %`

interface Trace {
  readonly progress: NestProgress
  /** Progress as it stood at each time asked for. */
  readonly at: readonly NestProgress[]
  readonly start: { readonly time: number; readonly progress: NestProgress }
}

/** Processor time of this process, s: what the clock shows where nothing else runs on the core. */
function processorTime(): number {
  const { user, system } = process.cpuUsage()
  return (user + system) / 1e6
}

/** Searches for a time. */
function timedSearch(input: NestInput, seed: number, times: readonly number[]): Trace {
  const begun = processorTime()
  const clock = (): number => processorTime() - begun
  const last = times[times.length - 1]
  const steps = nestSteps(input, { budget: Infinity, seed, pace: () => clock() / last })
  const first = steps.next()
  if (first.done) throw new Error('no start')
  const start = { time: clock(), progress: first.value }
  let progress = first.value
  const at: NestProgress[] = []
  for (let step = steps.next(); ; step = steps.next()) {
    while (at.length < times.length && clock() >= times[at.length]) at.push(progress)
    if (step.done) break
    progress = step.value
  }
  while (at.length < times.length) at.push(progress)
  return { progress, at, start }
}

/** Area shared by pieces, m², by the clipper; infinite when the other library finds any that it does not. */
function overlaps(input: NestInput, progress: NestProgress): number {
  const outlines = new Map(input.pieces.map(({ id, outline }) => [id, outline]))
  const clip = (outline: readonly Point[]) =>
    outline.map(([x, y]) => ({ x: Math.round(x * 1e8), y: Math.round(y * 1e8) }))
  let area = 0
  for (const { placements } of progress.nest().rolls) {
    const laid = placements.map((placement) => placedOutline(outlines.get(placement.piece)!, placement))
    laid.forEach((P, i) => {
      for (const Q of laid.slice(i + 1)) {
        if (!boxesMeet(P, Q)) continue
        const own = areaPaths(intersect([clip(P)], [clip(Q)], FillRule.NonZero)) / 1e16
        area += own === 0 && intersection(ring(P), ring(Q)).length > 0 ? Infinity : own
      }
    })
  }
  return area
}

const ring = (outline: readonly Point[]): [number, number][][] => [outline.map(([x, y]): [number, number] => [x, y])]

function boxesMeet(P: readonly Point[], Q: readonly Point[]): boolean {
  return [0, 1].every((axis) => {
    const [p, q] = [P, Q].map((outline) => outline.map((point) => point[axis]))
    return Math.max(...p) >= Math.min(...q) && Math.max(...q) >= Math.min(...p)
  })
}

function demo(): void {
  const plan = 'examples/demo.fincan.json'
  const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
  const read = readPlan({ text: readFileSync(plan, 'utf8'), readAttachment })
  if (!read.ok || read.value.design.kind !== 'can') throw new Error('the demo is refused')
  const { design } = read.value
  const cut = canPatterns(design, curedPlies(design))
  if (!cut.ok) throw new Error('the demo has no patterns')
  const cloths = new Map(design.plies.map(({ cloth }) => [cloth.id, cloth]))
  const pieces = cut.value.pieces.map(({ id, cloth, outline, angle, can, bay }): NestPiece => {
    return { id, cloth: cloths.get(cloth)!, outline, angle, group: `${can}-${bay}` }
  })
  const input: NestInput = { pieces, rolls: design.stock.rolls, gap: usualGap }
  const quickBegun = performance.now()
  const quick = nestPieces(input)
  const quickTime = performance.now() - quickBegun
  if (!quick.ok) throw new Error('the demo does not nest')
  const thorough = searchedBy(input, nestingBudgets.thorough)
  const { progress, start } = timedSearch(input, 1, [4.5])
  console.log(
    `demo: quick ${quickTime.toFixed(0)} ms, thorough ${thorough.time.toFixed(2)} s, ` +
      `start of the search ${(1000 * start.time).toFixed(0)} ms, 4.5 s of search`,
  )
  let [used, own, along] = [0, 0, 0]
  for (const roll of progress.nest().rolls) {
    const group = pieces.filter(({ cloth }) => cloth.id === roll.cloth)
    const rows = (isOwn: boolean): number => {
      return rowsLength(
        group.map((piece) => boxOf(piece, isOwn)),
        roll.width - 2 * roll.selvedge,
        usualGap,
      )
    }
    const before = quick.value.rolls.find(({ roll: id }) => id === roll.roll)!.usedLength
    console.log(
      `  ${roll.roll.padEnd(14)} ${roll.usedLength.toFixed(3)} m (quick ${before.toFixed(3)} m), density ${roll.density.toFixed(3)}; ` +
        `rectangles in rows ${rows(true).toFixed(3)} m along the pieces' axes, ${rows(false).toFixed(3)} m along the roll`,
    )
    used += roll.usedLength * roll.width
    own += rows(true) * roll.width
    along += rows(false) * roll.width
  }
  console.log(
    `  all cloth ${used.toFixed(3)} m²: ${percent(1 - used / own)} and ${percent(1 - used / along)} less than the rectangles; ` +
      `thorough ${percent(1 - thorough.used / own)} and ${percent(1 - thorough.used / along)}`,
  )
  const most = (1 - leastSaving) * Math.min(own, along)
  if (!(used <= most && thorough.used <= most && start.time < 3 && thorough.time < 5)) failed = true
  if (overlaps(input, progress) > 0) failed = true
}

/** By effort, as the package of sheets does it: processor time, s, and cloth used, m². */
function searchedBy(input: NestInput, budget: number): { readonly time: number; readonly used: number } {
  const begun = processorTime()
  const nest = searchNest(input, { budget })
  if (!nest.ok) throw new Error('the demo does not nest')
  const time = processorTime() - begun
  return { time, used: nest.value.rolls.reduce((sum, { usedLength, width }) => sum + usedLength * width, 0) }
}

interface Instance {
  readonly name: string
  readonly stripHeight: number
  readonly record: { readonly stripLength: number; readonly density: number }
  readonly items: readonly {
    readonly id: number
    readonly demand: number
    readonly allowedRotationsDeg: readonly number[]
    readonly polygon: readonly (readonly [number, number])[]
  }[]
}

/** The strip becomes a roll 1 m wide; half turns only are those of a cloth that is not balanced. */
function asInput({ stripHeight, items }: Instance): NestInput {
  const quarter = items.some(({ allowedRotationsDeg }) => allowedRotationsDeg.includes(90))
  const cloth: NestCloth = { id: 'cloth', name: 'cloth', weave: 'plain', warpShare: { value: quarter ? 0.5 : 0.6 } }
  const pieces = items.flatMap(({ id, demand, polygon }) => {
    const outline = polygon.map(([x, y]): Point => [x / stripHeight, y / stripHeight])
    const twice = outline.reduce((sum, [x, y], i) => {
      const [u, v] = outline[(i + 1) % outline.length]
      return sum + x * v - u * y
    }, 0)
    const ordered = twice < 0 ? outline.reverse() : outline
    return Array.from({ length: demand }, (_, k): NestPiece => {
      return { id: `${id}-${k}`, cloth, outline: ordered, angle: Math.PI / 2 }
    })
  })
  return { pieces, rolls: [{ id: 'roll', cloth, width: 1, length: 30, selvedge: 0 }], gap: 0 }
}

function instances(folder: string): void {
  for (const name of readdirSync(folder).filter((file) => file.endsWith('.json'))) {
    if (wanted !== undefined && !wanted.includes(name.replace('.json', ''))) continue
    const instance: Instance = JSON.parse(readFileSync(join(folder, name), 'utf8'))
    const input = asInput(instance)
    const record = instance.record.stripLength / instance.stripHeight
    const shares = seeds.map((seed) => {
      const { at, start, progress } = timedSearch(input, seed, marks)
      const area = overlaps(input, progress)
      const ends = [start.progress, ...at].map(({ usedArea }) => record / usedArea)
      console.log(
        `  ${instance.name} seed ${seed}: start ${percent(ends[0])} in ${start.time.toFixed(2)} s` +
          marks.map((mark, m) => `, ${mark} s ${percent(ends[m + 1])}`).join('') +
          `; overlap ${area}; load ${load()}`,
      )
      if (area > 0 || start.time > 3 || ends[1] < ends[0]) failed = true
      return ends
    })
    const medians = marks.map((_, m) => median(shares.map((ends) => ends[m + 1])))
    console.log(
      `${instance.name}: ${marks.map((mark, m) => `${percent(medians[m])} of the record density after ${mark} s`).join(', ')}` +
        ` (record ${instance.record.density.toFixed(4)}, median of ${seeds.length})`,
    )
    if (!(medians[medians.length - 1] >= leastShare)) {
      console.log(`  TOO LONG: less than ${percent(leastShare)} of the record density`)
      failed = true
    }
  }
}

console.log(`${cpus()[0].model}, ${cpus().length} cores, load ${load()}`)
demo()
const folder = process.env.NESTING_INSTANCES
if (folder === undefined) console.log('NESTING_INSTANCES is not set: no instances of the literature')
else instances(folder)
process.exitCode = failed ? 1 : 0
