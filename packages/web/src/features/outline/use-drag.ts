/** Dragging and nudging: a shape under the hand becomes commands of one gesture; the paper lies still until the hand lets go. */
import type { Point } from '@finwright/core/assess/design.ts'
import type { Issue } from '@finwright/core/issue.ts'
import { type KeyboardEvent, type PointerEvent, useRef, useState } from 'react'
import { freshName } from '../../state/names.ts'
import { useEnter, useUnits } from '../../state/use.ts'
import { grids, outlineIntent } from './outline.commands.ts'
import { dragged, type Handle, originShift, pointsOf, type Shape } from './shape.ts'
import { type Snapped, snapped } from './snap.ts'
import { toFin, type View } from './view.ts'

export interface Drag {
  readonly handle: Handle
  readonly gesture: string
  /** As it was when the hand took hold. */
  readonly before: Shape
  readonly view: View
  /** From the handle's point to where it was taken hold of, m. */
  readonly grip: Point
  readonly to: Snapped['to']
  /** m; the origin has moved aft by so much on the paper. */
  readonly shift: number
}

/** px within which a right angle draws the hand. */
const reachPx = 7

export interface DragInput {
  readonly shape: Shape
  readonly view: View | null
  readonly grid: string
  readonly rightAngles: boolean
}

export function useDrag({ shape, view, grid, rightAngles }: DragInput) {
  const enter = useEnter()
  const units = useUnits()
  const [drag, setDrag] = useState<Drag | null>(null)
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const nudging = useRef(freshName())
  const step = grids[units].find(({ value }) => value === grid)?.step ?? 0

  const put = (next: Shape, gesture: string): boolean => {
    const made = enter(outlineIntent(next, units), gesture)
    setRefused(made.ok ? [] : made.issues)
    return made.ok
  }

  const where = (event: PointerEvent<SVGElement>, on: View): Point => {
    const svg = event.currentTarget.ownerSVGElement ?? event.currentTarget
    const box = svg.getBoundingClientRect()
    const size = on.width / box.width
    return toFin(on, [(event.clientX - box.left) * size, (event.clientY - box.top) * size])
  }

  const take = (event: PointerEvent<SVGElement>, handle: Handle): void => {
    if (event.button !== 0 || view === null) return
    event.currentTarget.setPointerCapture(event.pointerId)
    const [x, y] = where(event, view)
    const [px, py] = pointsOf(shape)[handle.at]!
    setDrag({ handle, gesture: freshName(), before: shape, view, grip: [x - px, y - py], to: [], shift: 0 })
  }
  const pull = (event: PointerEvent<SVGElement>): void => {
    if (drag === null) return
    const { handle, before, grip } = drag
    const [x, y] = where(event, drag.view)
    const points = pointsOf(before)
    const rest = snapped([x - grip[0], y - grip[1]], event.altKey ? [] : neighbours(points, handle), {
      grid: event.altKey ? 0 : step,
      rightAngles: rightAngles && !event.altKey && handle.kind === 'point',
      reach: reachPx / drag.view.scale,
    })
    const next = dragged(before, handle, rest.point)
    if (put(next, drag.gesture)) setDrag({ ...drag, to: rest.to, shift: originShift(before, next, handle) })
  }
  const letGo = (): void => setDrag(null)

  const nudge = (event: KeyboardEvent, handle: Handle): void => {
    const by = arrows[event.key]
    if (by === undefined) return
    event.preventDefault()
    const unit = units === 'us' ? 0.0254 / 16 : 1e-3
    const size = (event.altKey ? unit / 10 : step > 0 ? step : unit) * (event.shiftKey ? 10 : 1)
    const [px, py] = pointsOf(shape)[handle.at]!
    put(dragged(shape, handle, [px + by[0] * size, py + by[1] * size]), nudging.current)
  }
  const freshNudge = (): void => {
    nudging.current = freshName()
  }
  return { drag, refused, take, pull, letGo, nudge, freshNudge, put }
}

function neighbours(points: readonly Point[], { at }: Handle): readonly Point[] {
  if (at === 0 || at === points.length - 1) return at === 0 ? [points[1]!] : [points[at - 1]!]
  return [points[at - 1]!, points[at + 1]!]
}

const arrows: Readonly<Record<string, Point>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
}
