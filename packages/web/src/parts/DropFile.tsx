/** Files chosen, or dropped here. */
import { type DragEvent, type ReactNode, useState } from 'react'
import styles from './DropFile.module.css'

interface DropFileProps {
  /** Of the button: `Choose a CSV file`. */
  readonly label: string
  readonly accept: string
  /** More than one at a time. */
  readonly several?: boolean
  /** One at least; one alone unless several may come. */
  readonly onFiles: (files: readonly [File, ...File[]]) => void
  /** Other ways in, beside it. */
  readonly children?: ReactNode
}

export function DropFile({ label, accept, several = false, onFiles, children }: DropFileProps) {
  const [over, setOver] = useState(false)
  const open = (list: FileList | null): void => {
    const [first, ...rest] = list ?? []
    if (first !== undefined) onFiles(several ? [first, ...rest] : [first])
  }
  const onDrop = (event: DragEvent): void => {
    event.preventDefault()
    setOver(false)
    open(event.dataTransfer.files)
  }
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: a place to drop a file; the button in it does the same
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
        {label}
        <input
          className="unseen"
          type="file"
          accept={accept}
          multiple={several}
          onChange={(event) => {
            open(event.target.files)
            event.target.value = ''
          }}
        />
      </label>
      <span className={styles.hint}>{several ? 'or drop them here' : 'or drop one here'}</span>
      {children}
    </div>
  )
}
