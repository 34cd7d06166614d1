/**
 * The fin's outline in fin axes: x aft along the root from its leading edge, y outboard. A trapezoid is spelled out as points;
 * free points get their edges named: up to the first point of greatest y leading, along greatest y tip, the rest trailing.
 */
import type { EdgeName, FinOutline, Point } from '@finwright/core/assess/design.ts'
import type { CanPlan } from '../schema/can.ts'
import { siValue } from '../schema/judge.ts'
import { allKnown, type Loose, listOf } from './loose.ts'

type TypedOutline = Loose<CanPlan['fins']['outline']> | undefined

export function resolveOutline(outline: TypedOutline): FinOutline | undefined {
  if (outline?.kind === 'trapezoid') return trapezoid(outline)
  if (outline?.kind !== 'points') return undefined
  const points = allKnown(listOf(outline.points)?.map(resolvePoint))
  if (points === undefined || points.length < 2) return undefined
  const stated = outline.edges === undefined ? undefined : allKnown(listOf(outline.edges))
  return { points, edges: stated ?? edgeNames(points) }
}

function resolvePoint(point: Loose<readonly [string, string]> | undefined): Point | undefined {
  if (!Array.isArray(point)) return undefined
  const x = siValue('fins.outline.points[][0]', point[0])
  const y = siValue('fins.outline.points[][1]', point[1])
  return x === undefined || y === undefined ? undefined : [x, y]
}

function trapezoid(outline: Extract<TypedOutline, { kind: 'trapezoid' | undefined }>): FinOutline | undefined {
  const root = siValue('fins.outline.root', outline.root)
  const tip = siValue('fins.outline.tip', outline.tip)
  const span = siValue('fins.outline.span', outline.span)
  const tipOffset = siValue('fins.outline.tipOffset', outline.tipOffset)
  if (root === undefined || tip === undefined || span === undefined || tipOffset === undefined) return undefined
  const start: Point = [0, 0]
  const end: Point = [root, 0]
  if (tip === 0) return { points: [start, [tipOffset, span], end], edges: ['leading', 'trailing'] }
  return { points: [start, [tipOffset, span], [tipOffset + tip, span], end], edges: ['leading', 'tip', 'trailing'] }
}

/** One name a segment. */
export function edgeNames(points: readonly Point[]): readonly EdgeName[] {
  const top = Math.max(...points.map(([, y]) => y))
  const first = points.findIndex(([, y]) => y === top)
  return points.slice(1).map((end, i) => {
    if (i < first) return 'leading'
    return points[i]![1] === top && end[1] === top ? 'tip' : 'trailing'
  })
}
