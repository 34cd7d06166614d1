/**
 * Commands on the entries of one list: put in, take out, move, duplicate. Places count from 0. They carry no places over
 * what another window did: two changes of one list's order always meet (`rebase.ts`).
 */
import { z } from 'zod'
import { type Path, pathText, valueAt } from '../../schema/locate.ts'
import { type Change, inserted, moved, removed } from '../change.ts'
import { type Command, command, done, noPlace, type Outcome, refused } from '../command.ts'
import { withList, withValue } from '../place.ts'
import { type Json, type JsonObject, objectShape, type PlanRecord } from '../record.ts'

interface ListOf {
  readonly path: Path
  /** `ply`. */
  readonly one: string
  /** What an entry that stands there is called everywhere else, where it has a name: `P3`, `can B`. */
  readonly named?: (record: PlanRecord, at: number) => string | undefined
}

/** An object, or a row of a table. */
export type Entry = JsonObject | readonly (string | number)[]

export interface ListCommands<E extends Entry = JsonObject> {
  readonly insert: Command<{ at: number; entry: E }>
  readonly remove: Command<{ at: number }>
  readonly move: Command<{ from: number; to: number }>
  readonly duplicate: Command<{ at: number }>
}

const place = z.int().min(0).max(1000)

const rowShape = z.array(z.union([z.string().max(200), z.number()])).max(12)

export const listCommands = (of: ListOf): ListCommands => commandsOn(of, objectShape)

/** Of a table whose rows stand as lists. */
export const rowCommands = (of: ListOf): ListCommands<readonly (string | number)[]> => commandsOn(of, rowShape)

function commandsOn<E extends Entry>({ path, one, named }: ListOf, entryShape: z.ZodType<E>): ListCommands<E> {
  const numbered = (at: number): string => `${one} ${at + 1}`
  const name = (record: PlanRecord, at: number): string => named?.(record, at) ?? numbered(at)
  const order = { orders: [path] }
  return {
    insert: command({
      payload: z.strictObject({ at: place, entry: entryShape }),
      label: ({ at }) => (named === undefined ? `${numbered(at)} put in` : `${one} put in at place ${at + 1}`),
      footprint: () => ({ ...order, values: [] }),
      apply: ({ at, entry }, record) => {
        if (valueAt(record.plan, path) === undefined && at === 0) return first(record, path, entry as Json)
        return listed(record, path, one, { at, last: 0 }, (list) => ({
          list: [...list.slice(0, at), entry as Json, ...list.slice(at)],
          change: inserted(path, list.length, at),
        }))
      },
    }),
    remove: command({
      payload: z.strictObject({ at: place }),
      label: ({ at }, record) => `${name(record, at)} taken out`,
      footprint: ({ at }) => ({ ...order, values: [[...path, at]] }),
      apply: ({ at }, record) =>
        listed(record, path, one, { at, last: 1 }, (list) => ({
          list: list.filter((_, i) => i !== at),
          change: removed(path, list.length, at),
        })),
    }),
    move: command({
      payload: z.strictObject({ from: place, to: place }),
      label: ({ from, to }, record) => `${name(record, from)} moved to place ${to + 1}`,
      footprint: () => ({ ...order, values: [] }),
      apply: ({ from, to }, record) =>
        listed(record, path, one, { at: Math.max(from, to), last: 1 }, (list) => {
          const rest = list.filter((_, i) => i !== from)
          return {
            list: [...rest.slice(0, to), list[from]!, ...rest.slice(to)],
            change: moved(path, list.length, from, to),
          }
        }),
    }),
    duplicate: command({
      payload: z.strictObject({ at: place }),
      label: ({ at }, record) => `${name(record, at)} duplicated`,
      footprint: () => ({ ...order, values: [] }),
      apply: ({ at }, record) =>
        listed(record, path, one, { at, last: 1 }, (list) => ({
          list: [...list.slice(0, at + 1), list[at]!, ...list.slice(at + 1)],
          change: inserted(path, list.length, at + 1),
        })),
    }),
  }
}

/** A list that was left out so far. */
function first(record: PlanRecord, path: Path, entry: Json): Outcome {
  const plan = withValue(record.plan, path, [entry])
  return plan.ok ? done(record, plan.value, [{ kind: 'value', path }]) : noPlace(plan)
}

/** The place asked for must be one of the list's, or with `last` 0 the one after its end. */
function listed(
  record: PlanRecord,
  path: Path,
  one: string,
  { at, last }: { readonly at: number; readonly last: 0 | 1 },
  change: (list: readonly Json[]) => { readonly list: readonly Json[]; readonly change: Change },
): Outcome {
  const list = valueAt(record.plan, path)
  if (!Array.isArray(list)) return noPlace({ ok: false, at: path })
  if (at > list.length - last) {
    return refused({
      code: 'command/no-entry',
      path: pathText(path),
      value: at,
      message: `There is no ${one} at place ${at + 1}; the list has ${list.length}.`,
      hint: 'Look at the list again: it may have become shorter.',
    })
  }
  const made = change(list as readonly Json[])
  const plan = withList(record.plan, path, () => made.list)
  return plan.ok ? done(record, plan.value, [made.change]) : noPlace(plan)
}
