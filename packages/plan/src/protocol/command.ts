/**
 * A command: a name, a payload that zod checks, and a pure function on the record. It tells which places it touches, so that
 * it can be carried over what another window did in the meantime.
 */
import type { Issue } from '@finwright/core/issue.ts'
import type { z } from 'zod'
import { type Path, pathText } from '../schema/locate.ts'
import type { Change } from './change.ts'
import type { NoPlace } from './place.ts'
import type { PlanRecord } from './record.ts'

/** The places a command touches, in the record it was made on. */
export interface Footprint {
  /** Written over, or taken away. */
  readonly values: readonly Path[]
  /** Lists whose order it changes. */
  readonly orders: readonly Path[]
  readonly files?: readonly string[]
}

export interface Applied {
  readonly record: PlanRecord
  readonly changes: readonly Change[]
}

export type Outcome = ({ readonly ok: true } & Applied) | { readonly ok: false; readonly issues: readonly Issue[] }

/** Where a place of the payload lies now; null where it was taken away. */
export type Carry = (path: Path) => Path | null

export interface CommandRules<P> {
  readonly payload: z.ZodType<P>
  /** What the undo button says: `angle of ply 3`. */
  readonly label: (payload: P, record: PlanRecord) => string
  readonly footprint: (payload: P) => Footprint
  readonly apply: (payload: P, record: PlanRecord) => Outcome
  /** The one value that it puts at its one place: two windows that put the same there do not meet. */
  readonly writes?: (payload: P) => unknown
  /** The payload with its places carried; null where one was taken away. Left out where no place of a list is named. */
  readonly carry?: (payload: P, carry: Carry) => P | null
}

/** A command whose payload has been checked. */
export interface Bound {
  readonly payload: unknown
  /** What it writes, where that is one value at one place. */
  readonly writes: { readonly value: unknown } | null
  readonly label: (record: PlanRecord) => string
  readonly footprint: Footprint
  readonly apply: (record: PlanRecord) => Outcome
  readonly carried: (carry: Carry) => Bound | null
}

export interface Command<P = never> {
  /** Carries the payload's type for callers; nothing reads it. */
  readonly sample?: P
  readonly bind: (payload: unknown) => Bind
}

export type Bind =
  | { readonly ok: true; readonly bound: Bound }
  | { readonly ok: false; readonly issues: readonly Issue[] }

export function command<P>(rules: CommandRules<P>): Command<P> {
  const bound = (payload: P): Bound => ({
    payload,
    writes: rules.writes === undefined ? null : { value: rules.writes(payload) },
    label: (record) => rules.label(payload, record),
    footprint: rules.footprint(payload),
    apply: (record) => rules.apply(payload, record),
    carried: (carry) => {
      const moved = rules.carry === undefined ? payload : rules.carry(payload, carry)
      return moved === null ? null : bound(moved)
    },
  })
  return {
    bind: (payload) => {
      const read = rules.payload.safeParse(payload)
      return read.success
        ? { ok: true, bound: bound(read.data) }
        : { ok: false, issues: payloadIssues(read.error.issues) }
    },
  }
}

/** Faults of a payload or request: the app that sent it is at fault, not the builder. */
export const payloadIssues = (faults: readonly z.core.$ZodIssue[], above = 'payload'): readonly Issue[] =>
  faults.slice(0, 20).map(({ path, message, input }) => ({
    code: 'command/payload',
    path: pathText([above, ...(path as Path)]),
    value: input ?? null,
    message: `'${pathText([above, ...(path as Path)])}' of the command cannot be read: ${message}.`,
    hint: 'Reload the page; docs/server.md lists what each command takes.',
  }))

export const refused = (...issues: readonly Issue[]): Outcome => ({ ok: false, issues })

export const noPlace = ({ at }: NoPlace): Outcome =>
  refused({
    code: 'command/no-place',
    path: pathText(at),
    value: null,
    message: `The plan has no '${pathText(at)}'; it must be a place that stands in the plan, or a name in an object.`,
    hint: 'It may have been taken away: look at the list again.',
  })

/** With the value in place of the plan; a plan is an object. */
export function done(record: PlanRecord, plan: unknown, changes: readonly Change[]): Outcome {
  return { ok: true, record: { ...record, plan: plan as PlanRecord['plan'] }, changes }
}
