/**
 * The plan's JSON Schema (draft 2020-12), from the same definition that validates. It knows names, types, choices, and how a
 * quantity is written; limits of quantities with units, and what must hold between fields, only the reader checks.
 */
import { z } from 'zod'
import { canPlan } from './schema/can.ts'
import { studyPlan } from './schema/study.ts'

export type JsonSchema = { readonly [key: string]: unknown }

export function planJsonSchema(): JsonSchema {
  const plan = z.union([canPlan, studyPlan]).meta({
    title: 'Finwright plan',
    description: 'A plan of a fin can with hand-laid composite fins, or a study of a bare plate. Version 1.',
  })
  return z.toJSONSchema(plan, { target: 'draft-2020-12', io: 'input', reused: 'ref' }) as JsonSchema
}
