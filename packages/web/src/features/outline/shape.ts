/**
 * The fin's outline as the hand moves it, in fin axes (x aft along the root from its leading edge, y outboard; m). A trapezoid stays
 * one: a corner moves its dimensions. Free points keep the first at the root's leading edge and the last on the root.
 */
import type { EdgeName, Point } from '@finwright/core/assess/design.ts'
import { edgeNames, resolveOutline } from '@finwright/plan/resolve/outline.ts'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { limit, siValue } from '@finwright/plan/schema/judge.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'

export interface Trapezoid {
  readonly kind: 'trapezoid'
  readonly root: number
  readonly tip: number
  readonly span: number
  readonly tipOffset: number
}

export interface FreePoints {
  readonly kind: 'points'
  readonly points: readonly Point[]
  /** As stated in the plan, one a piece; null where they follow from the shape. */
  readonly edges: readonly EdgeName[] | null
}

export type Shape = Trapezoid | FreePoints

/** Null where a dimension cannot be read, or there are not enough points. */
export function shapeOf(plan: unknown): Shape | null {
  const typed = valueAt(plan, ['fins', 'outline']) as Parameters<typeof resolveOutline>[0]
  if (typed?.kind === 'trapezoid') {
    const root = siValue('fins.outline.root', typed.root)
    const tip = siValue('fins.outline.tip', typed.tip)
    const span = siValue('fins.outline.span', typed.span)
    const tipOffset = siValue('fins.outline.tipOffset', typed.tipOffset)
    if (root === undefined || tip === undefined || span === undefined || tipOffset === undefined) return null
    return { kind: 'trapezoid', root, tip, span, tipOffset }
  }
  const outline = resolveOutline(typed)
  if (outline === undefined) return null
  const stated = typed?.kind === 'points' && typed.edges !== undefined
  return { kind: 'points', points: outline.points, edges: stated ? outline.edges : null }
}

/** From the root's leading edge over the tip to its trailing edge. A trapezoid has four, even where its tip is a point. */
export function pointsOf(shape: Shape): readonly Point[] {
  if (shape.kind === 'points') return shape.points
  const { root, tip, span, tipOffset } = shape
  return [
    [0, 0],
    [tipOffset, span],
    [tipOffset + tip, span],
    [root, 0],
  ]
}

/** One name a piece. */
export function edgesOf(shape: Shape): readonly EdgeName[] {
  if (shape.kind === 'trapezoid') return ['leading', 'tip', 'trailing']
  const { points, edges } = shape
  return edges !== null && edges.length === points.length - 1 ? edges : edgeNames(points)
}

/** What the hand has hold of: a point, or the piece from one point to the next. */
export type Handle = { readonly kind: 'point' | 'piece'; readonly at: number }

/** The shape with the handle's point (for a piece: its first) brought there. Everything else stays where it can. */
export function dragged(shape: Shape, handle: Handle, to: Point): Shape {
  return shape.kind === 'trapezoid' ? draggedTrapezoid(shape, handle, to) : draggedPoints(shape, handle, to)
}

const least = {
  root: limit(fields['fins.outline.root'], 'least'),
  span: limit(fields['fins.outline.span'], 'least'),
}

function draggedTrapezoid(shape: Trapezoid, { kind, at }: Handle, [x, y]: Point): Trapezoid {
  const { root, tip, tipOffset } = shape
  const span = Math.max(least.span, y)
  if (kind === 'piece') return at === 1 ? { ...shape, tipOffset: x, span } : shape
  switch (at) {
    case 0: {
      const forward = Math.min(x, root - least.root)
      return { ...shape, root: root - forward, tipOffset: tipOffset - forward }
    }
    case 1: {
      const end = tipOffset + tip
      const start = Math.min(x, end)
      return { ...shape, tipOffset: start, tip: end - start, span }
    }
    case 2:
      return { ...shape, tip: Math.max(0, x - tipOffset), span }
    default:
      return { ...shape, root: Math.max(least.root, x) }
  }
}

/** Points between the ends stay outboard of the root by this much, m. */
const offRoot = 1e-3

function draggedPoints(shape: FreePoints, { kind, at }: Handle, [x, y]: Point): FreePoints {
  const { points } = shape
  const last = points.length - 1
  const put = (moved: ReadonlyMap<number, Point>): FreePoints => ({
    ...shape,
    points: points.map((point, i) => moved.get(i) ?? point),
  })
  if (kind === 'point') {
    if (at === 0) {
      const forward = Math.min(x, points[last]![0] - least.root)
      return { ...shape, points: points.map(([px, py], i) => (i === 0 ? [0, 0] : [px - forward, py])) }
    }
    if (at === last) return put(new Map([[at, [Math.max(least.root, x), 0]]]))
    return put(new Map([[at, [x, Math.max(offRoot, y)]]]))
  }
  if (at === 0 || at + 1 === last) return shape
  const [a, b] = [points[at]!, points[at + 1]!]
  const [dx, dy] = [x - a[0], Math.max(y - a[1], offRoot - Math.min(a[1], b[1]))]
  return put(
    new Map<number, Point>([
      [at, [a[0] + dx, a[1] + dy]],
      [at + 1, [b[0] + dx, b[1] + dy]],
    ]),
  )
}

/** How far the drawing moves under a fixed paper when the root's leading edge, its origin, is dragged there, m. */
export const originShift = (before: Shape, after: Shape, { kind, at }: Handle): number =>
  kind === 'point' && at === 0 ? rootOf(before) - rootOf(after) : 0

export const rootOf = (shape: Shape): number => (shape.kind === 'trapezoid' ? shape.root : shape.points.at(-1)![0])

export const spanOf = (shape: Shape): number => Math.max(...pointsOf(shape).map(([, y]) => y))

/** With a point in the middle of a piece; the two halves keep its name. */
export function withPoint(shape: Shape, piece: number): FreePoints {
  const { points, edges } = asPoints(shape)
  const [a, b] = [points[piece]!, points[piece + 1]!]
  const between: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  return {
    kind: 'points',
    points: [...points.slice(0, piece + 1), between, ...points.slice(piece + 1)],
    edges: edges === null ? null : [...edges.slice(0, piece + 1), ...edges.slice(piece)],
  }
}

/** Null for the ends of the root, and where three points would not be left. */
export function withoutPoint(shape: Shape, at: number): FreePoints | null {
  const { points, edges } = asPoints(shape)
  if (at === 0 || at === points.length - 1 || points.length <= 3) return null
  return {
    kind: 'points',
    points: points.filter((_, i) => i !== at),
    edges: edges === null ? null : edges.filter((_, i) => i !== at),
  }
}

/** A tip that is a point counts once. Edge names are written out, so that moving a point does not rename them. */
export function asPoints(shape: Shape): FreePoints {
  if (shape.kind === 'points') return { ...shape, edges: edgesOf(shape) }
  const points = pointsOf(shape)
  return shape.tip > 0
    ? { kind: 'points', points, edges: ['leading', 'tip', 'trailing'] }
    : { kind: 'points', points: [points[0]!, points[1]!, points[3]!], edges: ['leading', 'trailing'] }
}

/** As a trapezoid, where the points are one; null where not. */
export function asTrapezoid({ points }: FreePoints): Trapezoid | null {
  const [, a, b, end] = points.length === 3 ? [points[0], points[1], points[1], points[2]] : points
  if (points.length > 4 || a === undefined || b === undefined || end === undefined) return null
  if (Math.abs(a[1] - b[1]) > 1e-9 || b[0] < a[0] || points[0]![0] !== 0) return null
  return { kind: 'trapezoid', root: end[0], tip: b[0] - a[0], span: a[1], tipOffset: a[0] }
}
