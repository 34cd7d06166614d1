/**
 * Eight answers made into a plan file. What the answers do not say is chosen here, each choice with its reason; what is chosen
 * neither here nor by the builder is left out, so that the plan's own defaults stand there, in sight, with their sources.
 *
 *   h(M) = h0 + (h1 − h0) (M / M1)²       altitude during boost at constant acceleration: height grows as speed squared (kinematics)
 *   n    = areal mass wanted / areal mass of the cloth
 *   t    = m_A (1/ρ_fibre + 1/ρ_resin)    thickness of a ply at resin to cloth 1:1 by mass (FAA AC 43.13-1B (1998), chapter 3)
 *   step ≥ 50 t                           scarf of 50 ply thicknesses (the same, by analogy)
 *
 * Fillet radius, bevels and the wanted areal mass are our own proposals: common practice, no source. The margins decide.
 */
import { standardAir } from '@finwright/core/air/atmosphere.ts'
import type { Issue } from '@finwright/core/issue.ts'
import { cloths, resinSystems } from '@finwright/core/material/catalogue.ts'
import type { Json, JsonObject } from '@finwright/plan/protocol/record.ts'
import { unitOf } from '@finwright/plan/quantity/shown.ts'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { judge, siValue } from '@finwright/plan/schema/judge.ts'
import { demoFlight } from './demo-flight.data.ts'
import { type Answers, type AskedQuantity, examples, questions, shownFields } from './questions.data.ts'

export type Units = 'metric' | 'us'

/** Something the answers do not say. */
export interface Chosen {
  readonly path: string
  readonly what: string
  readonly value: string
  readonly why: string
}

export interface MadePlan {
  readonly plan: JsonObject
  readonly chosen: readonly Chosen[]
}

export type Made =
  | { readonly ok: true; readonly value: MadePlan }
  | { readonly ok: false; readonly issues: readonly Issue[] }

const practice = 'common practice, no source'
const proposal = 'our own proposal, no source; the margins decide'

/** Faults of one answer; the path is the question's key. */
export function faultsOf(asked: AskedQuantity, answers: Answers, units: Units): readonly Issue[] {
  const text = completed(asked, answers, units)
  if (text === '' && asked.open === true) return []
  const verdict = judge(fields[asked.field], written(asked, text))
  return verdict === null ? [] : [{ ...verdict, path: asked.key, value: text }]
}

/** A number typed alone takes the unit of the example that stood there. */
export function completed({ key, field }: AskedQuantity, answers: Answers, units: Units): string {
  const text = answers[key].trim()
  const unit = unitOf(examples[units][key]) ?? (field === 'material.workingTime' ? 'min' : null)
  return unit !== null && /^[+-]?[\d.,\s/½¼¾⅛⅜⅝⅞-]+$/u.test(text) && /[\d½¼¾⅛⅜⅝⅞]/u.test(text)
    ? `${text} ${unit}`
    : text
}

const written = ({ field }: AskedQuantity, text: string): Json =>
  fields[field].quantity === 'number' && /^[+-]?(\d+\.?\d*|\.\d+)$/.test(text) ? Number(text) : text

export function makePlan(answers: Answers, units: Units, name: string): Made {
  const asked = questions.flatMap((question) => shownFields(question, answers))
  const quantities = asked.filter((one) => one.kind === 'quantity')
  const issues = quantities.flatMap((one) => faultsOf(one, answers, units))
  if (issues.length > 0) return { ok: false, issues }
  const typed = { ...answers }
  for (const one of quantities) typed[one.key] = completed(one, answers, units) as never
  return { ok: true, value: planOf(typed, units, name) }
}

function planOf(typed: Answers, units: Units, name: string): MadePlan {
  const length = lengthIn(units)
  const chosen: Chosen[] = []
  const choose = (path: string, what: string, value: string, why: string): string => {
    chosen.push({ path, what, value, why })
    return value
  }
  const size = sizesOf(typed)
  const plies = pliesOf(typed, size)
  const flight = flightOf(typed, choose)
  const fillet = choose(
    'fins.fillet.radius',
    'Fillet radius',
    length(filletRadius(size)),
    `about 15 % of the diameter, less where fins stand close; ${practice}`,
  )
  const bevel = length(bevelWidth(size, plies.step))
  const land = length(landOf(size))
  choose(
    'fins.edges.leading',
    'Leading and trailing edges',
    `bevelled over ${bevel}, ${land} left square`,
    `four times the core’s thickness, less on a short tip, a quarter left square so that it can be laminated over; ${practice}`,
  )
  choose(
    'plies',
    'Plies',
    `${plies.count} of the cloth, at ${plies.angles.map((angle) => `${angle}°`).join(', ')} from the core outward`,
    `${plies.wanted} g/m² of dry cloth a face for this speed, 0° and 45° from both faces of the stack inward, so that it is alike both ways; ${proposal}`,
  )
  if (plies.count > 1)
    choose(
      'plies',
      'Step-backs',
      `each ply ${length(plies.step)} further in than the one over it`,
      plies.short
        ? 'as much as this fin has room for; 50 ply thicknesses would be more, and the plan says so'
        : 'at least 50 ply thicknesses: FAA AC 43.13-1B (1998), chapter 3, section 1, by analogy',
    )
  choose('plies', 'Peel ply over all', 'full size', `leaves a surface that bonds and takes up spare resin; ${practice}`)
  if (typed.mixRatio === '')
    choose(
      'resin.ratio',
      'Mix ratio',
      '100:28.4 by mass',
      'generic, no maker’s: put in your data sheet’s before you mix',
    )
  if (typed.workingTime === '')
    choose(
      'resin.workingTime',
      'Working time',
      resinName(typed.resin),
      `typical, ${practice}: put in your data sheet’s`,
    )
  const rolls = rollsOf(typed, size, { choose, length })
  const structural = plies.angles.map((angle, i): JsonObject => {
    const back = (plies.count - 1 - i) * plies.step
    const stepBack = back === 0 ? {} : { stepBack: { tip: length(back), chord: length(back), body: length(back) } }
    return { cloth: typed.cloth, angle: `${angle} deg`, ...stepBack }
  })
  const plan: JsonObject = {
    format: 'finwright/plan',
    version: 1,
    name,
    note: note(typed),
    units,
    tube: { outerDiameter: typed.diameter, wall: typed.wall, material: typed.tubeMaterial },
    fins: {
      count: Number(typed.finCount),
      outline: { kind: 'trapezoid', root: typed.root, tip: typed.tip, span: typed.span, tipOffset: typed.tipOffset },
      core: { material: typed.coreMaterial, thickness: typed.coreThickness },
      edges: {
        leading: { shape: 'bevel', width: bevel, land },
        trailing: { shape: 'bevel', width: bevel, land },
      },
      fillet: { radius: fillet },
    },
    plies: [...structural, { cloth: 'peel-ply', role: 'peel' }],
    resin: {
      system: typed.resin,
      ratio: { by: 'mass', value: typed.mixRatio === '' ? '100:28.4' : typed.mixRatio },
      ...(typed.workingTime === ''
        ? {}
        : { workingTime: typed.workingTime, workingTemperature: '25 degC', workingMass: '100 g' }),
    },
    shop: { temperature: typed.shopTemperature, scaleResolution: typed.scale },
    stock: { rolls },
    cans: [
      { letter: 'A', purpose: 'flight' },
      ...(typed.spare === 'none' ? [] : [{ letter: 'B', purpose: typed.spare }]),
    ],
    flight,
  }
  return { plan, chosen }
}

const note = ({ flight }: Answers): string =>
  `Begun from eight answers. ${flight === 'demo' ? 'The flight is an invented one, for demonstration: put in your own before you trust a margin.' : 'The flight is known by its top speed alone; a thrust curve or a flown history tells more.'}`

const resinName = (id: string): string => {
  const working = resinSystems[id]?.workingTime.value ?? 0
  return `${Math.round(working / 60)} min, for 100 g at 25 °C`
}

type Choose = (path: string, what: string, value: string, why: string) => string

/** Air states from a third of the top speed up: flutter is looked for where the air is thick and where the fin is fast. */
function flightOf(typed: Answers, choose: Choose): JsonObject {
  if (typed.flight === 'demo') {
    choose('flight', 'Flight', 'the invented demo flight', 'no flight was stated; rocket, thrust and drag are made up')
    return demoFlight
  }
  const top = Number(typed.topMach)
  const site = siValue('flight.siteAltitude', typed.siteAltitude)!
  const at = Math.max(site, siValue('flight.history[][1]', typed.topAltitude)!)
  const steps = 8
  const states = Array.from({ length: steps }, (_, i) => {
    const mach = round(top * (1 / 3 + ((2 / 3) * i) / (steps - 1)), 3)
    const air = standardAir(site + (at - site) * (mach / top) ** 2)
    return { mach, density: `${round(air.density, 4)} kg/m3`, soundSpeed: `${round(air.soundSpeed, 1)} m/s` }
  })
  choose(
    'flight',
    'Air at each speed',
    `${steps} states up to Mach ${top}`,
    'U.S. Standard Atmosphere, 1976, at the height that boost at constant acceleration gives: (M / top)² of the way to where top speed is reached',
  )
  return { kind: 'states', states }
}

interface Sizes {
  readonly diameter: number
  readonly count: number
  readonly root: number
  readonly tip: number
  readonly span: number
  readonly core: number
}

const sizesOf = (typed: Answers): Sizes => ({
  diameter: siValue('tube.outerDiameter', typed.diameter)!,
  count: Number(typed.finCount),
  root: siValue('fins.outline.root', typed.root)!,
  tip: siValue('fins.outline.tip', typed.tip)!,
  span: siValue('fins.outline.span', typed.span)!,
  core: siValue('fins.core.thickness', typed.coreThickness)!,
})

/**
 * 15 % of the diameter between 4 and 25 mm, at most a quarter of the span, and so small that two fillets leave a fifth of the bay's
 * round between them: sin(0.8 π / N) (R + r) ≥ t/2 + s + r, with 2 mm for the skin s.
 */
function filletRadius({ diameter, count, span, core }: Sizes): number {
  const R = diameter / 2
  const sine = Math.sin((0.8 * Math.PI) / count)
  const room = (sine * R - core / 2 - 2e-3) / (1 - sine)
  const wanted = Math.min(Math.max(0.15 * diameter, 4e-3), 25e-3, span / 4, room)
  return Math.max(roundDown(wanted, 0.5e-3), 1e-3)
}

/** Not where a ply ends: an edge of cloth on the line where the bevel begins is sanded through. */
function bevelWidth({ core, tip, root }: Sizes, step: number): number {
  const wanted = Math.max(Math.min(4 * core, 0.25 * Math.max(tip, root / 4)), 0.5e-3)
  const near = Array.from({ length: 7 }, (_, i) => (i + 1) * step).find((end) => Math.abs(end - wanted) < apart)
  return near === undefined || near <= 2 * apart ? wanted : near - apart
}

/** Of a ply's end and a bevel's line. */
const apart = 3e-3

const landOf = ({ core }: Sizes): number => Math.max(core / 4, 0.1e-3)

/**
 * The roll at hand, unless a piece may be wider than it: cloth is never pieced together in silence. A bay unrolls to at most twice the
 * span and the round between two fins, L, by the fin's own length, W, each with 10 mm of overhang all round; laid at 45° that takes
 * (L + W) / √2 across.
 */
function rollsOf(
  typed: Answers,
  size: Sizes,
  { choose, length }: { choose: Choose; length: (value: number) => string },
): Json {
  const offset = siValue('fins.outline.tipOffset', typed.tipOffset)!
  const along = Math.max(size.root, offset + size.tip) - Math.min(0, offset) + 2 * filletRadius(size)
  const across = 2 * size.span + (Math.PI * size.diameter) / size.count
  const needed = (along + across + 4 * overhang) / Math.SQRT2
  const usable = siValue('stock.rolls[].width', typed.rollWidth)! - 2 * selvedge
  if (usable >= needed)
    return [{ id: 'cloth at hand', cloth: typed.cloth, width: typed.rollWidth, length: typed.rollLength }]
  choose(
    'stock.rolls',
    'Cloth at hand is not counted on',
    `a piece may need ${length(roundUp(needed, 1e-3))} across, your roll gives ${length(Math.max(usable, 0))}`,
    'what to cut is planned on a wider roll, to be bought; or put your roll in on the plan’s page and see whether its pieces fit',
  )
  return []
}

/** Both of the plan's own defaults. */
const overhang = 10e-3
const selvedge = 10e-3

interface Stack {
  readonly count: number
  readonly angles: readonly number[]
  readonly step: number
  readonly short: boolean
  /** g/m², dry, a face. */
  readonly wanted: number
}

function pliesOf(typed: Answers, { root, tip, span }: Sizes): Stack {
  const cloth = cloths[typed.cloth]!
  const mass = cloth.arealMass.value
  const carbon = cloth.fibre.id.startsWith('carbon')
  const wanted = (carbon ? 0.7 : 1) * clothFor(typed.flight === 'demo' ? 1.6 : Number(typed.topMach))
  const count = Math.min(Math.max(Math.round(wanted / mass), 3), 8)
  const angles = Array.from({ length: count }, (_, i) => (Math.min(i, count - 1 - i) % 2 === 0 ? 0 : 45))
  const t = (mass * (1 / cloth.fibre.density.value + 1 / resinSystems[typed.resin]!.density.value)) / (1 - voids)
  const least = roundUp(50 * t, 1e-3)
  const steps = count - 1
  const room = Math.min((0.7 * span) / steps, (0.45 * Math.max(tip, 0.4 * root)) / steps)
  const step = Math.max(Math.min(least, roundDown(room, 0.5e-3)), 0.5e-3)
  return { count, angles, step, short: step < least, wanted: Math.round(wanted * 1e3) }
}

/** Of the plan's own default. */
const voids = 0.02

/** Dry cloth a face, kg/m². Our own proposal, no source: where the demo's margins came out, thinner below it. */
function clothFor(mach: number): number {
  if (mach < 0.8) return 0.4
  if (mach < 1.2) return 0.6
  return mach < 1.6 ? 0.8 : 1
}

const round = (value: number, decimals: number): number => Number(value.toFixed(decimals))
/** To the next whole step, forgiving a millionth of one. */
const roundDown = (value: number, step: number): number => Math.floor(value / step + 1e-6) * step
const roundUp = (value: number, step: number): number => Math.ceil(value / step - 1e-6) * step

const lengthIn =
  (units: Units) =>
  (value: number): string =>
    units === 'metric' ? `${round(value * 1e3, 1)} mm` : `${round(value / 0.0254, 3)} in`
