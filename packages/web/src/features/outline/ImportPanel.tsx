/** An outline out of a file: chosen or dropped, seen, scaled and turned, and only then taken. */
import { type DragEvent, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { useEnter, useUnits } from '../../state/use.ts'
import { ImportPreview } from './ImportPreview.tsx'
import type { Unreadable } from './import/path.ts'
import { type FoundOutlines, readDrawing } from './import/read-drawing.ts'
import styles from './Outline.module.css'
import { outlineIntent } from './outline.commands.ts'
import type { FreePoints, Shape } from './shape.ts'

type State =
  | { readonly kind: 'none' }
  | { readonly kind: 'unreadable'; readonly name: string; readonly fault: Unreadable }
  | { readonly kind: 'read'; readonly found: FoundOutlines }

export function ImportPanel({ present }: { readonly present: Shape | null }) {
  const enter = useEnter()
  const units = useUnits()
  const [state, setState] = useState<State>({ kind: 'none' })
  const [over, setOver] = useState(false)
  const [said, say] = useState('')

  async function open(file: File | undefined): Promise<void> {
    if (file === undefined) return
    say('')
    const read = await readDrawing(file)
    setState(read.ok ? { kind: 'read', found: read.found } : { kind: 'unreadable', name: file.name, fault: read })
  }
  const onDrop = (event: DragEvent): void => {
    event.preventDefault()
    setOver(false)
    void open(event.dataTransfer.files[0])
  }
  const take = (outline: FreePoints): void => {
    const made = enter(outlineIntent(outline, units))
    if (made.ok) {
      setState({ kind: 'none' })
      say('The outline is in the plan. Undo brings the one before back.')
    } else setState({ kind: 'unreadable', name: 'The outline', fault: made.issues[0]! })
  }
  return (
    <>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: a place to drop a file; the button beside it does the same */}
      <div
        className={styles.drop}
        data-over={over || undefined}
        onDragOver={(event) => {
          event.preventDefault()
          setOver(true)
        }}
        onDragLeave={() => setOver(false)}
        onDrop={onDrop}
      >
        <label className={styles.choose}>
          Choose a DXF or SVG file
          <input
            className="unseen"
            type="file"
            accept=".dxf,.svg,image/svg+xml,image/vnd.dxf"
            onChange={(event) => {
              void open(event.target.files?.[0])
              event.target.value = ''
            }}
          />
        </label>
        <span className={styles.hint}>or drop one here</span>
      </div>
      <p className={styles.hint} role="status">
        {said}
      </p>
      {state.kind === 'unreadable' && (
        <div className={styles.faults} role="alert">
          <p>
            {state.name}: {state.fault.message} {state.fault.hint} Nothing was changed.
          </p>
          <Button kind="quiet" onPress={() => setState({ kind: 'none' })}>
            Close
          </Button>
        </div>
      )}
      {state.kind === 'read' && (
        <ImportPreview
          key={state.found.name}
          found={state.found}
          present={present}
          onTake={take}
          onLeave={() => setState({ kind: 'none' })}
        />
      )}
    </>
  )
}
