/**
 * The shape of a plan checked: every fault as an issue, and what remains with the faulty values taken out, so that the
 * checks across fields can still run on the rest.
 */
import type { Issue } from '@finwright/core/issue.ts'
import { canPlan } from './can.ts'
import { type Fault, issueOf, type PlanKind } from './faults.ts'
import { fieldAt, type Path, valueAt } from './locate.ts'
import { studyPlan } from './study.ts'

export interface Shape {
  readonly kind: PlanKind
  readonly issues: readonly Issue[]
  /** The plan without what is at fault: those keys stand with `undefined`, so that no default takes their place. */
  readonly sound: unknown
}

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
    if (seen.has(key)) return false
    seen.add(key)
    return true
  })
}
