/** The outline typed: a trapezoid by its dimensions, free points one by one. */
import type { Issue } from '@finwright/core/issue.ts'
import { parseQuantity } from '@finwright/plan/quantity/parse.ts'
import { plain } from '@finwright/sheets/layout/figures.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import fieldStyles from '../../parts/Field.module.css'
import { FieldRow } from '../../parts/FieldRow.tsx'
import { QuantityField } from '../../parts/QuantityField.tsx'
import { useEnter, usePlan, useUnits } from '../../state/use.ts'
import styles from './Outline.module.css'
import { lengthText, outlineIntent } from './outline.commands.ts'
import { edgeWords, pointName, sweepOf } from './outline.results.ts'
import { asPoints, asTrapezoid, edgesOf, type FreePoints, type Shape, type Trapezoid, withoutPoint } from './shape.ts'

export function OutlineFields({ shape }: { readonly shape: Shape | null }) {
  const plan = usePlan()
  const enter = useEnter()
  const units = useUnits()
  const typed = plan.fins as { readonly outline?: { readonly kind?: string } } | undefined
  if (typed?.outline?.kind === 'trapezoid')
    return (
      <>
        {(['root', 'tip', 'span', 'tipOffset'] as const).map((name) => (
          <QuantityField key={name} path={['fins', 'outline', name]} />
        ))}
        {shape?.kind === 'trapezoid' && <SweepField shape={shape} />}
        {shape !== null && (
          <div className={styles.adds}>
            <Button kind="quiet" onPress={() => enter(outlineIntent(asPoints(shape), units))}>
              Edit as free points
            </Button>
          </div>
        )}
      </>
    )
  if (shape?.kind !== 'points') return null
  const trapezoid = asTrapezoid(shape)
  return (
    <>
      <PointFields shape={shape} />
      {trapezoid !== null && (
        <div className={styles.adds}>
          <Button kind="quiet" onPress={() => enter(outlineIntent(trapezoid, units))}>
            Edit as a trapezoid
          </Button>
        </div>
      )}
    </>
  )
}

/** Not in the plan: it moves the tip. */
function SweepField({ shape }: { readonly shape: Trapezoid }) {
  const enter = useEnter()
  const units = useUnits()
  const [draft, setDraft] = useState<string | null>(null)
  const [issues, setIssues] = useState<readonly Issue[]>([])
  const shown = `${plain((sweepOf(shape) * 180) / Math.PI, 1).replace('−', '-')} deg`

  function take(words: string): void {
    const text = /^[\s+-]?[\d.]+$/.test(words.trim()) ? `${words.trim()} deg` : words
    const read = parseQuantity(text, 'angle')
    if (!read.ok) {
      const { code, reason, hint } = read.problem
      setIssues([
        { code, path: 'fins.outline.tipOffset', value: text, message: `Sweep is '${text}', which ${reason}.`, hint },
      ])
      return
    }
    const value = lengthText(shape.span * Math.tan(read.value), units)
    const made = enter({ name: 'field.set', payload: { path: ['fins', 'outline', 'tipOffset'], value } })
    setIssues(made.ok ? [] : made.issues)
    if (made.ok) setDraft(null)
  }
  return (
    <FieldRow
      path={['fins', 'outline', 'sweep']}
      label="Sweep of the leading edge"
      hint="From square to the root, aft. It moves the tip; the plan keeps the tip’s place."
      issues={issues}
    >
      {(described) => (
        <input
          {...described}
          className={fieldStyles.input}
          data-of-plan=""
          data-unsaved={draft === null ? undefined : ''}
          value={draft ?? shown}
          spellCheck={false}
          autoComplete="off"
          onChange={(event) => setDraft(event.target.value)}
          onFocus={(event) => event.currentTarget.select()}
          onBlur={() => draft !== null && take(draft)}
          onKeyDown={(event) => {
            if (event.key === 'Enter') take(draft ?? shown)
            else if (event.key === 'Escape') {
              setDraft(null)
              setIssues([])
            }
          }}
        />
      )}
    </FieldRow>
  )
}

/** More than this are read from a drawing, and are edited there. */
const listed = 40

function PointFields({ shape }: { readonly shape: FreePoints }) {
  const enter = useEnter()
  const units = useUnits()
  const { points } = shape
  const edges = edgesOf(shape)
  const name = (at: number, edge: string): void => {
    const next = edges.map((one, i) => (i === at ? (edge as (typeof edges)[number]) : one))
    enter(outlineIntent({ ...shape, edges: next }, units))
  }
  if (points.length > listed)
    return (
      <p className={styles.hint}>{points.length} points, read from a drawing. Change them there, or drag them above.</p>
    )
  return (
    <ol className={styles.points}>
      {points.map((_, i) => (
        <li key={`${points.length} ${i.toString()}`}>
          <div className={styles.pointHead}>
            <h3>{pointName(shape, i)}</h3>
            {withoutPoint(shape, i) !== null && (
              <Button
                kind="quiet"
                aria-label={`Take out ${pointName(shape, i)}`}
                onPress={() => {
                  const next = withoutPoint(shape, i)
                  if (next !== null) enter(outlineIntent(next, units))
                }}
              >
                Take out
              </Button>
            )}
          </div>
          {i > 0 && <QuantityField path={['fins', 'outline', 'points', i, 0]} label="Aft" />}
          {i > 0 && i < points.length - 1 && (
            <QuantityField path={['fins', 'outline', 'points', i, 1]} label="Outboard" />
          )}
          {i < edges.length && (
            <FieldRow
              path={['fins', 'outline', 'edges', i]}
              label={`From here to ${i + 2 === points.length ? 'the root' : `point ${i + 2}`}`}
            >
              {(described) => (
                <select
                  {...described}
                  className={fieldStyles.select}
                  value={edges[i]}
                  onChange={(event) => name(i, event.target.value)}
                >
                  {Object.entries(edgeWords).map(([value, words]) => (
                    <option key={value} value={value}>
                      {words}
                    </option>
                  ))}
                </select>
              )}
            </FieldRow>
          )}
        </li>
      ))}
    </ol>
  )
}
