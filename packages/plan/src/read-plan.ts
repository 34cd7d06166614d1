/**
 * A plan read from its text: JSON, version, shape, materials, attachments, and what must hold between the fields. Either a
 * complete document with its design, or every issue there is, at once.
 */
import type { CanDesign, Design, StudyDesign } from '@finwright/core/assess/design.ts'
import { type Checked, type Issue, invariant } from '@finwright/core/issue.ts'
import { checkCan } from './check/can.ts'
import { checkStudy } from './check/study.ts'
import { currentVersion, migrated } from './migrate.ts'
import { resolveCan } from './resolve/can.ts'
import { gapIn, type Loose, type ReadAttachment } from './resolve/loose.ts'
import { resolveStudy } from './resolve/study.ts'
import type { CanPlan } from './schema/can.ts'
import { type Defaulted, withDefaults } from './schema/complete.ts'
import { shown } from './schema/judge.ts'
import { checkShape } from './schema/shape.ts'
import type { StudyPlan } from './schema/study.ts'
import { contentHash, type HashedPart } from './text/hash.ts'
import { readJson } from './text/json.ts'

export type Plan = CanPlan | StudyPlan

/** What the app and the sheets may count on. */
export type CompletePlan = Plan & { readonly note: string; readonly units: 'metric' | 'us' }

export interface PlanDocument {
  /** As typed, brought to the present version. */
  readonly typed: Plan
  /** With the defaults written in. */
  readonly complete: CompletePlan
  /** What was filled in, with its source. */
  readonly defaulted: readonly Defaulted[]
  readonly design: Design
  /** Of the plan's text and its attachments; 12 hexadecimal digits. */
  readonly hash: string
}

export interface PlanSource {
  readonly text: string
  /** A file that the plan names, such as a thrust curve. */
  readonly readAttachment: ReadAttachment
}

export function readPlan({ text, readAttachment }: PlanSource): Checked<PlanDocument> {
  const json = readJson(text)
  if (!json.ok) return { ok: false, issues: [json.issue] }
  const opened = openVersion(json.value)
  if (!opened.ok) return { ok: false, issues: [...json.repeated, ...opened.issues] }
  const parts: HashedPart[] = [{ name: 'plan', text }]
  const attachment: ReadAttachment = (name) => {
    const file = readAttachment(name)
    if (file.ok) parts.push({ name, text: file.text })
    return file
  }
  const { issues, complete, design } = interpret(opened.value, attachment)
  const all = [...json.repeated, ...issues]
  if (all.length > 0) return { ok: false, issues: all }
  const gap = gapIn(design)
  invariant(gap === null, `a plan without issues makes a whole design; missing at ${gap}`)
  const value: PlanDocument = {
    typed: opened.value as Plan,
    complete: complete.plan as CompletePlan,
    defaulted: complete.defaulted,
    design: design as Design,
    hash: contentHash(parts),
  }
  return { ok: true, value, warnings: [] }
}

function interpret(plan: unknown, attachment: ReadAttachment) {
  const { kind, issues: faults, sound } = checkShape(plan)
  const issues: Issue[] = [...faults]
  const told = new Set(faults.map(({ path }) => path))
  const report = (issue: Issue): void => {
    const key = `${issue.code} ${issue.path} ${issue.message}`
    if (told.has(key) || (issue.code === 'plan/missing' && told.has(issue.path))) return
    told.add(key)
    issues.push(issue)
  }
  const complete = withDefaults(sound ?? {})
  if (kind === 'study') {
    const loose = complete.plan as Loose<StudyPlan>
    const design: Loose<StudyDesign> = resolveStudy(loose, report)
    checkStudy(design, loose, report)
    return { issues, complete, design }
  }
  const loose = complete.plan as Loose<CanPlan>
  const design: Loose<CanDesign> = resolveCan(loose, attachment, report)
  checkCan(design, loose, report)
  return { issues, complete, design }
}

type Opened = { readonly ok: true; readonly value: unknown } | { readonly ok: false; readonly issues: readonly Issue[] }

/** The plan at the present version, or why it cannot be read at all. */
export function openVersion(json: unknown): Opened {
  if (typeof json !== 'object' || json === null || Array.isArray(json)) {
    return refused(
      'plan/wrong-type',
      '',
      json,
      `The plan is ${shown(json)}; it must be an object in { }.`,
      'Start from one of the examples.',
    )
  }
  const { format, version } = json as { format?: unknown; version?: unknown }
  if (format !== 'finwright/plan') {
    return refused(
      'plan/format',
      'format',
      format,
      `'format' is ${shown(format)}; a plan must state "finwright/plan".`,
      'Add "format": "finwright/plan" as the first entry.',
    )
  }
  const known = typeof version === 'number' && Number.isInteger(version) && version >= 0 && version <= currentVersion
  if (!known) {
    const newer = typeof version === 'number' && version > currentVersion
    const hint = newer
      ? 'The plan was written by a newer Finwright: update this one.'
      : `Add "version": ${currentVersion}.`
    return refused(
      'plan/version',
      'version',
      version,
      `'version' is ${shown(version)}; this Finwright reads versions 0 to ${currentVersion}.`,
      hint,
    )
  }
  return { ok: true, value: migrated(json as Record<string, unknown>, version) }
}

const refused = (code: string, path: string, value: unknown, message: string, hint: string): Opened => ({
  ok: false,
  issues: [{ code, path, value, message, hint }],
})
