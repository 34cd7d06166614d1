/** What a reader of the envelope's margin must know. */
import type { Issue } from '../issue.ts'
import { type Margin, notDetermined } from './boundary.ts'
import type { Envelope } from './envelope.ts'
import type { Passage } from './envelope-boundary.ts'
import { subsonicEnd, supersonicStart } from './envelope-factors.data.ts'

export interface Warned {
  readonly envelope: Envelope
  readonly passages: readonly Passage[]
  readonly margin: Margin
  /** Frequencies of a body that nothing holds, if there is one. */
  readonly free: readonly number[] | null
}

export function envelopeWarnings({ envelope, passages, margin, free }: Warned): Issue[] {
  if (free !== null) return [freeBody(free)]
  return [
    ...outside(
      envelope,
      machsOf(passages, ({ entry, stuck }) => entry.kind === notDetermined && !stuck),
    ),
    ...notConverged(machsOf(passages, ({ stuck }) => stuck)),
    ...beyondTable(machsOf(passages, (passage) => passage.beyondTable)),
    ...byExperience(margin),
    ...methodWarnings(envelope, passages),
  ]
}

const machsOf = (passages: readonly Passage[], which: (passage: Passage) => boolean): number[] =>
  passages.filter(which).map(({ point }) => point.mach)

const listed = (values: readonly number[]): string => [...new Set(values.map((mach) => mach.toFixed(2)))].join(', ')

function outside({ machRange }: Envelope, machs: readonly number[]): Issue[] {
  if (machs.length === 0) return []
  return [
    {
      code: 'flutter/outside-envelope',
      path: 'flutter.margin',
      value: Math.max(...machs),
      message: `The flutter envelope covers Mach ${machRange.from} to ${machRange.to}; at Mach ${listed(machs)} whether the fin holds is not determined. This is not a pass.`,
      hint: 'Judge that part of the flight by test or by another analysis.',
    },
  ]
}

function notConverged(machs: readonly number[]): Issue[] {
  if (machs.length === 0) return []
  return [
    {
      code: 'flutter/not-converged',
      path: 'flutter.boundary',
      value: machs[0],
      message: `The flutter solution did not converge at Mach ${listed(machs)}; the margin is not determined.`,
      hint: 'Keep more or fewer modes, or refine the mesh.',
    },
  ]
}

function beyondTable(machs: readonly number[]): Issue[] {
  if (machs.length === 0) return []
  return [
    {
      code: 'flutter/beyond-reduced-frequency',
      path: 'flutter.boundary',
      value: machs[0],
      message: `At Mach ${listed(machs)} the fin flutters faster than the highest reduced frequency the air forces were computed for.`,
      hint: 'Read the speed there as an estimate.',
    },
  ]
}

/** Where the least ratio rests on experience and not on a computation at its own Mach number. */
function byExperience({ determined }: Margin): Issue[] {
  if (determined === null || !(determined.at.mach > subsonicEnd && determined.at.mach < supersonicStart)) return []
  return [
    {
      code: 'flutter/transonic-by-experience',
      path: 'flutter.margin',
      value: determined.at.mach,
      message: `The least flutter margin lies at Mach ${determined.at.mach.toFixed(2)}. Between Mach ${subsonicEnd} and ${supersonicStart} the envelope rests on lifting surfaces at other Mach numbers and on the transonic dip of one published wing, 4 % thick and swept.`,
      hint: 'A thick, blunt or unswept fin may dip further: leave more margin than the ratio asked for.',
    },
  ]
}

/** One of a kind, at the highest Mach number that has it. */
function methodWarnings(envelope: Envelope, passages: readonly Passage[]): Issue[] {
  const seen = new Map<string, Issue>()
  const machs = passages.map(({ point }) => point.mach).sort((a, b) => a - b)
  for (const mach of machs) for (const issue of envelope.warnings(mach)) seen.set(issue.code, issue)
  return [...seen.values()]
}

function freeBody(omegas: readonly number[]): Issue {
  return {
    code: 'flutter/free-body',
    path: 'flutter.boundary',
    value: omegas.length === 0 ? null : Math.min(...omegas),
    message: 'The plate can move as a rigid body, so it has no flutter speed of its own.',
    hint: 'Clamp or support at least one edge.',
  }
}
