/**
 * A command applied to a record: the new record, or every reason why not. A record's fields are readable each by itself at
 * all times; what contradicts between fields is allowed in and told by the plan reader, or nobody could get from one good
 * plan to another through fields that belong together.
 */
import type { Issue } from '@finwright/core/issue.ts'
import { checkShape } from '../schema/shape.ts'
import { suggestion } from '../text/nearest.ts'
import type { Applied, Bind, Bound } from './command.ts'
import { commands } from './commands.ts'
import type { PlanRecord } from './record.ts'

export interface NamedCommand {
  readonly name: string
  readonly payload: unknown
}

export type ApplyOutcome =
  | ({ readonly ok: true; readonly label: string } & Applied)
  | { readonly ok: false; readonly issues: readonly Issue[] }

export function bindCommand({ name, payload }: NamedCommand): Bind {
  if (!Object.hasOwn(commands, name)) return { ok: false, issues: [unknownCommand(name)] }
  return commands[name as keyof typeof commands].bind(payload)
}

export function applyCommand(command: NamedCommand, record: PlanRecord): ApplyOutcome {
  const read = bindCommand(command)
  return read.ok ? applyBound(read.bound, record) : read
}

export function applyBound(bound: Bound, record: PlanRecord): ApplyOutcome {
  const made = bound.apply(record)
  if (!made.ok) return made
  const issues = recordIssues(made.record)
  return issues.length > 0 ? { ok: false, issues } : { ...made, label: bound.label(record) }
}

/** What keeps a record from being kept: a field that cannot be read, a name that is not known. */
export function recordIssues({ kind, plan }: PlanRecord): readonly Issue[] {
  if (kind === 'plan') return checkShape(plan).issues
  const strangers = Object.keys(plan).filter((name) => name !== 'stock')
  if (strangers.length > 0) return [notOnShelf(strangers[0]!)]
  return checkShape(plan).issues.filter(({ path }) => path === 'stock' || path.startsWith('stock.'))
}

const unknownCommand = (name: string): Issue => ({
  code: 'command/unknown',
  path: 'name',
  value: name.slice(0, 60),
  message: `There is no command '${name.slice(0, 60)}'.`,
  hint: suggestion(name.slice(0, 60), Object.keys(commands)),
})

const notOnShelf = (name: string): Issue => ({
  code: 'command/not-on-shelf',
  path: name,
  value: name,
  message: `'${name}' is no part of the shelf; it has 'stock' and nothing else.`,
  hint: 'Change the plan itself instead.',
})
