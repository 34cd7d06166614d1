/** The fin's outline as a whole: points listed one by one, or a trapezoid by its four dimensions. */
import { z } from 'zod'
import { command, done, noPlace } from '../command.ts'
import { withValue } from '../place.ts'
import type { Json, PlanRecord } from '../record.ts'

const path = ['fins', 'outline']
const typed = z.string().max(200)
const footprint = () => ({ values: [path], orders: [] })

const withOutline = (record: PlanRecord, outline: Json) => {
  const plan = withValue(record.plan, path, outline)
  return plan.ok ? done(record, plan.value, [{ kind: 'value', path }]) : noPlace(plan)
}

const pointsShape = z.strictObject({
  points: z.array(z.tuple([typed, typed])).max(500),
  edges: z
    .array(z.enum(['leading', 'tip', 'trailing']))
    .max(500)
    .optional(),
})
const pointsOf = ({ points, edges }: z.infer<typeof pointsShape>): Json =>
  edges === undefined ? { kind: 'points', points } : { kind: 'points', points, edges }

const trapezoidShape = z.strictObject({ root: typed, tip: typed, span: typed, tipOffset: typed })
const trapezoidOf = (dimensions: z.infer<typeof trapezoidShape>): Json => ({ kind: 'trapezoid', ...dimensions })

export const setPoints = command({
  payload: pointsShape,
  label: () => 'outline of the fin',
  footprint,
  writes: pointsOf,
  apply: (payload, record) => withOutline(record, pointsOf(payload)),
})

export const setTrapezoid = command({
  payload: trapezoidShape,
  label: () => 'outline of the fin',
  footprint,
  writes: trapezoidOf,
  apply: (payload, record) => withOutline(record, trapezoidOf(payload)),
})
