/** One field of the plan set as typed, or left out again so that its default holds. */
import { z } from 'zod'
import { fieldAt, type Path, pathText } from '../../schema/locate.ts'
import { command, done, noPlace } from '../command.ts'
import { withoutValue, withValue } from '../place.ts'
import { jsonShape, type PlanRecord, placeShape } from '../record.ts'
import { canName, plyName } from './names.ts'

export const setField = command({
  payload: z.strictObject({ path: placeShape.min(1), value: jsonShape }),
  label: ({ path }, record) => fieldName(path, record),
  footprint: ({ path }) => ({ values: [path], orders: [] }),
  writes: ({ value }) => value,
  apply: ({ path, value }, record) => {
    const plan = withValue(record.plan, path, value)
    return plan.ok ? done(record, plan.value, [{ kind: 'value', path }]) : noPlace(plan)
  },
  carry: ({ path, value }, carry) => {
    const place = carry(path)
    return place === null ? null : { path: [...place], value }
  },
})

export const clearField = command({
  payload: z.strictObject({ path: placeShape.min(1) }),
  label: ({ path }, record) => `${fieldName(path, record)}, back to the default`,
  footprint: ({ path }) => ({ values: [path], orders: [] }),
  apply: ({ path }, record) => {
    const plan = withoutValue(record.plan, path)
    return plan.ok ? done(record, plan.value, [{ kind: 'value', path }]) : noPlace(plan)
  },
  carry: ({ path }, carry) => {
    const place = carry(path)
    return place === null ? null : { path: [...place] }
  },
})

/** `P3: step back from the tip`. */
function fieldName(path: Path, record: PlanRecord): string {
  const name = fieldAt(path)?.label ?? pathText(path)
  const [list, at] = path
  if (typeof at !== 'number' || path.length < 3) return name
  const entry = list === 'plies' ? plyName(record, at) : list === 'cans' ? canName(record, at) : undefined
  if (entry === undefined) return name
  return `${entry}: ${fieldAt(path) === null ? path.slice(2).join(', ') : name}`
}
