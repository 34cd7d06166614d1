/**
 * The worst air load on the demo's fin: what mesh and boxes change, and what it costs. Prints tables; docs/methods/strength.md quotes them.
 */
import { readFileSync } from 'node:fs'
import type { CanDesign } from '../packages/core/src/assess/design.ts'
import { keptAir } from '../packages/core/src/assess/fin-air.ts'
import { finPlate, plateSection } from '../packages/core/src/assess/fin-plate.ts'
import { finRoot } from '../packages/core/src/assess/fin-root.ts'
import { flown } from '../packages/core/src/assess/flown.ts'
import { heldFins } from '../packages/core/src/assess/held-fin.ts'
import { curedPlies } from '../packages/core/src/assess/skins.ts'
import { subsonicAir } from '../packages/core/src/flutter/lattice-method.ts'
import { supersonicAir } from '../packages/core/src/flutter/source-method.ts'
import { finPolygon, tipMiddle } from '../packages/core/src/geometry/fin-outline.ts'
import { meshOutline } from '../packages/core/src/geometry/outline-mesh.ts'
import { area } from '../packages/core/src/geometry/polygon.ts'
import type { Laminate } from '../packages/core/src/laminate/laminate.ts'
import { assemblePlate, type PlateModel } from '../packages/core/src/plate/assemble.ts'
import { plateModes } from '../packages/core/src/plate/modes.ts'
import { type AngleSpec, flightLoads } from '../packages/core/src/strength/load-states.ts'
import { worstSpot } from '../packages/core/src/strength/stress-map.ts'
import { testBench } from '../packages/core/src/strength/test-bench.ts'
import { type WorstCase, worstCase } from '../packages/core/src/strength/worst-case.ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'

const plan = 'examples/demo.fincan.json'

function demo(): CanDesign {
  const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
  const read = readPlan({ text: readFileSync(plan, 'utf8'), readAttachment })
  if (!read.ok || read.value.design.kind !== 'can') throw new Error('the demo is refused')
  return read.value.design
}

const design = demo()
const flight = flown(design.flight)
if (!flight.ok || flight.value.history === null) throw new Error('the demo does not fly')
const { history } = flight.value

const skins = curedPlies(design)
const outline = finPolygon(design.fins.outline)
type Fin = { readonly model: PlateModel; readonly laminateAt: (x: number, y: number) => Laminate }

function fins(): { readonly plate: ReturnType<typeof finPlate>; readonly clamped: Fin; readonly held: Fin } {
  const plate = finPlate(design, skins)
  const root = finRoot(design, plate).value
  const states = heldFins(design, plate, root)
  return { plate, clamped: states.fin('clamped'), held: states.fin('likely') }
}

const specs: readonly (readonly [string, AngleSpec])[] = [
  ['2 deg throughout', { angleOfAttack: (2 * Math.PI) / 180, wind: null }],
  ['gust of 9 m/s', { angleOfAttack: null, wind: { steady: 6, gust: 9, railLength: 3 } }],
]

const { plate, clamped, held } = fins()
const halfThickness = (x: number, y: number) => plate.at(x, y).laminate.h / 2
const kept = keptAir(outline)

function worst(fin: Fin, spec: AngleSpec, air: Pick<typeof kept, 'subsonic' | 'supersonic'> = kept): WorstCase {
  const { value, warnings } = worstCase({
    ...fin,
    air: { ...air, bodyRadius: design.tube.outerRadius, halfThickness },
    states: flightLoads(history, spec),
    area: area(outline),
    rootSegment: plate.rootSegment,
    tip: tipMiddle(design.fins.outline),
  })
  if (value === null) throw new Error(JSON.stringify(warnings))
  return value
}

function row(label: string, { failure, worst: load, tip }: WorstCase): void {
  const numbers = [
    failure.index.toFixed(4),
    failure.unaveraged.toFixed(4),
    load.rootMoment.toFixed(2),
    load.force.toFixed(1),
    load.amplification.toFixed(3),
    load.state.mach.toFixed(2),
    (tip?.byFailure ?? Number.NaN).toFixed(1),
    (tip?.byMoment ?? Number.NaN).toFixed(1),
  ]
  console.log(`  ${label.padEnd(14)}${numbers.map((text) => text.padStart(9)).join('')}`)
}

const heads = ['index', 'alone', 'M, N m', 'F, N', 'elastic', 'Mach', 'P index', 'P moment']
for (const [name, fin] of [
  ['clamped, no fillet', clamped],
  ['held by joint and wall, fillets in', held],
] as const) {
  for (const [load, spec] of specs) {
    console.log(`${name}; ${load}`)
    console.log(`  ${''.padEnd(14)}${heads.map((head) => head.padStart(9)).join('')}`)
    for (const fineness of [6, 8, 12, 16, 24, 32]) {
      const model = assemblePlate({
        mesh: meshOutline({ outline: plate.outline, size: Math.sqrt(area(outline)) / fineness }),
        supports: fin.model.layout.supports,
        sectionAt: ({ x, y }) => plateSection(fin.laminateAt(x, y)),
      })
      row(`√area/${fineness}`, worst({ model, laminateAt: fin.laminateAt }, spec))
    }
    for (const boxes of [80, 160, 320]) {
      const air = { subsonic: subsonicAir(outline, boxes), supersonic: supersonicAir(outline, boxes) }
      row(`${boxes} boxes`, worst(fin, spec, air))
    }
  }
}

console.log('failure index of a modal sum over that of the static solution, rigid fin, clamped, Mach 1.6')
{
  const air = { ...kept, bodyRadius: 0, halfThickness }
  const bench = testBench({ ...clamped, air })
  if (bench === null) throw new Error('the fin is held')
  const [forces] = bench.air.at(1.6)
  const { layout } = clamped.model
  const F = bench.air.placement(forces.surface, layout).toNodes(forces.rigid)
  const index = (corners: Float64Array) => worstSpot(bench.nodes, bench.map.atNodes(corners)).index
  const whole = index(bench.corners(bench.plate.solve(F)))
  const { shapes, omega } = plateModes(clamped.model, 40)
  for (const count of [4, 8, 16, 24, 40]) {
    const sum = bench.map.atCorners(shapes[0]).fill(0)
    for (let m = 0; m < count; m++) {
      const amplitude = F.reduce((work, f, node) => work + f * shapes[m].w[node], 0) / omega[m] ** 2
      bench.map.atCorners(shapes[m]).forEach((strain, i) => {
        sum[i] += amplitude * strain
      })
    }
    console.log(`  ${String(count).padStart(3)} modes ${(index(sum) / whole).toFixed(3)}`)
  }
}

const processor = (): number => (process.cpuUsage().user + process.cpuUsage().system) / 1e3
const rounds = 40
for (const [load, spec] of specs) {
  const times = Array.from({ length: rounds }, () => {
    const own = fins().held
    const start = processor()
    worst(own, spec)
    return processor() - start
  })
  const sorted = times.slice(rounds / 4).sort((p, q) => p - q)
  const [least, median] = [sorted[0], sorted[Math.floor(sorted.length / 2)]]
  console.log(
    `re-answered with air kept, ${load}: processor time median ${median.toFixed(0)} ms, least ${least.toFixed(0)} ms`,
  )
}

const first = specs.map(([load, spec]) => {
  const times = Array.from({ length: 5 }, () => {
    const air = { subsonic: subsonicAir(outline), supersonic: supersonicAir(outline) }
    const start = processor()
    worst(held, spec, air)
    return processor() - start
  }).sort((p, q) => p - q)
  return `${load} ${times[2].toFixed(0)} ms`
})
console.log(`with the air of a new outline, processor time, medians of 5: ${first.join(', ')}`)
