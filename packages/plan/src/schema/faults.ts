/** A fault that the validator found, told as an issue: what stands there, what is allowed, what to do. */
import type { Issue } from '@finwright/core/issue.ts'
import type { z } from 'zod'
import { writeLike } from '../quantity/parse.ts'
import { quantities } from '../quantity/quantities.data.ts'
import { suggestion } from '../text/nearest.ts'
import { canPlan } from './can.ts'
import { judge, limitsText, sentence, shown } from './judge.ts'
import { knownKeys } from './keys.ts'
import { fieldAt, type Path, pathText, valueAt } from './locate.ts'
import { studyPlan } from './study.ts'

export type Fault = z.core.$ZodIssue
export type PlanKind = 'can' | 'study'

export function issueOf(fault: Fault, plan: unknown, kind: PlanKind): Issue {
  const path = fault.path as Path
  const value = valueAt(plan, path)
  const at = { path: pathText(path), value }
  if (fault.code === 'unrecognized_keys') return { ...at, ...unknownKey(path, kind, valueAt(plan, path.slice(0, -1))) }
  if (value === undefined) return { ...at, ...missing(path, fault) }
  const field = fieldAt(path)
  const verdict = field === null ? null : judge(field, value)
  return { ...at, ...(verdict ?? wrongShape(fault, path, value)) }
}

type Told = Pick<Issue, 'code' | 'message' | 'hint'>

function unknownKey(path: Path, kind: PlanKind, owner: unknown): Told {
  const key = String(path.at(-1))
  const other = kind === 'study' ? canPlan : studyPlan
  if (path.length === 1 && Object.hasOwn(other.shape, key)) {
    return {
      code: 'plan/mixed',
      message: `The plan has both 'study' and '${key}'; it must be either a can or a study.`,
      hint: `Remove 'study', or move '${key}' to a plan of its own.`,
    }
  }
  const where = path.length === 1 ? 'the plan' : `'${pathText(path.slice(0, -1))}'`
  const known = knownKeys(kind === 'study' ? studyPlan : canPlan, path.slice(0, -1), owner)
  return {
    code: 'plan/unknown-key',
    message: `'${key}' is not known in ${where}; allowed there: ${known.join(', ')}.`,
    hint: suggestion(key, known),
  }
}

function missing(path: Path, fault: Fault): Told {
  const field = fieldAt(path)
  if (field === null) {
    const message = `'${path.at(-1)}' is missing; it must be ${wanted(fault)}.`
    return { code: 'plan/missing', message, hint: `Add ${pathText(path)}.` }
  }
  const message = `${sentence(field.label)} is missing; it must be given. ${limitsText(field)}`
  return { code: 'plan/missing', message, hint: writeLike(quantities[field.quantity]) }
}

function wrongShape(fault: Fault, path: Path, value: unknown): Told {
  const name = path.length === 0 ? 'The plan' : `'${path.at(-1)}'`
  const message = `${name} is ${shown(value)}; it must be ${wanted(fault)}.`
  const options = optionsOf(fault)
  if (options !== undefined)
    return { code: 'plan/choice', message, hint: suggestion(String(value), options.map(String)) }
  if (fault.code === 'too_small' || fault.code === 'too_big') return wrongSize(fault, name, value)
  if (fault.code === 'invalid_format') return { code: 'plan/wrong-form', message, hint: 'Letter the cans A, B, C.' }
  return { code: 'plan/wrong-type', message, hint: `Replace it by ${wanted(fault)}.` }
}

/** Continues `it must be`. */
function wanted(fault: Fault): string {
  const options = optionsOf(fault)
  if (options !== undefined) return `one of ${options.map((option) => JSON.stringify(option)).join(', ')}`
  if (fault.code === 'invalid_type') return typeName(fault.expected)
  if (fault.code === 'invalid_union')
    return fault.errors.map((member) => (member[0] === undefined ? '' : wanted(member[0]))).join(' or ')
  if (fault.code === 'invalid_format') return 'a single capital letter, A to Z'
  return 'of the form that the manual of the plan file shows'
}

/** The words that are allowed, or the kinds of object to choose from. */
function optionsOf(fault: Fault): readonly unknown[] | undefined {
  if (fault.code === 'invalid_value') return fault.values
  return (fault as { readonly options?: readonly unknown[] }).options
}

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

function wrongSize(fault: Fault & { code: 'too_small' | 'too_big' }, name: string, value: unknown): Told {
  const few = fault.code === 'too_small'
  const list = Array.isArray(value)
  const bound = few ? `at least ${fault.minimum}` : `at most ${fault.maximum}`
  const length = list ? value.length : String(value).length
  return {
    code: few ? 'plan/too-few' : 'plan/too-many',
    message: `${name} has ${length} ${list ? 'entries' : 'characters'}; it must have ${bound}.`,
    hint: few ? 'Add what is missing.' : 'Shorten it.',
  }
}
