/**
 * Ticks by which a ply lands in place: short full lines that the piece and the wrap that marked out the tube both carry, so that tick
 * falls on tick: a cross where the bay's centre line and the two fillet feet meet each end of the root, and from each end of the
 * piece a stroke inward along each of these three lines. All on the body, where a ply is laid down first.
 *
 * They are set on the body, as stations along it and angles round the axis from the bay's centre line, and from there brought on to
 * each ply's own map: the same places for every ply, whatever its build-up.
 */
import type { Point } from '../geometry/point.ts'
import type { BayMap, MapSide } from './bay-map.ts'
import type { PlyMark } from './marks.ts'
import type { Ends } from './outlines.ts'
import type { PlyCoverKind } from './schedule.ts'

/** From the crossing or the piece's end outward or inward; station and angle. */
export type LandingTick = readonly [readonly [number, number], readonly [number, number]]

export interface LandedPly {
  readonly cover: PlyCoverKind
  /** Of the piece on the body. */
  readonly bodyEnds: Ends
  /** Stations of the root's ends. */
  readonly root: Ends
  /** Angle of a fillet's foot from the bay's centre line, negative on the previous fin's side. */
  readonly foot: (side: MapSide, a: number) => number
  /** Of the bare body. */
  readonly radius: (a: number) => number
}

/** Length of a tick from the crossing. */
const reach = 0.005

export function landingPlaces({ cover, bodyEnds, root, foot, radius }: LandedPly): readonly LandingTick[] {
  const { forward, aft } = bodyEnds
  const sides: readonly MapSide[] = cover === 'bay' ? [1, -1] : cover === 'next' ? [1] : [-1]
  const lines = [...(cover === 'bay' ? [() => 0] : []), ...sides.map((side) => (a: number) => foot(side, a))]
  const onPiece = (a: number): boolean => a >= forward - 1e-9 && a <= aft + 1e-9
  const inward = Math.min(reach, (aft - forward) / 2)
  return lines.flatMap((line) => [
    ...[root.forward, root.aft].filter(onPiece).flatMap((a): LandingTick[] => {
      const [angle, arm] = [line(a), reach / radius(a)]
      return [
        [
          [a - reach, angle],
          [a + reach, angle],
        ],
        [
          [a, angle - arm],
          [a, angle + arm],
        ],
      ]
    }),
    ...[[forward, forward + inward] as const, [aft, aft - inward] as const].map(
      ([end, in_]): LandingTick => [
        [end, line(end)],
        [in_, line(in_)],
      ],
    ),
  ])
}

/** The same on a ply's own flat map. */
export const landingMarks = (
  ply: Pick<LandedPly, 'cover' | 'bodyEnds' | 'root' | 'radius'>,
  map: BayMap,
): readonly PlyMark[] =>
  landingPlaces({ ...ply, foot: map.footAngle }).map(
    (tick): PlyMark => ({
      kind: 'tick',
      points: tick.map(([a, angle]): Point => map.onBody(a, angle)),
      label: '',
    }),
  )
