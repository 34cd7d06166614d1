/** What the schedule's page shows: plies as rows, the laminate in figures, and two schedules beside each other. */

import type { FinSection, PieceShape, Point, SectionFigures } from '@finwright/core/assess/assessment.ts'
import type { Design } from '@finwright/core/assess/design.ts'
import { contains } from '@finwright/core/geometry/polygon.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import type { Answers } from '@finwright/plan/protocol/work.ts'
import { parseQuantity } from '@finwright/plan/quantity/parse.ts'
import { plyIds } from '@finwright/plan/resolve/plies.ts'
import type { Figures } from '@finwright/sheets/layout/figures.ts'
import { margins, readOf } from '../margins/margins.ts'
import { materialOptions } from '../plan/materials.ts'
import { type Role, roleOf } from './schedule.commands.ts'

export interface PlyRow {
  /** As pieces, sheets and the bay map name it. */
  readonly id: string
  readonly at: number
  readonly role: Role
  readonly cloth: string
  /** Degrees; null where what was typed is no angle. */
  readonly angle: number | null
  /** As typed. */
  readonly angleText: string
  /** What of the way from the fin's tip to the bay's centre line the ply does not reach, 0 to 1. */
  readonly setBack: number
  /** Cured, of the newest answer that knows this ply; null where none does. */
  readonly thickness: number | null
}

export interface RowInput {
  readonly plies: readonly JsonObject[]
  readonly materials: unknown
  /** Tip to bay centre line, m. */
  readonly halfWidth: number | null
  readonly cured: FinSection['plies']
}

export function plyRows({ plies, materials, halfWidth, cured }: RowInput): readonly PlyRow[] {
  const roles = plies.map(roleOf)
  const ids = plyIds(roles)
  const names = new Map(materialOptions('cloth', materials).map(({ value, label }) => [value, label]))
  const thickness = new Map(cured.map(({ id, thickness_m }) => [id, thickness_m]))
  return plies.map((ply, at) => {
    const id = ids[at] ?? `${at + 1}`
    const angle = parseQuantity(ply.angle ?? '0 deg', 'angle')
    return {
      id,
      at,
      role: roles[at]!,
      cloth: names.get(String(ply.cloth)) ?? String(ply.cloth),
      angle: angle.ok ? (angle.value * 180) / Math.PI : null,
      angleText: ply.angle === undefined ? '' : String(ply.angle),
      setBack: halfWidth === null ? 0 : Math.min(0.95, tipStepBack(ply) / halfWidth),
      thickness: thickness.get(id) ?? null,
    }
  })
}

function tipStepBack(ply: JsonObject): number {
  const typed = isObject(ply.stepBack) ? ply.stepBack.tip : undefined
  const read = typed === undefined ? null : parseQuantity(typed, 'length')
  return read?.ok ? Math.max(0, read.value) : 0
}

/**
 * Tip to the bay's centre line, m, for the strips to be drawn in: on the bare surface as developed, or, until that is known, up the face
 * and half way to the next fin on the tube, without the fillet.
 */
export function halfWidthOf(section: SectionFigures | null | undefined, design: Design | undefined): number | null {
  if (section != null) return section.width_m / 2
  if (design?.kind !== 'can') return null
  const { count, outline } = design.fins
  return Math.max(...outline.points.map(([, y]) => y)) + (Math.PI * design.tube.outerRadius) / count
}

export interface Count {
  readonly id: string
  readonly label: string
  readonly value: string
}

/** Ply count, thickness, mass and stiffness: what changes at once under the hand. */
export function laminateFigures(fin: FinSection | undefined, figures: Figures): readonly Count[] {
  const thickest = fin?.laminates.reduce<FinSection['laminates'][number] | null>(
    (best, one) => (best === null || one.thickness_m > best.thickness_m ? one : best),
    null,
  )
  const D = thickest?.bendingStiffness_Nm
  const skin = fin?.plies.reduce((sum, { thickness_m }) => sum + thickness_m, 0)
  return [
    { id: 'count', label: 'Plies that stay, a face', value: fin === undefined ? '…' : `${fin.plies.length}` },
    { id: 'skin', label: 'One skin where all lie', value: figures.length(skin, 1e-5) },
    { id: 'D11', label: 'Bending stiffness along the chord', value: stiffness(D?.[0][0], figures) },
    { id: 'D22', label: 'Bending stiffness along the span', value: stiffness(D?.[1][1], figures) },
    { id: 'D66', label: 'Twisting stiffness', value: stiffness(D?.[2][2], figures) },
    { id: 'areal', label: 'Mass per area, with the core', value: figures.arealMass(thickest?.arealMass_kg_m2) },
  ]
}

const stiffness = (value: number | undefined, figures: Figures): string => figures.moment(value ?? null)

export function answerInWords(plies: readonly JsonObject[], fin: FinSection | undefined, figures: Figures): string {
  const count = (role: Role): number => plies.filter((ply) => roleOf(ply) === role).length
  const [structural, surface, peel, film] = [count('structural'), count('surface'), count('peel'), count('film')]
  const one = (n: number, word: string): string => `${n} ${word} ${n === 1 ? 'ply' : 'plies'}`
  const stays = surface > 0 ? ` and ${one(surface, 'surface')}` : ''
  const off = [...(peel > 0 ? ['peel ply'] : []), ...(film > 0 ? ['film'] : [])].join(' and ')
  const comes = off === '' ? '' : `, with ${off} that comes off again`
  const skin = fin?.plies.reduce((sum, { thickness_m }) => sum + thickness_m, 0)
  return (
    `${one(structural, 'structural')}${stays} on every face${comes}. ` +
    (fin === undefined
      ? ''
      : `One skin is ${figures.length(skin, 1e-5)} where all of them lie; a finished fin weighs ${figures.grams(fin.mass_kg)}.`)
  )
}

export interface Compared {
  readonly id: string
  readonly label: string
  readonly present: string
  readonly other: string
  readonly differs: boolean
  readonly fault: { readonly present: boolean; readonly other: boolean }
}

/** Every margin and the laminate, of two schedules. */
export function compared(present: Answers['parts'], other: Answers['parts'], figures: Figures): readonly Compared[] {
  const [p, o] = [readOf(present), readOf(other)]
  const rows = margins.map(({ id, label, read }) => {
    const [a, b] = [read(p, figures), read(o, figures)]
    return {
      ...{ id, label, present: a?.text ?? '…', other: b?.text ?? '…' },
      differs: a !== null && b !== null && a.text !== b.text,
      fault: { present: a?.fault != null, other: b?.fault != null },
    }
  })
  const [mine, theirs] = [laminateFigures(p.fin, figures), laminateFigures(o.fin, figures)]
  const laminate = mine.map(({ id, label, value }, i) => ({
    ...{ id, label, present: value, other: theirs[i]!.value },
    differs: p.fin !== undefined && o.fin !== undefined && value !== theirs[i]!.value,
    fault: { present: false, other: false },
  }))
  return [...rows, ...laminate]
}

/** What lies at a point of the bay map: the plies there that stay, core outward. */
export const pliesAt = (shapes: readonly PieceShape[], point: Point): readonly PieceShape[] =>
  shapes.filter(({ role, netOutline_m }) => !comesOff(role) && contains(netOutline_m, point))

/** The ply that the map shows there: the outermost structural one among those that end soonest. */
export function plyShownAt(shapes: readonly PieceShape[], point: Point): string | null {
  const there = pliesAt(shapes, point)
  const least = there.reduce((best, { netArea_m2 }) => Math.min(best, netArea_m2), Number.POSITIVE_INFINITY)
  const ending = there.filter(({ netArea_m2 }) => netArea_m2 <= least * 1.02)
  return (ending.filter(({ role }) => role === 'structural').at(-1) ?? ending.at(-1))?.ply ?? null
}
