/**
 * Regions and lines of level of a field on triangles, as outlines on the page: what lies above a level, the line where it is
 * met, the triangles whose own value is above one.
 *
 * A triangle in which the field is straight is cut along the level; the cut pieces' sides are walked in one direction and a
 * side that two pieces share cancels, so that what is left is the outline of them all. Outlines of holes run the other way
 * round. A point where the level crosses a side is named by the side, so that neighbours agree on it exactly.
 */
import type { XY } from './drawing.ts'

export interface Field {
  readonly nodes: readonly XY[]
  readonly triangles: readonly (readonly [number, number, number])[]
  /** At the nodes. */
  readonly values: readonly number[]
}

interface Corner {
  readonly name: string
  readonly at: XY
}

/** Outline of the whole mesh; holes too. */
export const outlineOf = ({ nodes, triangles }: Pick<Field, 'nodes' | 'triangles'>): XY[][] =>
  outlines(triangles.map((corners) => corners.map((i) => ({ name: `${i}`, at: nodes[i] }))))

/** The triangles whose own value is at or above the level, as one. */
export const cellsAbove = (
  { nodes, triangles }: Pick<Field, 'nodes' | 'triangles'>,
  values: readonly number[],
  level: number,
): XY[][] => outlineOf({ nodes, triangles: triangles.filter((_, e) => values[e] >= level) })

/** Where the field is at or above the level; `below` for at or under it. */
export function regionBeyond(field: Field, level: number, side: 'above' | 'below' = 'above'): XY[][] {
  return outlines(field.triangles.map((corners) => cutTriangle(field, corners, { level, side })))
}

/** Where the field meets the level, as open or closed lines; not in triangles where it is within `still` of it throughout. */
export function contour(field: Field, level: number, still = 0): XY[][] {
  const ends = new Map<string, { at: XY; to: string[] }>()
  const add = (from: Corner, to: Corner): void => {
    const known = ends.get(from.name) ?? { at: from.at, to: [] }
    known.to.push(to.name)
    ends.set(from.name, known)
  }
  for (const corners of field.triangles) {
    if (corners.every((i) => Math.abs(field.values[i] - level) < still)) continue
    const met = cutTriangle(field, corners, { level, side: 'above' }).filter(({ name }) => name.includes('-'))
    if (met.length !== 2) continue
    add(met[0], met[1])
    add(met[1], met[0])
  }
  return chained(ends)
}

function cutTriangle(
  { nodes, values }: Field,
  corners: readonly number[],
  { level, side }: { readonly level: number; readonly side: 'above' | 'below' },
): Corner[] {
  const sign = side === 'above' ? 1 : -1
  const over = (i: number): number => sign * (values[i] - level)
  const kept: Corner[] = []
  corners.forEach((i, k) => {
    const j = corners[(k + 1) % corners.length]
    if (over(i) >= 0) kept.push({ name: `${i}`, at: nodes[i] })
    if (over(i) >= 0 !== over(j) >= 0) {
      const [a, b] = i < j ? [i, j] : [j, i]
      const share = over(a) / (over(a) - over(b))
      kept.push({ name: `${a}-${b}`, at: between(nodes[a], nodes[b], share) })
    }
  })
  return kept
}

const between = (a: XY, b: XY, share: number): XY => [a[0] + share * (b[0] - a[0]), a[1] + share * (b[1] - a[1])]

function outlines(pieces: readonly (readonly Corner[])[]): XY[][] {
  const sides = new Map<string, { from: Corner; to: Corner }>()
  for (const piece of pieces) {
    if (piece.length < 3) continue
    piece.forEach((from, k) => {
      const to = piece[(k + 1) % piece.length]
      if (!sides.delete(`${to.name}>${from.name}`)) sides.set(`${from.name}>${to.name}`, { from, to })
    })
  }
  const onward = new Map<string, { from: Corner; to: Corner }[]>()
  for (const side of sides.values()) {
    const known = onward.get(side.from.name)
    if (known === undefined) onward.set(side.from.name, [side])
    else known.push(side)
  }
  const loops: XY[][] = []
  for (const [start, waiting] of onward) {
    while (waiting.length > 0) {
      const loop: XY[] = []
      let next = waiting.pop()
      while (next !== undefined) {
        loop.push(next.from.at)
        next = next.to.name === start ? undefined : onward.get(next.to.name)?.pop()
      }
      if (loop.length > 2) loops.push(loop)
    }
  }
  return loops
}

/** Lines from end to end, then those that close. */
function chained(ends: Map<string, { at: XY; to: string[] }>): XY[][] {
  const lines: XY[][] = []
  const follow = (first: string): void => {
    const line: XY[] = []
    let name: string | undefined = first
    while (name !== undefined) {
      const here: { at: XY; to: string[] } = ends.get(name)!
      line.push(here.at)
      const next: string | undefined = here.to.pop()
      if (next !== undefined) {
        const back = ends.get(next)!.to
        back.splice(back.indexOf(name), 1)
      }
      name = next
    }
    if (line.length > 1) lines.push(line)
  }
  for (const [name, { to }] of ends) if (to.length === 1) follow(name)
  for (const [name, { to }] of ends) if (to.length > 1) follow(name)
  return lines
}

const signedArea = (loop: readonly XY[]): number =>
  loop.reduce((sum, [x0, y0], i) => {
    const [x1, y1] = loop[(i + 1) % loop.length]
    return sum + (x0 * y1 - x1 * y0) / 2
  }, 0)

/**
 * Outlines that one closed path each can fill: a hole is joined to the outline around it by a cut of no width. `turn` is
 * the sign of the area of an outline that is no hole.
 */
export function withoutHoles(loops: readonly (readonly XY[])[]): XY[][] {
  const areas = loops.map(signedArea)
  const turn = Math.sign(areas.reduce((most, area) => (Math.abs(area) > Math.abs(most) ? area : most), 0))
  const outer = loops.filter((_, i) => areas[i] * turn > 0).map((loop) => [...loop])
  for (const hole of loops.filter((_, i) => areas[i] * turn < 0)) {
    const around = outer.reduce((best, loop) =>
      nearest(loop, hole).distance < nearest(best, hole).distance ? loop : best,
    )
    const { i, k } = nearest(around, hole)
    around.splice(i + 1, 0, ...hole.slice(k), ...hole.slice(0, k + 1), around[i])
  }
  return outer
}

function nearest(loop: readonly XY[], hole: readonly XY[]): { i: number; k: number; distance: number } {
  let best = { i: 0, k: 0, distance: Number.POSITIVE_INFINITY }
  loop.forEach(([x0, y0], i) => {
    hole.forEach(([x1, y1], k) => {
      const distance = Math.hypot(x1 - x0, y1 - y0)
      if (distance < best.distance) best = { i, k, distance }
    })
  })
  return best
}
