/** Root, tip and span as dimension lines round the fin. */
import type { Point } from '@finwright/core/assess/design.ts'
import { useFigures } from '../../state/use.ts'
import styles from './Outline.module.css'
import { toScreen, type View } from './view.ts'

interface DimensionsProps {
  readonly points: readonly Point[]
  readonly view: View
  readonly live: boolean
}

export function Dimensions({ points, view, live }: DimensionsProps) {
  const figures = useFigures()
  const root = points.at(-1)![0]
  const span = Math.max(...points.map(([, y]) => y))
  const tip = points.filter(([, y]) => y > span - 1e-6).map(([x]) => x)
  const [from, to] = [Math.min(...tip), Math.max(...tip)]
  const aft = Math.max(...points.map(([x]) => x))
  const [x0, base] = toScreen(view, [0, 0])
  const [x1] = toScreen(view, [root, 0])
  const [t0, top] = toScreen(view, [from, span])
  const [t1] = toScreen(view, [to, span])
  const side = toScreen(view, [aft, 0])[0] + 26
  return (
    <g className={styles.dimensions} data-live={live || undefined}>
      <Across from={x0} to={x1} y={base + 44} words={figures.length(root)} />
      {to - from > 1e-6 && <Across from={t0} to={t1} y={top - 26} words={figures.length(to - from)} />}
      {from > 1e-6 && <Across from={x0} to={t0} y={top - 26} words={figures.length(from)} />}
      <path d={`M${side - 4} ${base}h8M${side - 4} ${top}h8M${side} ${base}V${top}`} />
      <text x={side + 6} y={(base + top) / 2 + 5}>
        {figures.length(span)}
      </text>
    </g>
  )
}

interface AcrossProps {
  readonly from: number
  readonly to: number
  readonly y: number
  readonly words: string
}

const Across = ({ from, to, y, words }: AcrossProps) => (
  <>
    <path d={`M${from} ${y - 4}v8M${to} ${y - 4}v8M${from} ${y}H${to}`} />
    <text className={styles.middle} x={(from + to) / 2} y={y - 6}>
      {words}
    </text>
  </>
)
