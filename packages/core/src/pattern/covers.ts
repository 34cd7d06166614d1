/**
 * Which ply covers which: how far every later ply reaches past each earlier one, end by end.
 *
 * Both are measured to the net line, so overhang that is trimmed off and width that only allows for shear do not count. An
 * edge's cover is the distance between two parallel lines, the same all along it; at a corner it is more.
 */
import { comesOff, type PlyEnd, plyEnds, type ScheduledPly } from './schedule.ts'

export interface Cover {
  readonly ply: string
  readonly covers: string
  /** Negative where the later ply stops short of the earlier one. */
  readonly by: { readonly [end in PlyEnd]: number }
}

/** Peel ply comes off and covers nothing. */
export function plyCovers(plies: readonly ScheduledPly[]): readonly Cover[] {
  const laid = plies.filter(({ role }) => !comesOff(role))
  return laid.flatMap((later, j) =>
    laid.slice(0, j).map((earlier) => ({ ply: later.id, covers: earlier.id, by: coverBy(later, earlier) })),
  )
}

export const coverBy = (later: ScheduledPly, earlier: ScheduledPly): Cover['by'] =>
  Object.fromEntries(plyEnds.map((end) => [end, earlier.stepBack[end] - later.stepBack[end]])) as Cover['by']
