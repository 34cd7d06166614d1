/** What was read, beside the present outline, with what a file may leave open: its unit, which piece is the root, which end leads. */
import { area } from '@finwright/core/geometry/polygon.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import fieldStyles from '../../parts/Field.module.css'
import { FieldRow } from '../../parts/FieldRow.tsx'
import { Numbers } from '../../parts/Numbers.tsx'
import { pixelsPerMm, useWidth } from '../../parts/use-width.ts'
import { useFigures } from '../../state/use.ts'
import { faultOf, placed, rootChoices } from './import/place.ts'
import type { FoundOutlines } from './import/read-drawing.ts'
import styles from './Outline.module.css'
import { type FreePoints, pointsOf, rootOf, type Shape, spanOf } from './shape.ts'
import { toScreen, viewOf } from './view.ts'

interface PreviewProps {
  readonly found: FoundOutlines
  readonly present: Shape | null
  readonly onTake: (outline: FreePoints) => void
  readonly onLeave: () => void
}

/** m. Inch and foot by definition; a CSS pixel is a 96th of an inch. */
const unitChoices = [
  { value: 'mm', label: 'one millimetre', scale: 1e-3 },
  { value: 'cm', label: 'one centimetre', scale: 1e-2 },
  { value: 'm', label: 'one metre', scale: 1 },
  { value: 'in', label: 'one inch', scale: 0.0254 },
  { value: 'ft', label: 'one foot', scale: 0.3048 },
  { value: 'px', label: 'a 96th of an inch (pixel)', scale: 0.0254 / 96 },
  { value: 'pt', label: 'a 72nd of an inch (point)', scale: 0.0254 / 72 },
]

export function ImportPreview({ found, present, onTake, onLeave }: PreviewProps) {
  const figures = useFigures()
  const [which, setWhich] = useState(0)
  const [unit, setUnit] = useState<string>(found.unit ?? '')
  const [rootAt, setRootAt] = useState<number | null>(null)
  const [turned, setTurned] = useState(false)
  const chain = found.chains[which]!
  const roots = rootChoices(chain)
  const closing = chain.points.length - 1
  const usual = (chain.closed ? undefined : roots.find(({ piece }) => piece === closing)) ?? roots[0]
  const root = roots.find(({ piece }) => piece === rootAt) ?? usual
  const scale = unitChoices.find(({ value }) => value === unit)?.scale ?? null
  const outline = root === undefined || scale === null ? null : placed(chain, { root: root.piece, turned, scale })
  const fault = outline === null ? null : faultOf(outline)
  const left = Object.entries(found.leftOut)
  return (
    <section className={styles.preview} aria-label={`Outline in ${found.name}`}>
      <h3 className={styles.previewTitle}>{found.name}</h3>
      {root === undefined && (
        <p className={styles.refused}>
          No straight piece of this outline has all the rest to one side, so none can be the root. Draw the fin with its
          root as a straight line.
        </p>
      )}
      {found.chains.length > 1 && (
        <Pick
          label="Outline"
          value={`${which}`}
          onChange={(value) => {
            setWhich(Number(value))
            setRootAt(null)
          }}
          options={found.chains.slice(0, 20).map(({ points, closed }, i) => ({
            value: `${i}`,
            label: `${i + 1}, ${points.length} points${closed ? '' : ', open'}`,
          }))}
        />
      )}
      <Pick
        label="A unit of the file is"
        note={found.unit === null ? 'The file does not say.' : 'As the file says.'}
        value={unit}
        onChange={setUnit}
        options={[...(unit === '' ? [{ value: '', label: 'choose' }] : []), ...unitChoices]}
      />
      {root !== undefined && (
        <Pick
          label="The root is the piece of"
          value={`${root.piece}`}
          onChange={(value) => setRootAt(Number(value))}
          options={roots.slice(0, 12).map(({ piece, length }) => ({
            value: `${piece}`,
            label: scale === null ? `${Number(length.toPrecision(4))} units` : figures.length(length * scale),
          }))}
        />
      )}
      <Pick
        label="The end that leads"
        value={turned ? 'other' : 'usual'}
        onChange={(value) => setTurned(value === 'other')}
        options={[
          { value: 'usual', label: 'sweeps the tip aft' },
          { value: 'other', label: 'the other end' },
        ]}
      />
      {outline !== null && <Both outline={outline} present={present} />}
      {outline !== null && (
        <Numbers
          rows={[
            { label: 'Root', value: figures.length(rootOf(outline)) },
            { label: 'Span', value: figures.length(spanOf(outline)) },
            { label: 'Area of a face', value: figures.area(area(outline.points)) },
            { label: 'Points', value: `${outline.points.length}`, note: 'curves are flattened' },
          ]}
        />
      )}
      {left.length > 0 && (
        <p className={styles.hint}>Left out: {left.map(([name, count]) => `${count} ${name}`).join(', ')}.</p>
      )}
      {fault !== null && (
        <p className={styles.refused} role="alert">
          {fault.message} {fault.hint}
        </p>
      )}
      <div className={styles.adds}>
        <Button
          isDisabled={outline === null || fault !== null}
          onPress={() => outline !== null && fault === null && onTake(outline)}
        >
          Take this outline
        </Button>
        <Button kind="quiet" onPress={onLeave}>
          Leave it
        </Button>
        {scale === null && <span className={styles.hint}>Choose the unit first.</span>}
      </div>
    </section>
  )
}

interface PickProps {
  readonly label: string
  readonly note?: string
  readonly value: string
  readonly options: readonly { readonly value: string; readonly label: string }[]
  readonly onChange: (value: string) => void
}

function Pick({ label, note = '', value, options, onChange }: PickProps) {
  return (
    <FieldRow path={['import']} label={label} note={note}>
      {(described) => (
        <select
          {...described}
          className={fieldStyles.select}
          value={value}
          onChange={(event) => onChange(event.target.value)}
        >
          {options.map((option) => (
            <option key={option.value} value={option.value}>
              {option.label}
            </option>
          ))}
        </select>
      )}
    </FieldRow>
  )
}

/** To one scale on one root: the present outline dashed, the new one filled. */
function Both({ outline, present }: { readonly outline: FreePoints; readonly present: Shape | null }) {
  const [element, widthMm] = useWidth<HTMLDivElement>()
  const before = present === null ? [] : pointsOf(present)
  const view = widthMm < 10 ? null : viewOf([...outline.points, ...before], widthMm * pixelsPerMm)
  return (
    <div ref={element} className={styles.both}>
      {view !== null && (
        <svg
          className={styles.drawing}
          viewBox={`0 0 ${view.width} ${view.height}`}
          role="img"
          aria-label="The outline in the file, filled, over the present one, dashed"
        >
          <rect className={styles.body} x={0} y={view.origin[1]} width={view.width} height={26} />
          <path
            className={styles.incoming}
            d={`M${outline.points.map((p) => toScreen(view, p).join(' ')).join('L')}Z`}
          />
          {before.length > 0 && (
            <path className={styles.present} d={`M${before.map((p) => toScreen(view, p).join(' ')).join('L')}Z`} />
          )}
        </svg>
      )}
    </div>
  )
}
