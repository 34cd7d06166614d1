/** How views read the session. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import type { AssessmentParts } from '@finwright/core/assess/steps.ts'
import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import type { JsonObject, PlanRecord } from '@finwright/plan/protocol/record.ts'
import type { Answers, PartName } from '@finwright/plan/protocol/work.ts'
import type { PlanDocument } from '@finwright/plan/read-plan.ts'
import { type Path, valueAt } from '@finwright/plan/schema/locate.ts'
import { type Figures, figuresIn, type UnitSystem } from '@finwright/sheets/layout/figures.ts'
import { createContext, useContext, useMemo, useRef, useSyncExternalStore } from 'react'
import { assessmentOf, atRest, faultsOf, type Known } from './answers.ts'
import type { DocumentState, Entered } from './document.ts'
import type { Before, Session } from './session.ts'
import type { Store } from './store.ts'

const SessionContext = createContext<Session | null>(null)
export const SessionProvider = SessionContext.Provider

export function useSession(): Session {
  const session = useContext(SessionContext)
  if (session === null) throw new Error('a view outside its session')
  return session
}

export const useStore = <T>({ watch, get }: Store<T>): T => useSyncExternalStore(watch, get, get)

/**
 * A part of a store: the view is made anew only when that part changes. `select` may hand back a list of parts made on the spot; one with
 * the same entries counts as the same.
 */
export function useSelected<T, S>({ watch, get }: Store<T>, select: (state: T) => S): S {
  const held = useRef<S | undefined>(undefined)
  const read = (): S => {
    const next = select(get())
    if (held.current === undefined || !alike(held.current, next)) held.current = next
    return held.current as S
  }
  return useSyncExternalStore(watch, read, read)
}

const alike = (a: unknown, b: unknown): boolean =>
  Array.isArray(a) && Array.isArray(b)
    ? a.length === b.length && a.every((entry, i) => Object.is(entry, b[i]))
    : Object.is(a, b)

export const useDocument = (): DocumentState => useStore(useSession().document)

export const useAnswers = (): Answers => useStore(useSession().answers)

export const useBefore = (): Before | null => useStore(useSession().before)

/** The record as this window sees it. Only pages inside `<WithPlan>` ask. */
export function useRecord(): PlanRecord {
  const record = useSelected(useSession().document, ({ draft }) => draft?.record)
  if (record === undefined) throw new Error('a page before its plan')
  return record
}

export const usePlan = (): JsonObject => useRecord().plan

/** What was typed there; undefined where nothing was. */
export const useTyped = (path: Path): unknown =>
  useSelected(useSession().document, ({ draft }) => valueAt(draft?.record.plan, path))

export function useUnits(): UnitSystem {
  return useSelected(useSession().document, ({ draft }) => (draft?.record.plan.units === 'us' ? 'us' : 'metric'))
}

export function useFigures(): Figures {
  const units = useUnits()
  return useMemo(() => figuresIn(units), [units])
}

/** Puts a command in; the plan changes at once. Entries of one gesture are undone in one step. */
export function useEnter(): (intent: Intent, gesture?: string) => Entered {
  return useSession().document.enter
}

/** The newest plan that could be read, with its defaults and its design; null before the first. */
export const useReadPlan = (): PlanDocument | null =>
  useSelected(useSession().answers, ({ document }) => document?.value ?? null)

/** What keeps the present plan from being worked out. */
export const useFaults = (): readonly Issue[] => useSelected(useSession().answers, faultsOf)

/** Every number belongs to the present plan. */
export const useAtRest = (): boolean => useSelected(useSession().answers, atRest)

/** One section of the answer. */
export function usePart<P extends PartName>(name: P): Known<NonNullable<AssessmentParts[P]>> | null {
  const [part, key] = useSelected(useSession().answers, ({ parts, key }) => [parts[name], key] as const)
  return useMemo(
    () => (part === undefined ? null : { value: part.value, stale: part.key !== key }),
    [part, key],
  ) as Known<NonNullable<AssessmentParts[P]>> | null
}

/** The sections so far as one assessment; null while one of those was never answered. */
export function useAssessment(needed: readonly PartName[]): Known<Assessment> | null {
  const { answers } = useSession()
  const held = useSelected(answers, ({ parts, key, assessment }) => [
    ...needed.map((name) => parts[name]),
    key,
    assessment,
  ])
  // biome-ignore lint/correctness/useExhaustiveDependencies: the answer changes with these sections alone
  return useMemo(() => assessmentOf(answers.get(), needed), [held])
}

/** The design in SI of the newest plan that could be read; null before the first, and for a study. */
export function useCanDesign(): CanDesign | null {
  const design = useReadPlan()?.design
  return design?.kind === 'can' ? design : null
}
