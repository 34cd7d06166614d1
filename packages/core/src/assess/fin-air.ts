/** The lifting surfaces of an outline, kept for the outline asked for last: air forces do not change while plies do. */
import { type SubsonicAir, subsonicAir } from '../flutter/lattice-method.ts'
import { type SupersonicAir, supersonicAir } from '../flutter/source-method.ts'
import type { Point } from '../geometry/point.ts'

export interface KeptAir {
  readonly outline: readonly Point[]
  readonly subsonic: SubsonicAir
  readonly supersonic: SupersonicAir
}

let last: KeptAir | null = null

export function keptAir(outline: readonly Point[]): KeptAir {
  if (last === null || !sameOutline(last.outline, outline))
    last = { outline, subsonic: subsonicAir(outline), supersonic: supersonicAir(outline) }
  return last
}

export const sameOutline = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.length === b.length && a.every(([x, y], i) => x === b[i][0] && y === b[i][1])
