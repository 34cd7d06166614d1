/** The flight of the plan, in SI: a thrust curve to be flown, a history flown elsewhere, or air states. */
import type { AirState, FlightInput } from '@finwright/core/assess/design.ts'
import type { Column } from '../csv/heading.ts'
import { type PlanTableName, planTables, readPlanTable } from '../csv/plan-tables.ts'
import type { CanPlan } from '../schema/can.ts'
import { type FieldKey, fields } from '../schema/fields.data.ts'
import { sentence, siValue } from '../schema/judge.ts'
import { allKnown, type Loose, listOf, type ReadAttachment, type Report } from './loose.ts'

type Typed<Kind extends FlightInput['kind']> = Loose<Extract<CanPlan['flight'], { kind: Kind }>>

export interface FlightSources {
  readonly attachment: ReadAttachment
  readonly report: Report
}

export function resolveFlight(
  flight: Loose<CanPlan['flight']> | undefined,
  sources: FlightSources,
): Loose<FlightInput> | undefined {
  switch (flight?.kind) {
    case 'thrust':
      return resolveThrust(flight as Typed<'thrust'>, sources)
    case 'history':
      return resolveHistory(flight as Typed<'history'>, sources)
    case 'states':
      return {
        kind: 'states',
        states: resolveStates((flight as Typed<'states'>).states, 'flight.states', sources.report),
      }
    default:
      return undefined
  }
}

function resolveThrust(flight: Typed<'thrust'>, sources: FlightSources): Loose<FlightInput> {
  const [time, thrust] = tableOf(flight.thrust, 'thrust', sources)
  const [mach, coefficient] = tableOf(flight.drag, 'drag', sources)
  return {
    kind: 'thrust',
    time,
    thrust,
    liftOffMass: siValue('flight.liftOffMass', flight.liftOffMass),
    propellantMass: siValue('flight.propellantMass', flight.propellantMass),
    referenceArea: referenceArea(flight, sources.report),
    drag: { mach, coefficient },
    siteAltitude: siValue('flight.siteAltitude', flight.siteAltitude),
    temperatureOffset: siValue('flight.temperatureOffset', flight.temperatureOffset),
  }
}

function referenceArea({ diameter, referenceArea: area }: Typed<'thrust'>, report: Report): number | undefined {
  if (diameter !== undefined && area !== undefined) {
    report({
      code: 'flight/reference-twice',
      path: 'flight.referenceArea',
      value: area,
      message: `The drag coefficient has a reference area, ${area}, and a reference diameter, ${diameter}; it must have one of them.`,
      hint: 'Remove the one that your drag table does not refer to.',
    })
  }
  const d = siValue('flight.diameter', diameter)
  return area !== undefined
    ? siValue('flight.referenceArea', area)
    : d === undefined
      ? undefined
      : (Math.PI * d ** 2) / 4
}

function resolveHistory(flight: Typed<'history'>, sources: FlightSources): Loose<FlightInput> {
  const [time, altitude, speed] = tableOf(flight.history, 'history', sources)
  const temperatureOffset = siValue('flight.temperatureOffset', flight.temperatureOffset)
  return { kind: 'history', time, altitude, speed, temperatureOffset }
}

type Columns = readonly (readonly number[] | undefined)[]

/** A table that stands in the plan as rows, or beside it as a file. */
function tableOf(written: unknown, name: PlanTableName, { attachment, report }: FlightSources): Columns {
  const { columns } = planTables[name]
  const path = planTables[name].path.join('.')
  if (Array.isArray(written)) return listed(written, path, columns, report)
  if (typeof written !== 'string') return []
  const file = attachment(written)
  if (!file.ok) {
    report({
      code: 'csv/unreadable',
      path,
      value: written,
      message: `The file '${written}' cannot be read: ${file.reason}.`,
      hint: 'It must lie beside the plan; check the name.',
    })
    return []
  }
  const table = readPlanTable(name, { name: written, text: file.text })
  table.issues.forEach(report)
  return table.columns ?? []
}

function listed(rows: readonly unknown[], path: string, columns: readonly Column[], report: Report): Columns {
  const lists = columns.map((column, j) =>
    rows.map((row) => siValue(column.field, Array.isArray(row) ? row[j] : undefined)),
  )
  columns.forEach((column, j) => {
    if (column.rising === true) reportFalls(lists[j]!, { path, place: j, field: column.field, rows }, report)
  })
  return lists.map(allKnown)
}

interface ListedColumn {
  readonly path: string
  readonly place: number
  readonly field: FieldKey
  readonly rows: readonly unknown[]
}

function reportFalls(
  values: readonly (number | undefined)[],
  { path, place, field, rows }: ListedColumn,
  report: Report,
): void {
  for (let i = 1; i < values.length; i += 1) {
    const [before, now] = [values[i - 1], values[i]]
    if (before === undefined || now === undefined || now > before) continue
    const written = (rows[i] as readonly unknown[])[place]
    const { label } = fields[field]
    report({
      code: 'flight/not-rising',
      path: `${path}[${i}][${place}]`,
      value: written,
      message: `${sentence(label)} is ${written}, not above the row before; it must rise from row to row.`,
      hint: 'Sort the rows and remove repeated ones.',
    })
  }
}

interface TypedState {
  readonly mach?: number | undefined
  readonly density?: string | undefined
  readonly soundSpeed?: string | undefined
  readonly temperature?: string | undefined
}

/** Ratio of specific heats and gas constant of air: U.S. Standard Atmosphere, 1976 (8314.32 / 28.9644), recalled. */
const gamma = 1.4
const R = 8314.32 / 28.9644

export function resolveStates(
  states: readonly (TypedState | undefined)[] | undefined,
  path: 'flight.states' | 'study.air.states',
  report: Report,
): readonly (Loose<AirState> | undefined)[] | undefined {
  return listOf(states)?.map((state, i) => {
    if (state === undefined) return undefined
    const given = ['soundSpeed', 'temperature'].filter((key) => Object.hasOwn(state, key))
    if (given.length !== 1) report(soundSpeedIssue(`${path}[${i}]`, given.length))
    const T = siValue(`${path}[].temperature`, state.temperature)
    const fromTemperature = T === undefined ? undefined : Math.sqrt(gamma * R * T)
    return {
      mach: siValue(`${path}[].mach`, state.mach),
      density: siValue(`${path}[].density`, state.density),
      soundSpeed: Object.hasOwn(state, 'soundSpeed')
        ? siValue(`${path}[].soundSpeed`, state.soundSpeed)
        : fromTemperature,
    }
  })
}

const soundSpeedIssue = (path: string, given: number) => ({
  code: 'flight/sound-speed',
  path,
  value: given,
  message: `An air state has ${given === 0 ? 'neither a speed of sound nor a temperature' : 'a speed of sound and a temperature'}; it must have one of the two.`,
  hint: 'Write "soundSpeed": "340 m/s" or "temperature": "15 degC".',
})
