/**
 * The point load at the tip that stresses a fin as the worst air load does: what a proof load must reach.
 *
 *   by failure index    P = I / i        i the greatest index under one newton, either sign, over the inner half of the span
 *   by root moment      P = M / y        y the distance of the tip point from the body's surface
 *
 * The two differ because the air's load stands further in than the tip. Up to the lesser of the two the proof load stresses the inner
 * half no more than the flight does. Nearer to the load stresses are those of whatever presses there and of the thin tip: a point has
 * no finite ones. `tipIndex` says what they come to outside a pad.
 */
import type { Point } from '../geometry/point.ts'
import { nodalForces } from '../plate/loads.ts'
import { worstSpot } from './stress-map.ts'
import type { TestBench } from './test-bench.ts'

export interface TipEquivalent {
  readonly at: Point
  /** N */
  readonly byFailure: number
  readonly byMoment: number
  /** The lesser of the two. */
  readonly governs: 'failure' | 'moment'
  /** Deflection at the point for one newton, m/N. */
  readonly flexibility: number
  /** Where the index of the inner half is greatest under the tip load. */
  readonly position: Point
  /** Greatest index of the outer half for one newton, outside the pad, 1/N. */
  readonly tipIndex: number
}

/** Of the point's distance from the root; common practice, no source. */
const inner = 0.5
/** Radius of the pad over the point's distance from the root; common practice, no source. */
const pad = 0.15

export function tipEquivalent(
  { model, plate, nodes, map, corners }: TestBench,
  at: Point,
  { failureIndex, rootMoment }: { readonly failureIndex: number; readonly rootMoment: number },
): TipEquivalent {
  const unit = nodalForces(model.layout, { forces: [{ at, force: 1 }] })
  const x = plate.solve(unit)
  const strains = map.atNodes(corners(x))
  const spot = worstSpot(nodes, strains, undefined, (_, y) => y <= inner * at[1])
  const outer = worstSpot(
    ...([nodes, strains, undefined] as const),
    (px, y) => y > inner * at[1] && Math.hypot(px - at[0], y - at[1]) > pad * at[1],
  )
  const w = plate.deflection(x)
  const byFailure = failureIndex / spot.index
  const byMoment = rootMoment / at[1]
  const { X } = model.layout.nodes
  return {
    at,
    byFailure,
    byMoment,
    governs: byFailure <= byMoment ? 'failure' : 'moment',
    flexibility: unit.reduce((sum, force, node) => sum + force * w[node], 0),
    position: [X[2 * spot.node], X[2 * spot.node + 1]],
    tipIndex: Math.max(0, outer.index),
  }
}
