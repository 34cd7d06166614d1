/** The can at rest as lines, for browsers without WebGL: seen from above and ahead, far things first. */
import type { Point } from '@finwright/core/geometry/point.ts'
import { convexHull } from '@finwright/core/nest/convex.ts'
import type { CanModel } from './can-scene.ts'
import { folded, onFin, type Space } from './fold.ts'

export interface StillPath {
  readonly kind: 'tube' | 'fin' | 'ply'
  /** Of a ply: its name, and which of how many. */
  readonly id: string
  readonly order: number
  /** SVG path data, mm. */
  readonly d: string
}

export interface Still {
  readonly paths: readonly StillPath[]
  /** x, y, width, height; mm. */
  readonly box: readonly [number, number, number, number]
}

/** Plies of the bay whose middle faces the eye most. */
export function stillCan({ section, fin, plies }: CanModel): Still {
  const N = section.finCount
  const L = section.rootLength_m
  const flat: Point[] = []
  const pathOf = (points: readonly Space[]): string => {
    const drawn = points.map(projected)
    flat.push(...drawn)
    return drawnPath(drawn)
  }
  const ring = (x: number): Space[] =>
    Array.from({ length: 72 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 72
      return [x, section.tubeRadius_m * Math.cos(angle), section.tubeRadius_m * Math.sin(angle)]
    })
  const fins = Array.from({ length: N }, (_, k) => ({ k, depth: depth(onFin([L / 2, section.span_m], k, 0, section)) }))
  const finPath = ({ k }: { k: number }): StillPath => ({
    kind: 'fin',
    id: `fin ${k + 1}`,
    order: k,
    d: pathOf(fin.map((point) => onFin(point, k, 0, section))),
  })
  const towards = (bay: number): number => depth(folded([0, 0], bay, 0, section))
  const facing = Array.from({ length: N }, (_, bay) => bay)
    .sort((a, b) => towards(b) - towards(a))
    .slice(0, 1)
  const laid = facing.flatMap((bay) =>
    plies.map(
      ({ id, outline }, i): StillPath => ({
        kind: 'ply',
        id,
        order: i,
        d: pathOf(along(outline).map((point) => folded(point, bay, 0, section))),
      }),
    ),
  )
  const far = fins.filter((one) => one.depth <= 0).map(finPath)
  const near = fins
    .filter((one) => one.depth > 0)
    .sort((a, b) => a.depth - b.depth)
    .map(finPath)
  const ends = [-0.5 * L, 1.5 * L].map(ring)
  const tube: StillPath[] = [
    { kind: 'tube', id: 'tube', order: 0, d: drawnPath(hullOf(ends.flat().map(projected))) },
    { kind: 'tube', id: 'end', order: 0, d: pathOf(ends[1]!) },
  ]
  for (const end of ends) pathOf(end)
  const [xs, ys] = [flat.map(([x]) => x), flat.map(([, y]) => y)]
  const [x, y] = [Math.min(...xs), Math.min(...ys)]
  return {
    paths: [...far, ...tube, ...near, ...laid],
    box: [x - 5, y - 5, Math.max(...xs) - x + 10, Math.max(...ys) - y + 10],
  }
}

const drawnPath = (points: readonly Point[]): string =>
  `M${points.map(([x, y]) => `${x.toFixed(2)} ${y.toFixed(2)}`).join('L')}Z`

const [turn, tilt] = [0.55, 0.5]

/** Turned about the upright, tilted, and seen from afar; mm, y down. */
function projected([x, y, z]: Space): Point {
  const across = x * Math.cos(turn) + z * Math.sin(turn)
  return [1e3 * across, -1e3 * (y * Math.cos(tilt) - inward([x, y, z]) * Math.sin(tilt))]
}

const inward = ([x, , z]: Space): number => z * Math.cos(turn) - x * Math.sin(turn)

/** Towards the eye, from the axis. */
const depth = ([, y, z]: Space): number => y * Math.sin(tilt) + z * Math.cos(turn) * Math.cos(tilt)

/** With points between, so that straight edges bend with the surface. */
function along(outline: readonly Point[]): Point[] {
  return outline.flatMap(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]!
    const pieces = Math.max(1, Math.ceil(Math.hypot(x1 - x0, y1 - y0) / 4e-3))
    return Array.from(
      { length: pieces },
      (_, k): Point => [x0 + ((x1 - x0) * k) / pieces, y0 + ((y1 - y0) * k) / pieces],
    )
  })
}

const hullOf = (points: readonly Point[]): Point[] =>
  convexHull(points.map(([x, y]) => ({ x, y }))).map(({ x, y }): Point => [x, y])
