/**
 * The answer to each question in words, first line of every page and of the summary on the command line. Nothing here says
 * that a rocket is safe; a verdict that was not reached is said as that.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { figuresIn, plain, type UnitSystem } from './layout/figures.ts'

export interface Answer {
  readonly question: string
  readonly answer: string
}

export function answersIn(assessment: Assessment, units: UnitSystem): readonly Answer[] {
  const { kind } = assessment
  const asked: readonly (readonly [string, string | null])[] = [
    ['What will it see?', seen(assessment, units)],
    ['Will it hold?', [flutterHolds(assessment, units), strengthHolds(assessment, units)].filter(Boolean).join(' ')],
    ['What is it?', built(assessment, units)],
    ['What do I cut?', kind === 'can' ? cut(assessment, units) : null],
    ['What do I mix, and when?', kind === 'can' ? mix(assessment) : null],
  ]
  return asked.flatMap(([question, answer]) => (answer === null || answer === '' ? [] : [{ question, answer }]))
}

function seen({ flight }: Assessment, units: UnitSystem): string | null {
  const { maximumMach, maximumDynamicPressure_Pa, maximumAltitude_m, at, recovery } = flight
  if (maximumMach === null) return null
  const { pressure, distance, temperature } = figuresIn(units)
  const when = at === null ? '' : `, ${plain(at.maximumMach_s, 1)} s after ignition`
  const worst = `Up to Mach ${plain(maximumMach, 2)}${when}; dynamic pressure up to ${pressure(maximumDynamicPressure_Pa)}.`
  const height = maximumAltitude_m === null ? '' : ` Highest point ${distance(maximumAltitude_m)} above sea level.`
  const heat =
    recovery === null || recovery.secondsAbove === 0
      ? ''
      : ` Air at the skin recovers to ${temperature(recovery.temperature_K)}, above the resin's glass transition for ${plain(recovery.secondsAbove, 1)} s.`
  return worst + height + heat
}

function flutterHolds({ flutter, structure, kind }: Assessment, units: UnitSystem): string {
  const { margin, screening, boundary } = flutter
  const first = structure.modes[0]
  const held = structure.root?.modes_Hz[0]
  const onCan = held === undefined ? '' : `on its can ${hertz(held)}, clamped `
  const modes = first === undefined ? '' : ` First mode ${onCan}${hertz(first.frequency_Hz)} (${first.kind}).`
  if (kind === 'study' && boundary.length === 0) return `No air stream was given.${modes}`
  if (margin.verdict === 'not determined' || margin.speedRatio === null) {
    const hint =
      screening === null
        ? ''
        : ` The screening number, which is experience and no verdict, is ${plain(screening.speedRatio, 2)} times the flight speed (${plain(screening.printedLine.speed_m_s / (screening.speed_m_s / screening.speedRatio), 2)} by the published line).`
    return `Flutter is not determined over the whole flight, which is not a pass.${hint}${modes}`
  }
  const verdict = margin.verdict === 'holds' ? 'Holds by computation' : 'Does not hold'
  const where =
    margin.at === null
      ? ''
      : `, least at Mach ${plain(margin.at.mach, 2)}, ${figuresIn(units).distance(margin.at.altitude_m)}`
  const what = margin.kind === 'divergence' ? 'divergence' : 'flutter'
  const goes = margin.mode === null ? '' : ` Goes first: ${margin.mode.name}.`
  return `${verdict}: ${what} at ${plain(margin.speedRatio, 2)} times the flight speed (${plain(margin.requiredRatio, 2)} is asked for)${where}.${goes}${modes}`
}

const hertz = (f: number): string => `${plain(f, f < 10 ? 2 : 0)} Hz`

function strengthHolds({ strength, bond }: Assessment, units: UnitSystem): string {
  const { failureIndex, ply, load } = strength
  if (failureIndex === null || load === null) return ''
  const { force } = figuresIn(units)
  const times = plain(1 / failureIndex, 1)
  const { joint, margin } = bond
  const bonded =
    joint === null || margin === null
      ? ''
      : ` The root joint bears ${plain(margin + 1, 1)} times it, weakest in the ${joint.worst.mode}.`
  return `Strength: the first ply to fail (${ply}) does so at ${times} times the worst air load of ${force(load.force_N)} at ${plain(load.angleOfAttack_deg, 1)}° angle of attack.${bonded}`
}

function built({ fin, kind }: Assessment, units: UnitSystem): string | null {
  const { grams, length, area } = figuresIn(units)
  if (fin.mass_kg === null || fin.thickness_m.root === null) return null
  const what = kind === 'can' ? 'One finished fin' : 'The plate'
  const thick =
    fin.thickness_m.tip === fin.thickness_m.root
      ? `${length(fin.thickness_m.root)} thick`
      : `${length(fin.thickness_m.root)} thick at the root and ${length(fin.thickness_m.tip)} at the tip`
  return `${what}: ${grams(fin.mass_kg)}, ${area(fin.area_m2)}, ${thick}.`
}

function cut({ pattern, nest }: Assessment, units: UnitSystem): string {
  const { distance } = { distance: (m: number) => (units === 'us' ? `${plain(m / 0.9144, 2)} yd` : `${plain(m, 2)} m`) }
  const used = nest.rolls
    .filter(({ availableLength_m }) => availableLength_m !== null)
    .map(({ clothName, usedLength_m }) => `${distance(usedLength_m)} of ${clothName}`)
  const cloth = used.length === 0 ? '' : ` Takes ${listed(used)}.`
  const buy = nest.buy.map(({ clothName, length_m }) => `${distance(length_m)} of ${clothName}`)
  const short = buy.length === 0 ? ' The cloth in stock is enough.' : ` To buy: ${listed(buy)}.`
  const filled =
    used.length > 0 && nest.searchBudget === 0 && !nest.kept ? ' Filled only: a thorough nest may take less.' : ''
  const rules = pattern.rules.length === 0 ? '' : ` The schedule breaks ${count(pattern.rules.length, 'rule')}.`
  return `${count(pattern.pieces.length, 'piece')} in ${count(pattern.shapes.length, 'shape')}.${cloth}${short}${filled}${rules}`
}

function mix({ resin }: Assessment): string | null {
  const { batches, cloth_kg, resin_kg, hardener_kg, kit, ratio } = resin
  if (cloth_kg === null || resin_kg === null || hardener_kg === null || batches.length === 0) return null
  const { grams } = figuresIn('metric')
  const spare = Math.min(...batches.map(({ spare_min }) => spare_min))
  const by = ratio === null ? '' : `, weighed at 100 to ${plain(100 * ratio.hardenerPerResin, 1)} by mass`
  const mixed = `A bay takes ${grams(cloth_kg)} of cloth and ${grams(resin_kg + hardener_kg)} of mix in ${count(batches.length, 'batch', 'batches')}${by}; ${plain(spare, 0)} min to spare.`
  if (kit === null) return mixed
  const stock =
    kit.short_kg > 0
      ? `The kit is short by ${grams(kit.short_kg)}: it covers ${count(kit.cansCovered, 'can')}.`
      : 'The kit is enough for every can.'
  return `${mixed} ${stock}`
}

const count = (n: number, one: string, many = `${one}s`): string => `${n} ${n === 1 ? one : many}`

const listed = (items: readonly string[]): string =>
  items.length < 2 ? items.join('') : `${items.slice(0, -1).join(', ')} and ${items.at(-1)}`
