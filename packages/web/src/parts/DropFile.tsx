/** A file chosen, or dropped here. */
import { type DragEvent, type ReactNode, useState } from 'react'
import styles from './DropFile.module.css'

interface DropFileProps {
  /** Of the button: `Choose a CSV file`. */
  readonly label: string
  readonly accept: string
  readonly onFile: (file: File) => void
  /** Other ways in, beside it. */
  readonly children?: ReactNode
}

export function DropFile({ label, accept, onFile, children }: DropFileProps) {
  const [over, setOver] = useState(false)
  const open = (file: File | undefined): void => {
    if (file !== undefined) onFile(file)
  }
  const onDrop = (event: DragEvent): void => {
    event.preventDefault()
    setOver(false)
    open(event.dataTransfer.files[0])
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
          onChange={(event) => {
            open(event.target.files?.[0])
            event.target.value = ''
          }}
        />
      </label>
      <span className={styles.hint}>or drop one here</span>
      {children}
    </div>
  )
}
