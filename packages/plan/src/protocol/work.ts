/**
 * What the app asks of its worker, and what it hears back. All heavy work is done there: the window itself never waits.
 *
 * The worker answers one ask at a time and says what it has as soon as it has it: first what the plan reader says, then one
 * section of the assessment after the other, then the whole. The newest ask wins: the work is done in steps, and whoever does it
 * looks between two of them whether it is still wanted. Answers are kept by key: the fingerprint of plan and files, and the
 * version of the method; an answer whose key is not that of the present record is stale, and is shown as that.
 */
import { assessSteps } from '@finwright/core/assess/assess.ts'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { AssessmentParts } from '@finwright/core/assess/steps.ts'
import type { Issue } from '@finwright/core/issue.ts'
import { type PlanDocument, readPlan } from '../read-plan.ts'
import { contentHash, type HashedPart } from '../text/hash.ts'
import { planText } from '../text/write-plan.ts'
import type { PlanRecord } from './record.ts'

/** Raised whenever the same plan would give other numbers. */
const methodVersion = 1

export interface Ask {
  /** Rises with every ask. */
  readonly ticket: number
  readonly key: string
  readonly text: string
  /** Text of the files that the plan may name; a file that is no text is left out. */
  readonly files: { readonly [name: string]: string }
}

export type Report =
  | { readonly kind: 'step'; readonly ticket: number; readonly step: string }
  | { readonly kind: 'read'; readonly ticket: number; readonly key: string; readonly document: PlanDocument }
  | { readonly kind: 'parts'; readonly ticket: number; readonly key: string; readonly parts: AssessmentParts }
  | { readonly kind: 'answer'; readonly ticket: number; readonly key: string; readonly assessment: Assessment }
  | { readonly kind: 'refused'; readonly ticket: number; readonly key: string; readonly issues: readonly Issue[] }

/** Of a record: two with the same key have the same answer. File contents are told by their SHA-256. */
export function answerKey({ plan, files }: PlanRecord): string {
  const parts: HashedPart[] = [{ name: 'plan', text: planText(plan) }]
  for (const name of Object.keys(files).sort()) parts.push({ name, text: files[name]!.sha256 })
  return `${contentHash(parts)}-${methodVersion}`
}

/** The work itself, wherever it runs: worker of the browser, thread of the server, command line. */
export function answer(ask: Ask, report: (report: Report) => void): void {
  for (const step of answering(ask)) report(step)
}

/** In steps, so that whoever does it can hear of something newer in between, and stop. */
export function* answering({ ticket, key, text, files }: Ask): Generator<Report, void, void> {
  yield { kind: 'step', ticket, step: 'Reading the plan' }
  const read = readPlan({ text, readAttachment: (name) => attached(files, name) })
  if (!read.ok) {
    yield { kind: 'refused', ticket, key, issues: read.issues }
    return
  }
  yield { kind: 'read', ticket, key, document: read.value }
  yield { kind: 'step', ticket, step: 'Assessing' }
  const steps = assessSteps(read.value.design)
  let made = steps.next()
  while (!made.done) {
    const { parts, next } = made.value
    if (Object.keys(parts).length > 0) yield { kind: 'parts', ticket, key, parts }
    if (next !== '') yield { kind: 'step', ticket, step: next }
    made = steps.next()
  }
  const result = made.value
  yield result.ok
    ? { kind: 'answer', ticket, key, assessment: result.value }
    : { kind: 'refused', ticket, key, issues: result.issues }
}

export const attached = (files: { readonly [name: string]: string }, name: string) =>
  Object.hasOwn(files, name)
    ? ({ ok: true, text: files[name]! } as const)
    : ({ ok: false, reason: 'no file of that name lies beside the plan' } as const)

export type PartName = keyof AssessmentParts

export interface Part<P extends PartName> {
  readonly key: string
  readonly value: NonNullable<AssessmentParts[P]>
}

/** What a window knows of its worker. */
export interface Answers {
  /** Of the present record. */
  readonly key: string
  /** The ask that is under way; null when the worker rests. */
  readonly asked: { readonly ticket: number; readonly key: string; readonly step: string } | null
  readonly tickets: number
  /** The newest document and assessment that came back, with the key that each belongs to. */
  readonly document: { readonly key: string; readonly value: PlanDocument } | null
  readonly assessment: { readonly key: string; readonly value: Assessment } | null
  /** Sections that came before the whole, each with the key that it belongs to; newer than `assessment` or of the same key. */
  readonly parts: { readonly [P in PartName]?: Part<P> }
  /** Why there is no answer to the present record. */
  readonly issues: { readonly key: string; readonly value: readonly Issue[] } | null
}

export const noAnswers: Answers = {
  ...{ key: '', asked: null, tickets: 0 },
  document: null,
  assessment: null,
  parts: {},
  issues: null,
}

export type Turn = {
  readonly answers: Answers
  readonly ask: { readonly ticket: number; readonly cancel: boolean } | null
}

/**
 * The record changed. `ask` says to ask the worker under that ticket, and whether to end what it is at first. An answer known before is asked for
 * again once another record has been read meanwhile: its sections have begun to take the place of the known ones.
 */
export function recordChanged(answers: Answers, key: string): Turn {
  if (answers.key === key) return { answers, ask: null }
  const known = (answers.assessment?.key === key && answers.document?.key === key) || answers.issues?.key === key
  const ticket = answers.tickets + 1
  const cancel = answers.asked !== null
  if (known) return { answers: { ...answers, key, asked: null }, ask: cancel ? { ticket: 0, cancel } : null }
  const asked = { ticket, key, step: '' }
  return { answers: { ...answers, key, asked, tickets: ticket }, ask: { ticket, cancel } }
}

/** The worker reported. What an older ask reports changes nothing. */
export function reported(answers: Answers, report: Report): Answers {
  if (answers.asked === null || report.ticket !== answers.asked.ticket) return answers
  switch (report.kind) {
    case 'step':
      return { ...answers, asked: { ...answers.asked, step: report.step } }
    case 'read':
      return { ...answers, document: { key: report.key, value: report.document }, issues: null }
    case 'parts':
      return { ...answers, parts: { ...answers.parts, ...keyed(report.parts, report.key, answers.parts) } }
    case 'answer': {
      const { key, assessment } = report
      const parts = keyed(partsOf(assessment), key, answers.parts)
      return { ...answers, asked: null, assessment: { key, value: assessment }, parts, issues: null }
    }
    case 'refused':
      return { ...answers, asked: null, issues: { key: report.key, value: report.issues } }
  }
}

/** Whether what is shown belongs to an earlier record. */
export const isStale = ({ key, assessment }: Answers): boolean => assessment !== null && assessment.key !== key

/** A section told again as it stood stays the same object, so that whoever watches it has nothing to do. */
const keyed = (parts: AssessmentParts, key: string, before: Answers['parts']): Answers['parts'] =>
  Object.fromEntries(
    Object.entries(parts).map(([name, value]) => {
      const known = before[name as PartName]
      return [name, known?.key === key && known.value === value ? known : { key, value }]
    }),
  )

const partsOf = (assessment: Assessment): AssessmentParts => {
  const { flight, fin, structure, flutter, strength, bond, pattern, nest, resin, sources } = assessment
  return { flight, fin, structure, flutter, strength, bond, pattern, nest, resin, sources }
}
