/** What an entry of a list is called, in an undo button as everywhere else. */
import { plyIds } from '../../resolve/plies.ts'
import { valueAt } from '../../schema/locate.ts'
import { isObject, type PlanRecord } from '../record.ts'

/** `P3`, `V1`; undefined where there is no such ply, or its role is not known. */
export const plyName = ({ plan }: PlanRecord, at: number): string | undefined => plyNames(plan.plies)[at]

/** Of all plies, as they are typed: `P1`, `P2`, `V1`, `R1`. */
export const plyNames = (plies: unknown): readonly (string | undefined)[] =>
  Array.isArray(plies) ? plyIds(plies.map((ply: unknown) => (isObject(ply) ? roleOf(ply.role) : undefined))) : []

const roles = ['structural', 'surface', 'peel'] as const

/** The plan's own default where none is typed. */
const roleOf = (typed: unknown) => (typed === undefined ? 'structural' : roles.find((role) => role === typed))

/** `can B`. */
export function canName({ plan }: PlanRecord, at: number): string | undefined {
  const letter = valueAt(plan, ['cans', at, 'letter'])
  return typeof letter === 'string' ? `can ${letter}` : undefined
}
