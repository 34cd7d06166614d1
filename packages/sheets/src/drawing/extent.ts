/** The box a primitive takes on its page, line widths apart: to leave out what lies outside, and to keep words apart. */
import type { Box, Group, Primitive, Text, Vertex, XY } from './drawing.ts'
import { capHeight, textWidth } from './lettering.ts'

export function extent(items: readonly Primitive[]): Box | null {
  const points = items.flatMap(corners)
  if (points.length === 0) return null
  const X = points.map(([x]) => x)
  const Y = points.map(([, y]) => y)
  const x = least(X)
  const y = least(Y)
  return { x, y, width: -least(X.map((value) => -value)) - x, height: -least(Y.map((value) => -value)) - y }
}

export const overlaps = (a: Box, b: Box, gap = 0): boolean =>
  a.x < b.x + b.width + gap && b.x < a.x + a.width + gap && a.y < b.y + b.height + gap && b.y < a.y + a.height + gap

/** Corners of the words' box: from the base line down by the descenders' 0.2 em, up to the capitals' height. */
export function textCorners({ at, text, size, face, anchor, turn, tracking }: Text): XY[] {
  const width = textWidth(text, { size, face, tracking })
  const start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width
  const top = -size * capHeight[face]
  const bottom = 0.2 * size
  const c = Math.cos(turn)
  const s = Math.sin(turn)
  const corner = (x: number, y: number): XY => [at[0] + c * x - s * y, at[1] + s * x + c * y]
  return [corner(start, top), corner(start + width, top), corner(start + width, bottom), corner(start, bottom)]
}

/** The box of each text among the items, groups apart. */
export const wordBoxes = (items: readonly Primitive[]): XY[][] =>
  items.flatMap((item) => (item.kind === 'text' ? [textCorners(item)] : []))

export function moved({ move, turn, scale }: Group, [x, y]: XY): XY {
  const c = Math.cos(turn)
  const s = Math.sin(turn)
  return [move[0] + c * scale[0] * x - s * scale[1] * y, move[1] + s * scale[0] * x + c * scale[1] * y]
}

function corners(item: Primitive): XY[] {
  switch (item.kind) {
    case 'path':
      return pathCorners(item.vertices, item.closed)
    case 'lines':
      return item.pairs.flat()
    case 'text':
      return textCorners(item)
    case 'group': {
      const points = item.items.flatMap(corners).map((point) => moved(item, point))
      return item.clip === null ? points : points.map((point) => held(point, item.clip!))
    }
  }
}

/** Ends of every straight and the box of every arc. */
function pathCorners(vertices: readonly Vertex[], closed: boolean): XY[] {
  const points: XY[] = vertices.map(([x, y]) => [x, y])
  vertices.forEach(([x, y, bulge = 0], i) => {
    const next = vertices[i + 1] ?? (closed ? vertices[0] : undefined)
    if (bulge === 0 || next === undefined) return
    for (const at of [0.125, 0.25, 0.375, 0.5, 0.625, 0.75, 0.875]) {
      points.push(arcPoint([x, y], [next[0], next[1]], bulge, at))
    }
  })
  return points
}

/** The point at a fraction of the arc from a to b. */
export function arcPoint(a: XY, b: XY, bulge: number, fraction: number): XY {
  const { centre, radius, from, sweep } = arcOf(a, b, bulge)
  const angle = from + sweep * fraction
  return [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]
}

/** Centre, radius, start angle and signed sweep of the arc from a to b. */
export function arcOf(a: XY, b: XY, bulge: number) {
  const dx = b[0] - a[0]
  const dy = b[1] - a[1]
  // the centre lies at (1 - bulge²) / (4 bulge) chords from the chord's middle, to the right of a → b when y points down
  const off = (1 - bulge ** 2) / (4 * bulge)
  const centre: XY = [(a[0] + b[0]) / 2 - off * dy, (a[1] + b[1]) / 2 + off * dx]
  const sweep = 4 * Math.atan(bulge)
  return {
    centre,
    radius: Math.hypot(a[0] - centre[0], a[1] - centre[1]),
    from: Math.atan2(a[1] - centre[1], a[0] - centre[0]),
    sweep,
  }
}

const held = ([x, y]: XY, clip: Box): XY => [
  Math.min(Math.max(x, clip.x), clip.x + clip.width),
  Math.min(Math.max(y, clip.y), clip.y + clip.height),
]

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY)
