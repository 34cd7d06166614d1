/** An outline out of a file: chosen or dropped, seen, scaled and turned, and only then taken. */
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { DropFile } from '../../parts/DropFile.tsx'
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
  const [said, say] = useState('')

  async function open(file: File): Promise<void> {
    say('')
    const read = await readDrawing(file)
    setState(read.ok ? { kind: 'read', found: read.found } : { kind: 'unreadable', name: file.name, fault: read })
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
      <DropFile
        label="Choose a DXF or SVG file"
        accept=".dxf,.svg,image/svg+xml,image/vnd.dxf"
        onFiles={([file]) => void open(file)}
      />
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
