/** The fin on its body, seen from the side, the nose to the left: drag a point or the tip, or move it with the arrow keys. */
import type { Point } from '@finwright/core/assess/design.ts'
import { type PointerEvent, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { pixelsPerMm, useWidth } from '../../parts/use-width.ts'
import { freshName } from '../../state/names.ts'
import { useFigures, useUnits } from '../../state/use.ts'
import { Dimensions } from './Dimensions.tsx'
import styles from './Outline.module.css'
import { grids } from './outline.commands.ts'
import { edgeWords, pointName } from './outline.results.ts'
import { edgesOf, type Handle, pointsOf, type Shape, withoutPoint, withPoint } from './shape.ts'
import { useDrag } from './use-drag.ts'
import { gridLines, toFin, toScreen, type View, viewOf } from './view.ts'

interface DrawingProps {
  readonly shape: Shape
  readonly grid: string
  readonly rightAngles: boolean
}

export function OutlineDrawing({ shape, grid, rightAngles }: DrawingProps) {
  const figures = useFigures()
  const units = useUnits()
  const [element, widthMm] = useWidth<HTMLDivElement>()
  const points = pointsOf(shape)
  const rest = widthMm < 10 ? null : viewOf(points, widthMm * pixelsPerMm)
  const hand = useDrag({ shape, view: rest, grid, rightAngles })
  const [focused, setFocused] = useState<Handle | null>(null)
  const { drag } = hand
  const view = drag === null ? rest : shifted(drag.view, drag.shift)
  const edges = edgesOf(shape)
  const last = points.length - 1
  const step = grids[units].find(({ value }) => value === grid)?.step ?? 0
  const held = drag?.handle ?? focused
  const many = points.length > 40

  const handleProps = (handle: Handle, name: string) => ({
    role: 'button',
    tabIndex: 0,
    'aria-label': `${name}: ${figures.length(points[handle.at]![0])} aft, ${figures.length(points[handle.at]![1])} outboard. Arrow keys move it.`,
    onPointerDown: (event: PointerEvent<SVGElement>) => hand.take(event, handle),
    onPointerMove: hand.pull,
    onPointerUp: hand.letGo,
    onPointerCancel: hand.letGo,
    onFocus: () => {
      hand.freshNudge()
      setFocused(handle)
    },
    onBlur: () => setFocused(null),
    onKeyDown: (event: React.KeyboardEvent) => {
      if (event.key === 'Delete' || event.key === 'Backspace') {
        const next = handle.kind === 'point' ? withoutPoint(shape, handle.at) : null
        if (next !== null) hand.put(next, freshName())
      } else hand.nudge(event, handle)
    },
  })

  return (
    <figure className={styles.figure}>
      <div ref={element}>
        {view !== null && (
          // biome-ignore lint/a11y/useSemanticElements: a drawing with handles in it
          <svg
            className={styles.drawing}
            viewBox={`0 0 ${view.width} ${view.height}`}
            role="group"
            aria-label="Outline of the fin, seen from the side, the nose to the left"
          >
            <Paper view={view} step={step} />
            {drag !== null && <path className={styles.before} d={pathOf(pointsOf(drag.before), drag.view)} />}
            <path className={styles.fin} d={pathOf(points, view)} data-testid="fin" />
            <Dimensions points={points} view={view} live={drag !== null} />
            {edges.map((edge, i) => {
              const tipPiece = isPieceHandle(shape, i)
              const [a, b] = [toScreen(view, points[i]!), toScreen(view, points[i + 1]!)]
              const handle: Handle = { kind: 'piece', at: i }
              return (
                <g key={`piece ${i.toString()}`}>
                  {!many && <EdgeName a={a} b={b} words={edgeWords[edge]} />}
                  {tipPiece && (
                    <g
                      className={styles.piece}
                      data-held={sameHandle(held, handle) || undefined}
                      {...handleProps(handle, `${edgeWords[edge]}, whole`)}
                    >
                      <line className={styles.hit} x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />
                      <line className={styles.pieceLine} x1={a[0]} y1={a[1]} x2={b[0]} y2={b[1]} />
                    </g>
                  )}
                </g>
              )
            })}
            {points.map((point, i) => {
              const [x, y] = toScreen(view, point)
              const handle: Handle = { kind: 'point', at: i }
              return (
                <g
                  key={`point ${i.toString()}`}
                  className={styles.point}
                  data-point={i}
                  data-held={sameHandle(held, handle) || undefined}
                  {...handleProps(handle, pointName(shape, i))}
                >
                  <circle className={styles.hit} cx={x} cy={y} r={many ? 6 : 14} />
                  <circle className={styles.dot} cx={x} cy={y} r={many ? 2.5 : 6} />
                </g>
              )
            })}
            {drag !== null && drag.to.length > 0 && (
              <text className={styles.snapWord} {...wordPlace(toScreen(view, points[drag.handle.at]!))}>
                {drag.to.join(', ')}
              </text>
            )}
          </svg>
        )}
      </div>
      <figcaption className={styles.caption}>
        <span role="status">
          {hand.refused.length > 0 ? (
            <span className={styles.refused}>
              {hand.refused[0]!.message} {hand.refused[0]!.hint}
            </span>
          ) : held === null ? (
            'Seen from the side, the nose to the left; the root on the body.'
          ) : (
            `${held.kind === 'piece' ? `${edgeWords[edges[held.at]!]}, whole` : pointName(shape, held.at)}: ${figures.length(points[held.at]![0])} aft, ${figures.length(points[held.at]![1])} outboard.`
          )}
        </span>
      </figcaption>
      <AddPoint shape={shape} onAdd={(piece) => hand.put(withPoint(shape, piece), freshName())} last={last} />
    </figure>
  )
}

function AddPoint({ shape, onAdd, last }: { shape: Shape; onAdd: (piece: number) => void; last: number }) {
  if (last > 12) return null
  const edges = edgesOf(shape)
  return (
    <div className={styles.adds}>
      <span className={styles.hint}>Put a point in the middle of</span>
      {edges.map((edge, i) => (
        <Button kind="quiet" key={i.toString()} onPress={() => onAdd(i)}>
          {`${edgeWords[edge]}${edges.filter((one) => one === edge).length > 1 ? ` ${edges.slice(0, i + 1).filter((one) => one === edge).length}` : ''}`}
        </Button>
      ))}
    </div>
  )
}

function Paper({ view, step }: { readonly view: View; readonly step: number }) {
  const [left, top] = toFin(view, [0, 0])
  const [right] = toFin(view, [view.width, 0])
  const base = view.origin[1]
  return (
    <>
      {gridLines(step, view, left, right).map((x) => {
        const at = toScreen(view, [x, 0])[0]
        return <line key={`x${x}`} className={styles.grid} x1={at} x2={at} y1={0} y2={base} />
      })}
      {gridLines(step, view, 0, top).map((y) => {
        const at = toScreen(view, [0, y])[1]
        return <line key={`y${y}`} className={styles.grid} x1={0} x2={view.width} y1={at} y2={at} />
      })}
      <rect className={styles.body} x={0} y={base} width={view.width} height={26} />
      <line className={styles.surface} x1={0} x2={view.width} y1={base} y2={base} />
    </>
  )
}

/** Along the piece, on its outer side. */
function EdgeName({ a, b, words }: { readonly a: Point; readonly b: Point; readonly words: string }) {
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  if (length < words.length * 9) return null
  const angle = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI
  const upright = angle > 90 || angle < -90 ? angle + 180 : angle
  return (
    <text
      className={styles.edgeName}
      transform={`translate(${(a[0] + b[0]) / 2} ${(a[1] + b[1]) / 2}) rotate(${upright})`}
      y={upright === angle ? 18 : -9}
    >
      {words}
    </text>
  )
}

const isPieceHandle = (shape: Shape, i: number): boolean =>
  shape.kind === 'trapezoid'
    ? i === 1 && shape.tip > 0
    : edgesOf(shape)[i] === 'tip' && i > 0 && i < shape.points.length - 2

const sameHandle = (a: Handle | null, b: Handle): boolean => a !== null && a.kind === b.kind && a.at === b.at

const shifted = (view: View, shift: number): View => ({
  ...view,
  origin: [view.origin[0] + shift * view.scale, view.origin[1]],
})

const pathOf = (points: readonly Point[], view: View): string =>
  `M${points
    .map((point) =>
      toScreen(view, point)
        .map((value) => value.toFixed(1))
        .join(' '),
    )
    .join('L')}Z`

const wordPlace = ([x, y]: Point) => ({ x: x + 14, y: y - 12 })
