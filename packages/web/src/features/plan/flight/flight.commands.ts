/** What the flight's controls put in: a file attached and named, rows taken into the plan, another kind of flight. Pure. */
import { type PlanTableName, planRows, planTables, readPlanTable } from '@finwright/plan/csv/plan-tables.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import type { FileReference, Json, JsonObject } from '@finwright/plan/protocol/record.ts'
import type { UnitSystem } from '@finwright/plan/quantity/format.ts'
import { mostRowsInPlan } from '@finwright/plan/schema/can.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'

export type FlightKind = 'thrust' | 'history' | 'states'

/** A name that no other file beside the plan has, unless that is the one this table already names. */
export function fileNameFor(name: PlanTableName, wanted: string, { plan, files }: Beside): string {
  const clean = wanted
    .replace(/[/\\:*?"<>|]/g, '-')
    .replace(/^\.+/, '')
    .trim()
    .slice(0, 100)
  const usual = clean === '' ? `${name}.csv` : clean
  const present = valueAt(plan, planTables[name].path)
  const taken = (text: string): boolean => Object.hasOwn(files, text) && text !== present
  if (!taken(usual)) return usual
  const [stem, ending] = [usual.replace(/\.[^.]*$/, ''), /\.[^.]*$/.exec(usual)?.[0] ?? '']
  for (let n = 2; ; n += 1) if (!taken(`${stem} ${n}${ending}`)) return `${stem} ${n}${ending}`
}

export interface Beside {
  readonly plan: JsonObject
  readonly files: Readonly<Record<string, FileReference>>
}

/** The file beside the plan, and the table that names it; two commands of one gesture. */
export function attachIntents(name: PlanTableName, file: string, reference: FileReference): readonly Intent[] {
  return [
    { name: 'files.attach', payload: { name: file, file: reference } },
    { name: 'field.set', payload: { path: [...planTables[name].path], value: file } },
  ]
}

/** The file's rows in the plan, in the file's own units; null where it cannot be read or is too long. */
export function rowsIntent(name: PlanTableName, text: string, units: UnitSystem): Intent | null {
  const { columns, units: own } = readPlanTable(name, { name: '', text })
  const count = columns?.[0]?.length ?? 0
  if (columns === undefined || count > mostRowsInPlan) return null
  const rows = planRows(name, columns, own.length > 0 ? own : units)
  return { name: 'field.set', payload: { path: [...planTables[name].path], value: rows as Json } }
}

/** Between two rows half-way, after the last one a step further: a place to type over. */
export function rowBetween(rows: readonly (readonly (string | number)[])[], at: number): (string | number)[] {
  const [before, after] = [rows[at - 1], rows[at]]
  if (before === undefined) return [...(after ?? [])]
  if (after !== undefined) return before.map((cell, j) => middle(cell, after[j]!, 0.5))
  const earlier = rows[at - 2]
  return before.map((cell, j) => (j === 0 && earlier !== undefined ? middle(earlier[j]!, cell, 2) : cell))
}

/** A share of the way from one to the other, in the unit and to the decimals of the first; the first where units differ. */
function middle(a: string | number, b: string | number, share: number): string | number {
  if (typeof a === 'number' && typeof b === 'number') return Number((a + (b - a) * share).toPrecision(9))
  const [from, to] = [parts(a), parts(b)]
  if (from === null || to === null || from.unit !== to.unit) return a
  return `${Number((from.value + (to.value - from.value) * share).toPrecision(9))} ${from.unit}`
}

function parts(cell: string | number): { readonly value: number; readonly unit: string } | null {
  const match = /^([+-]?[\d.]+(?:e[+-]?\d+)?)\s*(.+)$/i.exec(String(cell))
  return match === null || !Number.isFinite(Number(match[1])) ? null : { value: Number(match[1]), unit: match[2]! }
}

/** What is typed of a flight that is to be flown here. */
export interface ThrustParts {
  readonly liftOffMass: string
  readonly propellantMass: string
  readonly drag: string
}

/** The whole flight in place of the one before; what both kinds have is kept. */
export function thrustFlight(
  file: string,
  { liftOffMass, propellantMass, drag }: ThrustParts,
  plan: JsonObject,
): Intent {
  const coefficient = /^\d*\.?\d+$/.test(drag.trim()) ? Number(drag) : drag
  const diameter = valueAt(plan, ['tube', 'outerDiameter'])
  return flightIntent({
    kind: 'thrust',
    thrust: file,
    liftOffMass,
    propellantMass,
    ...(typeof diameter === 'string' ? { diameter } : {}),
    drag: [[0, coefficient]],
    ...kept(plan),
  })
}

export const historyFlight = (file: string, plan: JsonObject): Intent =>
  flightIntent({ kind: 'history', history: file, ...kept(plan) })

/** One state to begin with: Mach 1 in the air of sea level, U.S. Standard Atmosphere, 1976. */
export const statesFlight = (): Intent =>
  flightIntent({ kind: 'states', states: [{ mach: 1, density: '1.225 kg/m3', temperature: '15 degC' }] })

const flightIntent = (flight: JsonObject): Intent => ({
  name: 'field.set',
  payload: { path: ['flight'], value: flight },
})

function kept(plan: JsonObject): JsonObject {
  const offset = valueAt(plan, ['flight', 'temperatureOffset'])
  return typeof offset === 'string' ? { temperatureOffset: offset } : {}
}
