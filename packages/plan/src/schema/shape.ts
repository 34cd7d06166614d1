/**
 * The shape of a plan checked: every fault as an issue, and what remains with the faulty values taken out, so that the
 * checks across fields can still run on the rest.
 */
import type { Issue } from '@finwright/core/issue.ts'
import type { z } from 'zod'
import { writeLike } from '../quantity/parse.ts'
import { quantities } from '../quantity/quantities.data.ts'
import { suggestion } from '../text/nearest.ts'
import { canPlan } from './can.ts'
import { judge, limitsText, shown } from './judge.ts'
import { knownKeys } from './keys.ts'
import { fieldAt, type Path, pathText, valueAt } from './locate.ts'
import { studyPlan } from './study.ts'

export interface Shape {
  readonly kind: 'can' | 'study'
  readonly issues: readonly Issue[]
  /** The plan without what is at fault: those keys stand with `undefined`, so that no default takes their place. */
  readonly sound: unknown
}

type Fault = z.core.$ZodIssue

export function checkShape(plan: unknown): Shape {
  const kind = typeof plan === 'object' && plan !== null && Object.hasOwn(plan, 'study') ? 'study' : 'can'
  const read = (kind === 'study' ? studyPlan : canPlan).safeParse(plan)
  if (read.success) return { kind, issues: [], sound: plan }
  const faults = read.error.issues.flatMap((fault) => spread(fault, [], plan))
  const issues = faults.map((fault) => issueOf(fault, plan, kind))
  return { kind, issues: unique(issues), sound: without(plan, faults) }
}

/** A union's faults are those of the member that was meant; an object's unknown keys are told one by one. */
function spread(fault: Fault, above: Path, plan: unknown): readonly Fault[] {
  const path = [...above, ...(fault.path as (string | number)[])]
  if (fault.code === 'unrecognized_keys') {
    return fault.keys.map((key) => ({ ...fault, keys: [key], path: [...path, key] }))
  }
  const whole = fieldAt(path) !== null || valueAt(plan, path) === undefined
  if (fault.code !== 'invalid_union' || fault.errors.length === 0 || whole) return [{ ...fault, path }]
  const fits = (member: readonly Fault[]): boolean =>
    !member.some((one) => one.path.length === 0 && one.code === 'invalid_type')
  const meant = fault.errors.filter(fits).sort((a, b) => a.length - b.length)[0]
  return meant === undefined ? [{ ...fault, path }] : meant.flatMap((one) => spread(one, path, plan))
}

function issueOf(fault: Fault, plan: unknown, kind: 'can' | 'study'): Issue {
  const path = fault.path as Path
  const value = valueAt(plan, path)
  const issue = (code: string, message: string, hint: string): Issue => ({
    code,
    path: pathText(path),
    value,
    message,
    hint,
  })
  const name = path.length === 0 ? 'the plan' : `'${path.at(-1)}'`
  if (fault.code === 'unrecognized_keys') return unknownKey(path, value, kind)
  const field = fieldAt(path)
  if (value === undefined) return missing(path)
  if (field !== null) {
    const verdict = judge(field, value)
    if (verdict !== null) return issue(verdict.code, verdict.message, verdict.hint)
  }
  switch (fault.code) {
    case 'invalid_value':
      return issue(
        'plan/choice',
        `${name} is ${shown(value)}; it must be one of ${choices(fault.values)}.`,
        choiceHint(value, fault.values),
      )
    case 'invalid_union': {
      const options = (fault as { options?: readonly unknown[] }).options
      if (options !== undefined) {
        return issue(
          'plan/choice',
          `${name} is ${shown(value)}; it must be one of ${choices(options)}.`,
          choiceHint(value, options),
        )
      }
      return issue(
        'plan/wrong-type',
        `${name} is ${shown(value)}; it must be ${expectations(fault)}.`,
        'Write it in one of these forms.',
      )
    }
    case 'invalid_type':
      return issue(
        'plan/wrong-type',
        `${name} is ${shown(value)}; it must be ${typeName(fault.expected)}.`,
        `Replace it by ${typeName(fault.expected)}.`,
      )
    case 'too_small':
    case 'too_big':
      return issue(...sizeFault(fault, name, value))
    case 'invalid_format':
      return issue(
        'plan/wrong-form',
        `${name} is ${shown(value)}; it must be a single capital letter, A to Z.`,
        'Letter the cans A, B, C.',
      )
    default:
      return issue(
        'plan/wrong-type',
        `${name} is ${shown(value)}; that is not allowed here.`,
        'See the manual of the plan file.',
      )
  }
}

function sizeFault(
  fault: Fault & { code: 'too_small' | 'too_big' },
  name: string,
  value: unknown,
): [string, string, string] {
  const bound = fault.code === 'too_small' ? `at least ${fault.minimum}` : `at most ${fault.maximum}`
  const list = Array.isArray(value)
  const has = list ? `has ${value.length} entries` : `is ${shown(value)}`
  const unit = list ? 'entries' : 'characters'
  const hint = fault.code === 'too_small' ? `Add what is missing.` : 'Shorten it.'
  return [
    fault.code === 'too_small' ? 'plan/too-few' : 'plan/too-many',
    `${name} ${has}; it must have ${bound} ${unit}.`,
    hint,
  ]
}

function missing(path: Path): Issue {
  const field = fieldAt(path)
  const what = field === null ? `'${path.at(-1)}'` : field.label
  const allowed = field === null ? '' : ` ${limitsText(field)}`
  return {
    code: 'plan/missing',
    path: pathText(path),
    value: undefined,
    message: `${what} is missing; it must be given.${allowed}`,
    hint: field === null ? `Add ${pathText(path)}.` : writeLike(quantities[field.quantity]),
  }
}

function unknownKey(path: Path, value: unknown, kind: 'can' | 'study'): Issue {
  const key = String(path.at(-1))
  const other = kind === 'study' ? canPlan : studyPlan
  const mixed = path.length === 1 && Object.hasOwn(other.shape, key)
  const base = { path: pathText(path), value }
  if (mixed) {
    return {
      ...base,
      code: 'plan/mixed',
      message: `The plan has both 'study' and '${key}'; it must be either a can or a study.`,
      hint: `Remove 'study', or move '${key}' to a plan of its own.`,
    }
  }
  const where = path.length === 1 ? 'the plan' : `'${pathText(path.slice(0, -1))}'`
  const known = knownKeys(kind === 'study' ? studyPlan : canPlan, path.slice(0, -1))
  return {
    ...base,
    code: 'plan/unknown-key',
    message: `'${key}' is not known in ${where}; allowed there: ${known.join(', ')}.`,
    hint: suggestion(key, known),
  }
}

const choices = (values: readonly unknown[]): string => values.map((value) => JSON.stringify(value)).join(', ')

const choiceHint = (value: unknown, values: readonly unknown[]): string =>
  typeof value === 'string' ? suggestion(value, values.map(String)) : `Choose one of: ${values.map(String).join(', ')}.`

const typeNames: Readonly<Record<string, string>> = {
  string: 'a text in quotes',
  number: 'a number without quotes',
  boolean: 'true or false',
  array: 'a list in [ ]',
  tuple: 'a list in [ ]',
  object: 'an object in { }',
  record: 'an object in { }',
}
const typeName = (expected: string): string => typeNames[expected] ?? expected

function expectations(fault: Fault & { code: 'invalid_union' }): string {
  const types = fault.errors.flatMap((member) =>
    member.flatMap((one) => (one.code === 'invalid_type' ? [typeName(one.expected)] : [])),
  )
  return [...new Set(types)].join(' or ')
}

/** A copy in which every faulty place holds undefined; an unknown key goes altogether. */
function without(plan: unknown, faults: readonly Fault[]): unknown {
  const copy: unknown = structuredClone(plan)
  for (const fault of faults) {
    const path = fault.path as Path
    if (path.length === 0) return undefined
    const parent = valueAt(copy, path.slice(0, -1))
    if (typeof parent !== 'object' || parent === null) continue
    const key = path.at(-1)!
    if (fault.code === 'unrecognized_keys') delete (parent as Record<string, unknown>)[key]
    else (parent as Record<string | number, unknown>)[key] = undefined
  }
  return copy
}

function unique(issues: readonly Issue[]): Issue[] {
  const seen = new Set<string>()
  return issues.filter(({ code, path }) => {
    const key = `${code} ${path}`
    return seen.has(key) ? false : seen.add(key) !== undefined
  })
}
