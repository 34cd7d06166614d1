/** The lifting surfaces of an outline, kept for the outline asked for last: air forces do not change while plies do. */
import { flutterBoxes, type SubsonicAir, subsonicAir } from '../flutter/lattice-method.ts'
import { type SupersonicAir, supersonicAir } from '../flutter/source-method.ts'
import type { Point } from '../geometry/point.ts'

export interface KeptAir {
  readonly outline: readonly Point[]
  readonly subsonic: SubsonicAir
  readonly supersonic: SupersonicAir
}

let last: { readonly air: KeptAir; readonly boxes: number } | null = null

export function keptAir(outline: readonly Point[], boxes = flutterBoxes): KeptAir {
  if (last === null || last.boxes !== boxes || !sameOutline(last.air.outline, outline)) {
    const air = { outline, subsonic: subsonicAir(outline, boxes), supersonic: supersonicAir(outline, boxes) }
    last = { air, boxes }
  }
  return last.air
}

export const sameOutline = (a: readonly Point[], b: readonly Point[]): boolean =>
  a.length === b.length && a.every(([x, y], i) => x === b[i][0] && y === b[i][1])
