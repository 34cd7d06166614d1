/** What was answered, drawn to scale: the can from behind, and one fin with where its plies end. */

import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { siValue } from '@finwright/plan/schema/judge.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import styles from './StartPage.module.css'

export function StartSketch({ plan }: { readonly plan: JsonObject }) {
  const fin = finOf(plan)
  if (fin === null) return null
  return (
    <div className={styles.sketch}>
      <FromBehind {...fin} />
      <FromTheSide {...fin} />
    </div>
  )
}

interface Fin {
  readonly R: number
  readonly wall: number
  readonly count: number
  readonly root: number
  readonly tip: number
  readonly span: number
  readonly offset: number
  readonly core: number
  readonly fillet: number
  readonly steps: readonly number[]
}

/** mm. */
function finOf(plan: JsonObject): Fin | null {
  const at = (...path: (string | number)[]): unknown => valueAt(plan, path)
  const length = (key: Parameters<typeof siValue>[0], ...path: string[]): number =>
    1e3 * (siValue(key, at(...path)) ?? NaN)
  const outline = ['fins', 'outline'] as const
  const fin: Fin = {
    R: length('tube.outerDiameter', 'tube', 'outerDiameter') / 2,
    wall: length('tube.wall', 'tube', 'wall'),
    count: Number(at('fins', 'count')),
    root: length('fins.outline.root', ...outline, 'root'),
    tip: length('fins.outline.tip', ...outline, 'tip'),
    span: length('fins.outline.span', ...outline, 'span'),
    offset: length('fins.outline.tipOffset', ...outline, 'tipOffset'),
    core: length('fins.core.thickness', 'fins', 'core', 'thickness'),
    fillet: length('fins.fillet.radius', 'fins', 'fillet', 'radius'),
    steps: (at('plies') as readonly JsonObject[]).flatMap((ply) => {
      const step = valueAt(ply, ['stepBack', 'tip'])
      return step === undefined ? [] : [1e3 * (siValue('plies[].stepBack.tip', step) ?? 0)]
    }),
  }
  return Object.values(fin).every((value) => Array.isArray(value) || Number.isFinite(value)) ? fin : null
}

function FromBehind({ R, wall, count, span, core, fillet }: Fin) {
  const reach = R + span + 4
  const angles = Array.from({ length: count }, (_, i) => (360 * i) / count)
  // The fillet's circle touches the face and the tube: its middle lies r off the face and R + r from the axis.
  const up = Math.sqrt(Math.max((R + fillet) ** 2 - (core / 2 + fillet) ** 2, 0))
  const foot = [((core / 2 + fillet) * R) / (R + fillet), (up * R) / (R + fillet)] as const
  const side = (s: number): string =>
    `M${(s * core) / 2} ${-up}A${fillet} ${fillet} 0 0 ${s > 0 ? 0 : 1} ${s * foot[0]} ${-foot[1]}L${(s * core) / 2} ${-foot[1]}Z`
  return (
    <svg
      viewBox={`${-reach} ${-reach} ${2 * reach} ${2 * reach}`}
      role="img"
      aria-label={`${count} fins from behind, to scale`}
    >
      <circle r={R - wall / 2} className={styles.tube} strokeWidth={wall} />
      {angles.map((angle) => (
        <g key={angle} transform={`rotate(${angle})`}>
          <path className={styles.fillet} d={side(1) + side(-1)} />
          <rect className={styles.core} x={-core / 2} y={-R - span} width={core} height={span} />
        </g>
      ))}
    </svg>
  )
}

function FromTheSide({ root, tip, span, offset, steps }: Fin) {
  const left = Math.min(0, offset)
  const right = Math.max(root, offset + tip)
  const outline = [
    [0, 0],
    [offset, -span],
    [offset + tip, -span],
    [root, 0],
  ] as const
  const pad = 6
  const at = (y: number) => [(offset * y) / span, root + ((offset + tip - root) * y) / span] as const
  return (
    <svg
      viewBox={`${left - pad} ${-span - pad} ${right - left + 2 * pad} ${span + 2 * pad}`}
      role="img"
      aria-label={`One fin from the side, to scale; ${steps.length + 1} plies step back from its edges`}
    >
      <path className={styles.face} d={`M${outline.map(([x, y]) => `${x} ${y}`).join('L')}Z`} />
      {steps.map((step) => {
        const [l0, r0] = at(0)
        const [l1, r1] = at(Math.max(span - step, 0))
        return r1 - l1 > 2 * step ? (
          <path
            key={step}
            className={styles.ply}
            d={`M${l0 + step} 0L${l1 + step} ${-(span - step)}L${r1 - step} ${-(span - step)}L${r0 - step} 0`}
          />
        ) : null
      })}
      <path className={styles.edge} d={`M${outline.map(([x, y]) => `${x} ${y}`).join('L')}Z`} />
    </svg>
  )
}
