/**
 * Where words go: inside an outline where there is one, clear of lines and of other words.
 * Every candidate place is tried in order and the one with the least cost is taken; the first of equals wins.
 */
import type { XY } from '../drawing/drawing.ts'

export type Segment = readonly [XY, XY]

export interface Surroundings {
  /** Words must stay inside; null where there is no outline. */
  readonly inside: readonly XY[] | null
  readonly lines: readonly Segment[]
  readonly boxes: readonly (readonly XY[])[]
}

/** Costs: a word across another is worse than any number of lines. */
const boxCost = 1000
const lineCost = 10
const outsideCost = 400

/** The candidate whose box costs least, with that cost. */
export function bestPlace<T extends { readonly box: readonly XY[]; readonly cost?: number }>(
  candidates: readonly T[],
  around: Surroundings,
): { readonly place: T; readonly cost: number } | null {
  let chosen: T | null = null
  let least = Number.POSITIVE_INFINITY
  for (const place of candidates) {
    const own = place.cost ?? 0
    if (own >= least) continue
    const cost = own + costOf(place.box, around, least - own)
    if (cost < least) {
      chosen = place
      least = cost
    }
  }
  return chosen === null ? null : { place: chosen, cost: least }
}

function costOf(box: readonly XY[], { inside, lines, boxes }: Surroundings, limit: number): number {
  let cost = 0
  const X = box.map(([x]) => x)
  const Y = box.map(([, y]) => y)
  const [left, right, top, bottom] = [Math.min(...X), Math.max(...X), Math.min(...Y), Math.max(...Y)]
  const clearOf = ([ax, ay]: XY, [bx, by]: XY): boolean =>
    (ax < left && bx < left) || (ax > right && bx > right) || (ay < top && by < top) || (ay > bottom && by > bottom)
  if (inside !== null && !box.every((corner) => contains(inside, corner))) cost += outsideCost
  if (cost >= limit) return cost
  for (const other of boxes) {
    if (cost >= limit) return cost
    if (polygonsMeet(box, other)) cost += boxCost
  }
  for (const [a, b] of lines) {
    if (cost >= limit) return cost
    if (!clearOf(a, b) && polygonsMeet(box, [a, b])) cost += lineCost
  }
  return cost
}

/** Even-odd rule. */
export function contains(outline: readonly XY[], [x, y]: XY): boolean {
  let inside = false
  let [x0, y0] = outline[outline.length - 1]
  for (const [x1, y1] of outline) {
    if (y0 <= y !== y1 <= y && x < x0 + ((y - y0) / (y1 - y0)) * (x1 - x0)) inside = !inside
    x0 = x1
    y0 = y1
  }
  return inside
}

export const edgesOf = (outline: readonly XY[]): Segment[] =>
  outline.map((point, i) => [point, outline[(i + 1) % outline.length]] as const)

export const stretchesOf = (points: readonly XY[]): Segment[] =>
  points.slice(1).map((point, i) => [points[i], point] as const)

/** The outline with vertices left out where that moves it by less than `tolerance`; enough to keep words away from it. */
export function simplified(outline: readonly XY[], tolerance = 0.4): XY[] {
  const kept: XY[] = []
  let from = 0
  for (let i = 1; i < outline.length; i++) {
    const next = outline[(i + 1) % outline.length]
    const straight = outline.slice(from + 1, i + 1).every((point) => distanceTo(point, outline[from], next) < tolerance)
    if (straight) continue
    kept.push(outline[from])
    from = i
  }
  return [...kept, outline[from]]
}

function distanceTo([x, y]: XY, [ax, ay]: XY, [bx, by]: XY): number {
  const length = Math.hypot(bx - ax, by - ay)
  if (length === 0) return Math.hypot(x - ax, y - ay)
  return Math.abs((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / length
}

/** A rectangle about `middle`, turned, as its four corners. */
export function turnedBox([x, y]: XY, width: number, height: number, turn: number): XY[] {
  const c = Math.cos(turn) / 2
  const s = Math.sin(turn) / 2
  const corner = (w: number, h: number): XY => [x + c * w - s * h, y + s * w + c * h]
  return [corner(-width, -height), corner(width, -height), corner(width, height), corner(-width, height)]
}

/** Places in the order wanted, no two nearer than `least`; groups that push stay centred on what they wanted. */
export function spread(wanted: readonly number[], least: number): number[] {
  const groups: { sum: number; count: number; members: number[] }[] = []
  const order = wanted.map((_, i) => i).sort((a, b) => wanted[a] - wanted[b])
  const start = ({ sum, count }: { sum: number; count: number }): number => sum / count - ((count - 1) / 2) * least
  for (const i of order) {
    groups.push({ sum: wanted[i], count: 1, members: [i] })
    while (groups.length > 1) {
      const [before, last] = groups.slice(-2)
      if (start(last) - (start(before) + (before.count - 1) * least) >= least - 1e-9) break
      groups.splice(-2, 2, {
        sum: before.sum + last.sum,
        count: before.count + last.count,
        members: [...before.members, ...last.members],
      })
    }
  }
  const places = wanted.map(() => 0)
  for (const one of groups) {
    one.members.forEach((i, k) => {
      places[i] = start(one) + k * least
    })
  }
  return places
}

/** Both polygons convex. */
function polygonsMeet(a: readonly XY[], b: readonly XY[]): boolean {
  return !separated(a, b) && !separated(b, a)
}

/** True when an edge of the first polygon has all of the second on its far side. */
function separated(a: readonly XY[], b: readonly XY[]): boolean {
  let [x0, y0] = a[a.length - 1]
  for (const [x1, y1] of a) {
    const nx = y1 - y0
    const ny = x0 - x1
    const own = span(a, nx, ny)
    const other = span(b, nx, ny)
    if (own.high < other.low || other.high < own.low) return true
    x0 = x1
    y0 = y1
  }
  return false
}

function span(points: readonly XY[], nx: number, ny: number): { low: number; high: number } {
  let low = Number.POSITIVE_INFINITY
  let high = Number.NEGATIVE_INFINITY
  for (let i = 0; i < points.length; i++) {
    const value = nx * points[i][0] + ny * points[i][1]
    if (value < low) low = value
    if (value > high) high = value
  }
  return { low, high }
}
