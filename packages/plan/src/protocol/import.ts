/** A plan file read to be taken in: brought to the present version, as typed; or every reason why it cannot be. */
import type { Checked, Issue } from '@finwright/core/issue.ts'
import { openVersion } from '../read-plan.ts'
import { checkShape } from '../schema/shape.ts'
import { readJson } from '../text/json.ts'
import type { JsonObject } from './record.ts'

/** Longer than this no plan file is read. Common practice, no source. */
export const longestPlan = 2 * 2 ** 20

export function importedPlan(text: string): Checked<JsonObject> {
  if (text.length > longestPlan) return { ok: false, issues: [tooLong(text.length)] }
  const json = readJson(text)
  if (!json.ok) return { ok: false, issues: [json.issue] }
  const opened = openVersion(json.value)
  if (!opened.ok) return { ok: false, issues: [...json.repeated, ...opened.issues] }
  const issues = [...json.repeated, ...checkShape(opened.value).issues]
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: opened.value as JsonObject, warnings: [] }
}

const tooLong = (length: number): Issue => ({
  code: 'command/plan-too-long',
  path: '',
  value: length,
  message: `The plan has ${length} characters; at most ${longestPlan} are read.`,
  hint: 'A plan file has some thousands: check that this is one.',
})
