/**
 * The one drawing interface: a drawing is a list of pages, a page a list of primitives in millimetres.
 *
 * Axes of a page: x to the right, y down, origin at the top left corner. Angles in rad, positive clockwise as seen (from +x
 * towards +y). A vertex may carry a bulge, the tangent of a quarter of the angle of the arc to the next vertex, positive
 * when the arc turns clockwise as seen; arcs of half a turn at most. SVG, PDF and DXF are made from this and nothing else.
 */
import { faceFor, printable } from './lettering.ts'

export type XY = readonly [number, number]
export type Vertex = readonly [x: number, y: number, bulge?: number]

/** What a line is for. `cut` and `net` are the outlines of a piece, `check` the square to measure the print by. */
export type Layer = 'cut' | 'net' | 'mark' | 'fold' | 'weave' | 'text' | 'check' | 'frame' | 'fill'

export type Ink = 'ink' | 'dark' | 'mid' | 'light' | 'pale' | 'saffron' | 'danger' | 'paper'

/** Faces of the lettering: `text`, `strong`, `italic` the humanist sans, `letter` and `title` the engineering lettering. */
export type Face = 'text' | 'strong' | 'italic' | 'letter' | 'title'

export interface Stroke {
  readonly ink: Ink
  readonly width: number
  readonly dash?: readonly number[]
  readonly phase?: number
}

export interface Fill {
  readonly ink: Ink
  /** 0–1. */
  readonly opacity: number
}

export interface Path {
  readonly kind: 'path'
  readonly layer: Layer
  readonly vertices: readonly Vertex[]
  readonly closed: boolean
  readonly stroke: Stroke | null
  readonly fill: Fill | null
}

/** Many straight lines of one stroke: hatches and weaves. */
export interface Lines {
  readonly kind: 'lines'
  readonly layer: Layer
  readonly pairs: readonly (readonly [XY, XY])[]
  readonly stroke: Stroke
}

export interface Text {
  readonly kind: 'text'
  readonly layer: Layer
  /** On the base line: its start, middle or end, by `anchor`. */
  readonly at: XY
  readonly text: string
  /** Em, mm. Capitals are 0.66 em high in the sans and 0.70 em in the lettering. */
  readonly size: number
  readonly face: Face
  readonly ink: Ink
  readonly anchor: 'start' | 'middle' | 'end'
  readonly turn: number
  /** Extra space after each letter, in em. */
  readonly tracking: number
}

/** Items moved by p' = move + turn · (scale · p), and cut off outside `clip` (a rectangle in the outer coordinates). */
export interface Group {
  readonly kind: 'group'
  readonly items: readonly Primitive[]
  readonly move: XY
  readonly turn: number
  readonly scale: XY
  readonly clip: Box | null
}

export type Primitive = Path | Lines | Text | Group

export interface Box {
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

export interface Page {
  readonly width: number
  readonly height: number
  readonly title: string
  readonly items: readonly Primitive[]
}

/** Line widths, mm: the series of ISO 128-2 (recalled). */
export const pen = { hair: 0.13, thin: 0.18, fine: 0.25, net: 0.35, bold: 0.5, heavy: 0.7 } as const

interface PathStyle {
  readonly layer?: Layer
  readonly stroke?: Stroke | null
  readonly fill?: Fill | null
}

export const stroke = (width: number, ink: Ink = 'ink', dash?: readonly number[]): Stroke =>
  dash === undefined ? { ink, width } : { ink, width, dash }

export const fill = (ink: Ink, opacity = 1): Fill => ({ ink, opacity })

export const path = (vertices: readonly Vertex[], closed: boolean, style: PathStyle): Path => ({
  kind: 'path',
  layer: style.layer ?? 'frame',
  vertices,
  closed,
  stroke: style.stroke ?? null,
  fill: style.fill ?? null,
})

export const line = (from: XY, to: XY, style: Stroke, layer: Layer = 'frame'): Path =>
  path([from, to], false, { stroke: style, layer })

export const rectangle = ({ x, y, width, height }: Box, style: PathStyle): Path =>
  path(
    [
      [x, y],
      [x + width, y],
      [x + width, y + height],
      [x, y + height],
    ],
    true,
    style,
  )

export const circle = ([x, y]: XY, radius: number, style: PathStyle): Path =>
  path(
    [
      [x - radius, y, 1],
      [x + radius, y, 1],
    ],
    true,
    style,
  )

/** The arc about `centre` from one angle to another, in pieces of a quarter turn at most. */
export function arcVertices(centre: XY, radius: number, from: number, to: number): Vertex[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(to - from) / (Math.PI / 2)))
  const step = (to - from) / pieces
  const at = (angle: number): XY => [centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]
  const vertices: Vertex[] = []
  for (let i = 0; i < pieces; i++) vertices.push([...at(from + i * step), Math.tan(step / 4)])
  return [...vertices, at(to)]
}

export interface TextStyle {
  readonly size: number
  readonly face?: Face
  readonly ink?: Ink
  readonly anchor?: 'start' | 'middle' | 'end'
  readonly turn?: number
  readonly tracking?: number
  readonly layer?: Layer
}

/** Words on one line. Letters that no face has are shown as question marks. */
export function text(at: XY, words: string, style: TextStyle): Text {
  const face = faceFor(words, style.face ?? 'text')
  return {
    kind: 'text',
    layer: style.layer ?? 'text',
    at,
    text: printable(words, face),
    size: style.size,
    face,
    ink: style.ink ?? 'ink',
    anchor: style.anchor ?? 'start',
    turn: style.turn ?? 0,
    tracking: style.tracking ?? 0,
  }
}

export const group = (
  items: readonly Primitive[],
  place: { readonly move?: XY; readonly turn?: number; readonly scale?: XY; readonly clip?: Box | null },
): Group => ({
  kind: 'group',
  items,
  move: place.move ?? [0, 0],
  turn: place.turn ?? 0,
  scale: place.scale ?? [1, 1],
  clip: place.clip ?? null,
})
