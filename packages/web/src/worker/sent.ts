/**
 * Reports on their way from the worker to the window, without what the window has already: a section that reads as it did when it was
 * last sent is named and not sent again, and stands in the window as the same object, so that no view of it is made anew.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { AssessmentParts } from '@finwright/core/assess/steps.ts'
import type { Report } from '@finwright/plan/protocol/work.ts'

/** A report with those sections that are new; the others by name. */
export interface Sent {
  readonly report: Report
  readonly asBefore: readonly string[]
}

/** The worker's side. */
export function sender(): (report: Report) => Sent {
  const last = new Map<string, string>()
  const texts = new WeakMap<object, string>()
  const textOf = (value: object): string => {
    const text = texts.get(value) ?? JSON.stringify(value)
    texts.set(value, text)
    return text
  }
  const split = (sections: object): { readonly fresh: object; readonly asBefore: string[] } => {
    const fresh: Record<string, unknown> = {}
    const asBefore: string[] = []
    for (const [name, value] of Object.entries(sections)) {
      if (typeof value !== 'object' || value === null) {
        fresh[name] = value
        continue
      }
      const text = textOf(value)
      if (last.get(name) === text) asBefore.push(name)
      else fresh[name] = value
      last.set(name, text)
    }
    return { fresh, asBefore }
  }
  return (report) => {
    if (report.kind === 'parts') {
      const { fresh, asBefore } = split(report.parts)
      return { report: { ...report, parts: fresh as AssessmentParts }, asBefore }
    }
    if (report.kind === 'answer') {
      const { fresh, asBefore } = split(report.assessment)
      return { report: { ...report, assessment: fresh as Assessment }, asBefore }
    }
    return { report, asBefore: [] }
  }
}

/** The window's side: the report whole again. Every report must go through it, those of ended asks too. */
export function receiver(): (sent: Sent) => Report {
  const last = new Map<string, unknown>()
  const whole = (sections: object, asBefore: readonly string[]): Record<string, unknown> => {
    for (const [name, value] of Object.entries(sections)) if (typeof value === 'object') last.set(name, value)
    return { ...sections, ...Object.fromEntries(asBefore.map((name) => [name, last.get(name)])) }
  }
  return ({ report, asBefore }) => {
    if (report.kind === 'parts') return { ...report, parts: whole(report.parts, asBefore) as AssessmentParts }
    if (report.kind === 'answer')
      return { ...report, assessment: whole(report.assessment, asBefore) as unknown as Assessment }
    return report
  }
}
