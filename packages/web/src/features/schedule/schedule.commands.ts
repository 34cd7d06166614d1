/** What the hand does to the schedule, as commands with quantities as typed. Places count from the core outward, from 0. */
import type { PlyRole } from '@finwright/core/assess/design.ts'
import { cloths } from '@finwright/core/material/catalogue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import { isObject, type Json, type JsonObject } from '@finwright/plan/protocol/record.ts'

/** The plan's plies as typed. */
export const pliesOf = (plan: JsonObject): readonly JsonObject[] =>
  Array.isArray(plan.plies) ? (plan.plies as readonly Json[]).filter(isObject) : []

/** Null where it would stay where it is. */
export function moveTo(from: number, to: number, count: number): Intent | null {
  const place = Math.min(Math.max(to, 0), count - 1)
  return place === from ? null : { name: 'plies.move', payload: { from, to: place } }
}

export const duplicate = (at: number): Intent => ({ name: 'plies.duplicate', payload: { at } })

/** Null for the only one: a plan has at least one ply. */
export const remove = (at: number, count: number): Intent | null =>
  count > 1 ? { name: 'plies.remove', payload: { at } } : null

/** One more structural ply outside all others of its kind, of the same cloth, the warp along and across the bay. */
export function addOutermost(plies: readonly JsonObject[]): Intent {
  const last = plies.reduce((found, ply, i) => (roleOf(ply) === 'structural' ? i : found), -1)
  const cloth = last < 0 ? firstCloth : (plies[last]!.cloth ?? firstCloth)
  return { name: 'plies.insert', payload: { at: last + 1, entry: { cloth, angle: '0 deg' } } }
}

export const setAngle = (at: number, degrees: number): Intent => ({
  name: 'field.set',
  payload: { path: ['plies', at, 'angle'], value: `${Number(degrees.toFixed(1))} deg` },
})

/** The whole schedule in place of the present one. */
export const adopt = (plies: readonly JsonObject[]): Intent => ({
  name: 'field.set',
  payload: { path: ['plies'], value: plies },
})

export type Role = PlyRole

/** Left out, a ply is structural. */
export const roleOf = (ply: JsonObject): Role =>
  ply.role === 'surface' || ply.role === 'peel' || ply.role === 'film' ? ply.role : 'structural'

const firstCloth = Object.keys(cloths)[0]!

/** The weave repeats every half turn: to more than −90° and at most 90°. */
export function halfTurn(degrees: number): number {
  const within = ((((degrees + 90) % 180) + 180) % 180) - 90
  return within === -90 ? 90 : within
}

/** Angles at which a hand-laid ply is as a rule laid. */
const usual = [-90, -45, 0, 45, 90]
/** How near the hand must come, degrees. */
const reach = 4

/** Whole degrees, drawn to 0, 45 and 90. */
export function snapped(degrees: number, free = false): number {
  const whole = halfTurn(Math.round(degrees))
  if (free) return whole
  const near = usual.find((angle) => Math.abs(angle - whole) <= reach)
  return near === undefined ? whole : halfTurn(near)
}
