/** The can at rest as lines, for browsers without WebGL: seen from above and ahead, far things first. */
import type { Point } from '@finwright/core/geometry/point.ts'
import { convexHull } from '@finwright/core/nest/convex.ts'
import { builtBay } from '@finwright/core/pattern/built/built-bay.ts'
import { bodyEnds, faceOf, inCan, placeOn, type Space, turned } from './ground.ts'
import type { CanModel } from './model.ts'

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
export function stillCan(model: CanModel): Still {
  const { finCount: N, outline, span, plies, geometry, reach } = model
  const { shape } = geometry
  const middle = builtBay({ ...geometry.flatShape, face: () => 0 }, 0)
  const onFin = (p: Point, k: number): Space => turned(faceOf(middle, -1, p).at, k, N)
  const flat: Point[] = []
  const pathOf = (points: readonly Space[]): string => {
    const drawn = points.map(projected)
    flat.push(...drawn)
    return drawnPath(drawn)
  }
  const ring = ({ x, radius }: { readonly x: number; readonly radius: number }): Space[] =>
    Array.from({ length: 72 }, (_, i) => {
      const angle = (2 * Math.PI * i) / 72
      return [x, radius * Math.cos(angle), radius * Math.sin(angle)]
    })
  const half = (shape.x0 + shape.x1) / 2
  const fins = Array.from({ length: N }, (_, k) => ({ k, depth: depth(onFin([half, span], k)) }))
  const finPath = ({ k }: { k: number }): StillPath => ({
    kind: 'fin',
    id: `fin ${k + 1}`,
    order: k,
    d: pathOf(outline.points.map((point) => onFin(point, k))),
  })
  const towards = (bay: number): number => depth(inCan([0, 0, shape.R], bay, N))
  const [facing = 0] = Array.from({ length: N }, (_, bay) => bay).sort((a, b) => towards(b) - towards(a))
  const laid = plies.map(({ id, outline, facets }, i): StillPath => {
    const place = placeOn(facets())
    const points = along(outline).flatMap((point) => {
      const at = place(point)
      return at === null ? [] : [turned(at, facing, N)]
    })
    return { kind: 'ply', id, order: i, d: pathOf(points) }
  })
  const far = fins.filter((one) => one.depth <= 0).map(finPath)
  const near = fins
    .filter((one) => one.depth > 0)
    .sort((a, b) => a.depth - b.depth)
    .map(finPath)
  const ends = bodyEnds(model, reach).map(ring)
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
