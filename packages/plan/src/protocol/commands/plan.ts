/** The plan as a whole: its name, its display units, or another plan in its place (import, an earlier revision). */
import { z } from 'zod'
import { command, done, noPlace } from '../command.ts'
import { withValue } from '../place.ts'
import { type Json, objectShape, type PlanRecord } from '../record.ts'
import { fileShape } from './file.ts'

const withHeading = (record: PlanRecord, name: string, value: Json) => {
  const plan = withValue(record.plan, [name], value)
  return plan.ok ? done(record, plan.value, [{ kind: 'value', path: [name] }]) : noPlace(plan)
}

export const rename = command({
  payload: z.strictObject({ name: z.string().max(200) }),
  label: () => 'name of the plan',
  footprint: () => ({ values: [['name']], orders: [] }),
  writes: ({ name }) => name,
  apply: ({ name }, record) => withHeading(record, 'name', name),
})

export const setUnits = command({
  payload: z.strictObject({ units: z.enum(['metric', 'us']) }),
  label: ({ units }) => (units === 'us' ? 'shown in US units' : 'shown in metric units'),
  footprint: () => ({ values: [['units']], orders: [] }),
  writes: ({ units }) => units,
  apply: ({ units }, record) => withHeading(record, 'units', units),
})

export const replacePlan = command({
  payload: z.strictObject({
    plan: objectShape,
    files: z.record(z.string().min(1).max(200), fileShape).optional(),
    why: z.string().max(120).optional(),
  }),
  label: ({ why }) => why ?? 'another plan in its place',
  footprint: ({ files }) => ({ values: [[]], orders: [], files: Object.keys(files ?? {}) }),
  apply: ({ plan, files }, record) => {
    const names = files === undefined ? [] : [...new Set([...Object.keys(record.files), ...Object.keys(files)])]
    const changes = [{ kind: 'value', path: [] } as const, ...names.map((name) => ({ kind: 'file', name }) as const)]
    return done({ ...record, files: files ?? record.files }, plan, changes)
  },
})
