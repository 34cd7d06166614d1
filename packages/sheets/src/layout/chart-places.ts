/** Words of a chart beside a point or along a curve: every place is tried, and the one that crosses least is taken. */
import { type Box, fill, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'
import type { Plot, Series } from './chart.ts'
import { bestPlace, type Segment, turnedBox } from './placing.ts'

export const lettering = { size: 2.7, face: 'letter' } as const
export const height = 2.6
export const leading = 3.4

/** What words keep clear of, and the words placed so far. */
export interface Sheet {
  readonly plot: Plot
  readonly lines: readonly Segment[]
  readonly boxes: XY[][]
  /** Hatched stretches of the page's x: words in them get a ground of paper. */
  readonly hatched: readonly (readonly [number, number])[]
}

/** The stretches of a curve between its gaps. */
export function runsOf({ x, y }: Pick<Series, 'x' | 'y'>): (readonly [number, number])[][] {
  const runs: (readonly [number, number])[][] = []
  let run: (readonly [number, number])[] = []
  x.forEach((value, i) => {
    const own = y[i]
    if (own !== null && own !== undefined) run.push([value, own])
    else if (run.length > 0) {
      runs.push(run)
      run = []
    }
  })
  return run.length > 0 ? [...runs, run] : runs
}

/** The stretches of a curve inside the axes, on the page. */
export function visible(series: Series, { at, inside }: Plot): XY[][] {
  const found: XY[][] = []
  for (const run of runsOf(series)) {
    let part: XY[] = []
    for (const [x, y] of run) {
      if (inside(x, y)) part.push(at(x, y))
      else if (part.length > 0) {
        found.push(part)
        part = []
      }
    }
    if (part.length > 0) found.push(part)
  }
  return found
}

/** Steps along a curve at which a name is tried, mm. */
export const step = 2

/** Costs of a place along a curve: under it rather than over it, and for every radian of slope. */
const underCost = 0.5
const slopeCost = 4
/** Of a place near the curve's ends, where another curve may start: times the distance from its middle, 0 to 1. */
const endCost = 1.5

export function along(parts: readonly (readonly XY[])[], label: string, sheet: Sheet): Primitive[] {
  if (label === '' || parts.length === 0) return []
  const width = textWidth(label, lettering)
  const longest = parts.map(walk).reduce((most, one) => (one.length > most.length ? one : most))
  if (longest.length < width + 1) return besidePoint(longest.at(longest.length / 2), label, sheet)
  const candidates = parts.flatMap((points) => {
    const walked = walk(points)
    const { length } = walked
    if (length < width) return []
    const count = Math.floor((length - width) / step)
    return Array.from({ length: count + 1 }, (_, i) => {
      const from = walked.at(i * step)
      const to = walked.at(Math.min(length, i * step + width))
      return { from, to, off: count === 0 ? 0 : Math.abs((2 * i) / count - 1) }
    }).flatMap(({ from, to, off }) => {
      const reach = Math.hypot(to[0] - from[0], to[1] - from[1])
      if (reach < 0.9 * width) return []
      const slope = Math.atan2(to[1] - from[1], to[0] - from[0])
      const turn = Math.abs(slope) <= Math.PI / 2 ? slope : slope + Math.PI
      const middle: XY = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
      return [1, -1].map((side) => {
        const lift = side * (height / 2 + 1.1)
        const centre: XY = [middle[0] + Math.sin(turn) * lift, middle[1] - Math.cos(turn) * lift]
        return {
          centre,
          turn,
          box: turnedBox(centre, width + 1, height + 0.6, turn),
          cost:
            (side < 0 ? underCost : 0) +
            slopeCost * Math.abs(turn) +
            endCost * off +
            outside(centre, width, turn, sheet),
        }
      })
    })
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  return best === null ? [] : word(label, best.place, sheet)
}

/** Ways from a point to its words: direction and distance, mm. */
const around = [2.6, 5, 9, 14, 20].flatMap((distance, ring) =>
  [-0.6, -2.5, 0.6, 2.5, 0, Math.PI, -1.2, -1.9, 1.2, 1.9].map((angle) => ({ angle, distance, cost: ring * 2 })),
)

export function besidePoint(point: XY, label: string, sheet: Sheet): Primitive[] {
  const width = textWidth(label, lettering)
  const candidates = around.flatMap(({ angle, distance, cost }) => {
    const [dx, dy] = [distance * Math.cos(angle), distance * Math.sin(angle)]
    const steep = Math.abs(dx) < 0.4 * distance
    const asides = steep ? [0, -0.45 * width, 0.45 * width] : [Math.sign(dx) * (width / 2 + 0.6)]
    return asides.map((aside) => {
      const centre: XY = [point[0] + dx + aside, point[1] + dy]
      return {
        centre,
        turn: 0,
        end: [point[0] + dx, point[1] + dy - Math.sign(dy) * (steep ? height / 2 + 0.4 : 0)] as XY,
        far: distance > 3,
        box: turnedBox(centre, width + 1, height + 0.8, 0),
        cost: cost + outside(centre, width, 0, sheet),
      }
    })
  })
  const best = bestPlace(candidates, { inside: null, ...sheet })
  if (best === null) return []
  const lead = best.place.far ? [line(point, best.place.end, stroke(pen.hair, 'dark'))] : []
  return [...lead, ...word(label, best.place, sheet)]
}

export function word(label: string, { centre, turn }: { centre: XY; turn: number }, sheet: Sheet): Primitive[] {
  const box = turnedBox(centre, textWidth(label, lettering) + 1, height + 0.6, turn)
  sheet.boxes.push(box)
  const X = box.map(([x]) => x)
  const onHatch = sheet.hatched.some(([from, to]) => Math.max(...X) > from && Math.min(...X) < to)
  const ground = onHatch ? [path(box, true, { fill: fill('paper', 0.85), layer: 'fill' })] : []
  const base: XY = [centre[0] - Math.sin(turn) * 0.95, centre[1] + Math.cos(turn) * 0.95]
  return [...ground, text(base, label, { ...lettering, anchor: 'middle', turn })]
}

export function outside(centre: XY, width: number, turn: number, { plot: { box } }: Sheet): number {
  const corners = turnedBox(centre, width, height, turn)
  return corners.every(([x, y]) => within(box, x, y)) ? 0 : 400
}

const within = (box: Box, x: number, y: number): boolean =>
  x >= box.x && x <= box.x + box.width && y >= box.y && y <= box.y + box.height

/** A point at a distance along a polyline. */
export function walk(points: readonly XY[]) {
  const ends = [0]
  points.slice(1).forEach((point, i) => {
    ends.push(ends[i] + Math.hypot(point[0] - points[i][0], point[1] - points[i][1]))
  })
  const length = ends[ends.length - 1]
  const at = (distance: number): XY => {
    if (points.length === 1 || distance >= length) return points[points.length - 1]
    const i = Math.max(
      1,
      ends.findIndex((end) => end >= distance),
    )
    const share =
      ends[i] === ends[i - 1] ? 0 : Math.min(1, Math.max(0, (distance - ends[i - 1]) / (ends[i] - ends[i - 1])))
    const [a, b] = [points[i - 1], points[i]]
    return [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]
  }
  return { length, at }
}
