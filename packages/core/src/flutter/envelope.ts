/**
 * A conservative flutter envelope over all Mach numbers from 0 to where the supersonic surface ends: at a Mach number, the readings of
 * which the least counts.
 *
 *   envelope speed = least over the readings of factor · least of (flutter speed, divergence speed) of the linear method
 *
 *   M ≤ 0.8        subsonic at M                                              × subsonic factor
 *   0.8 … 0.95     subsonic at M, from 0.9 on frozen there                    × falling to the transonic factor
 *                  supersonic frozen at 1.2, coming in                        × transonic factor / s
 *   0.95 … 1.2     the least of subsonic frozen at 0.9, supersonic at 1.2     × transonic factor
 *   1.2 … 1.5      supersonic at M                                            × rising to the supersonic factor
 *                  subsonic frozen at 0.9, going out                          × transonic factor / (1 − s)
 *   1.5 …          supersonic at M                                            × supersonic factor
 *   2 …            piston theory at M, if given, in full from 2.4             × piston factor / s
 *
 * s runs from 0 to 1 over the range: a reading that comes in or goes out does so through an infinite speed, so the envelope has no jump in
 * Mach number. The density is the point's own throughout. Factors and where they come from: envelope-factors.data.ts. Basis of the
 * transonic part: experience on one wing, not a theory; docs/methods/flutter-envelope.md.
 */
import { type Issue, invariant } from '../issue.ts'
import {
  frozenSubsonic,
  frozenSupersonic,
  pistonEnd,
  pistonFactor,
  pistonStart,
  subsonicEnd,
  subsonicFactor,
  supersonicFactor,
  supersonicStart,
  transonicFactor,
  transonicStart,
} from './envelope-factors.data.ts'
import type { AerodynamicMethod } from './forces.ts'

/** A linear method's answer at one Mach number, and what it is multiplied with. */
export interface Reading {
  readonly method: AerodynamicMethod
  /** At which the method's forces are taken: the point's own, or a frozen one. */
  readonly mach: number
  /** On speed. Above 1 where the reading is coming in or going out. */
  readonly factor: number
}

export interface Envelope {
  readonly machRange: { readonly from: number; readonly to: number }
  /** One or more within the range of Mach numbers, none outside. */
  readonly readings: (mach: number) => readonly Reading[]
  /** The linear surface that answers with the aerodynamics of the Mach number itself, to stand beside the envelope; null between the two. */
  readonly own: (mach: number) => AerodynamicMethod | null
  readonly warnings: (mach: number) => readonly Issue[]
}

export interface EnvelopeMethods {
  readonly subsonic: AerodynamicMethod
  readonly supersonic: AerodynamicMethod
  readonly piston?: AerodynamicMethod
}

export function conservativeEnvelope(methods: EnvelopeMethods): Envelope {
  const { subsonic, supersonic, piston } = methods
  invariant(covers(subsonic, 0, frozenSubsonic), `${subsonic.name} does not answer up to Mach ${frozenSubsonic}`)
  invariant(covers(supersonic, frozenSupersonic, pistonStart), `${supersonic.name} does not answer from Mach 1.2 to 2`)
  const machRange = { from: 0, to: supersonic.machRange.to }
  const readings = (mach: number): readonly Reading[] => {
    if (!(mach >= machRange.from && mach <= machRange.to)) return []
    const all = [subsonicReading(subsonic, mach), supersonicReading(supersonic, mach)]
    if (piston !== undefined && covers(piston, mach, mach)) all.push(pistonReading(piston, mach))
    return all.filter(({ factor }) => Number.isFinite(factor))
  }
  const warnings = (mach: number): readonly Issue[] =>
    readings(mach).flatMap(({ method, mach: at }) => method.warnings(at))
  const own = (mach: number): AerodynamicMethod | null =>
    [subsonic, supersonic].find((method) => covers(method, mach, mach)) ?? null
  return { machRange, readings, own, warnings }
}

/** Mach numbers at which the envelope over Mach number has a corner of its own making. */
export const envelopeJoints: readonly number[] = [subsonicEnd, transonicStart, frozenSupersonic, supersonicStart]

function covers({ machRange }: AerodynamicMethod, from: number, to: number): boolean {
  return machRange.from <= from && machRange.to >= to
}

function subsonicReading(method: AerodynamicMethod, mach: number): Reading {
  const fall = passage(mach, subsonicEnd, transonicStart)
  const factor = subsonicFactor + (transonicFactor - subsonicFactor) * fall
  return {
    method,
    mach: Math.min(mach, frozenSubsonic),
    factor: factor / (1 - passage(mach, frozenSupersonic, supersonicStart)),
  }
}

function supersonicReading(method: AerodynamicMethod, mach: number): Reading {
  const rise = passage(mach, frozenSupersonic, supersonicStart)
  const factor = transonicFactor + (supersonicFactor - transonicFactor) * rise
  return {
    method,
    mach: Math.max(mach, frozenSupersonic),
    factor: factor / passage(mach, subsonicEnd, transonicStart),
  }
}

function pistonReading(method: AerodynamicMethod, mach: number): Reading {
  return { method, mach, factor: pistonFactor / passage(mach, pistonStart, pistonEnd) }
}

/** 0 up to `from`, 1 from `to` on, straight between. */
function passage(mach: number, from: number, to: number): number {
  return Math.min(1, Math.max(0, (mach - from) / (to - from)))
}
