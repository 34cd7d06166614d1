/** Plans for tests: an example, read and changed. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { type AssessOptions, assess } from '@finwright/core/assess/assess.ts'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { Checked } from '@finwright/core/issue.ts'
import { type PlanDocument, readPlan } from '@finwright/plan/read-plan.ts'
import { root } from './command.ts'

/** A plan as parsed JSON: tests change it freely. */
// biome-ignore lint/suspicious/noExplicitAny: the tests write fields that may not exist
export type RawPlan = any

export const examples = ['demo', 'small-us', 'study-square-plate', 'study-swept-plate', 'study-swept-wing'] as const

export const exampleFile = (name: string): string => join(root, 'examples', `${name}.fincan.json`)

export function example(name: (typeof examples)[number], change: (plan: RawPlan) => void = () => undefined): RawPlan {
  const plan = JSON.parse(readFileSync(exampleFile(name), 'utf8'))
  change(plan)
  return plan
}

export function read(plan: RawPlan): Checked<PlanDocument> {
  const readAttachment = (file: string) => ({
    ok: true as const,
    text: readFileSync(join(root, 'examples', file), 'utf8'),
  })
  return readPlan({ text: JSON.stringify(plan), readAttachment })
}

/** The assessment of a plan that is expected to be a good one. */
export function assessed(plan: RawPlan, options: AssessOptions = {}): Assessment {
  const document = read(plan)
  if (!document.ok) throw new Error(JSON.stringify(document.issues, null, 1))
  const result = assess(document.value.design, options)
  if (!result.ok) throw new Error(JSON.stringify(result.issues, null, 1))
  return result.value
}

/** The issues of a plan that is expected to be refused by the geometry. */
export function refusal(plan: RawPlan): Extract<Checked<Assessment>, { ok: false }>['issues'] {
  const document = read(plan)
  if (!document.ok) throw new Error(`refused before its geometry: ${JSON.stringify(document.issues, null, 1)}`)
  const result = assess(document.value.design)
  if (result.ok) throw new Error('was not refused')
  return result.issues
}
