/** What the page on cutting shows of the assessment. */

import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { type Figures, plain } from '@finwright/sheets/layout/figures.ts'

export function pieceRows({ pattern }: Assessment, figures: Figures): readonly (readonly string[])[] {
  return pattern.shapes.map(({ ply, clothName, angle_deg, cutWidth_m, cutLength_m, mass_kg, role }) => [
    ply,
    comesOff(role) ? `${clothName}, comes off after cure` : clothName,
    figures.ply(angle_deg),
    figures.length(cutWidth_m),
    figures.length(cutLength_m),
    figures.grams(mass_kg),
    String(pattern.pieces.filter((piece) => piece.ply === ply).length),
  ])
}

export const linear = (length: number, { units }: Figures): string =>
  units === 'us' ? `${plain(length / 0.9144, 2)} yd` : `${plain(length, 2)} m`

export const buyRows = ({ nest }: Assessment, figures: Figures): readonly (readonly string[])[] =>
  nest.buy.map(({ clothName, width_m, length_m, reason }) => [
    ...[clothName, figures.length(width_m, 1e-3), linear(length_m, figures), reason],
  ])

export const leftRows = ({ nest }: Assessment, figures: Figures): readonly (readonly string[])[] =>
  nest.left.map(({ roll, clothName, width_m, length_m }) => [
    ...[roll, clothName, figures.length(width_m, 1e-3), linear(length_m, figures)],
  ])

/** Plies that must turn by more than half a degree somewhere: the others have no picture. */
export const sheared = ({ pattern }: Assessment) => pattern.shear.filter(({ field }) => field.length > 0)
