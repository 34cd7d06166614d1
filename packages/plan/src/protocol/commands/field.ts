/** One field of the plan set as typed, or left out again so that its default holds. */
import { z } from 'zod'
import { fieldAt, type Path, pathText } from '../../schema/locate.ts'
import { command, done, noPlace } from '../command.ts'
import { withoutValue, withValue } from '../place.ts'
import { jsonShape, placeShape } from '../record.ts'

export const setField = command({
  payload: z.strictObject({ path: placeShape.min(1), value: jsonShape }),
  label: ({ path }) => fieldName(path),
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
  label: ({ path }) => `${fieldName(path)}, back to the default`,
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

/** `ply 3: step back at the tip`. */
export function fieldName(path: Path): string {
  const name = fieldAt(path)?.label ?? pathText(path)
  return path[0] === 'plies' && typeof path[1] === 'number' && path.length > 2 ? `ply ${path[1] + 1}: ${name}` : name
}
