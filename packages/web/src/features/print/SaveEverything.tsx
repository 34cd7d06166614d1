/** The whole package in one file, made here; it says how far it is and can be stopped. */
import type { DocumentInput } from '@finwright/sheets/documents.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { save } from '../../parts/save.ts'
import styles from './PrintPage.module.css'
import { everything, notMade, stopPrinting } from './printing.ts'

interface Making {
  readonly what: string
  readonly made: number
  readonly of: number
}

export function SaveEverything({ input }: { readonly input: DocumentInput }) {
  const [making, setMaking] = useState<Making | null>(null)
  const [told, setTold] = useState('')
  const make = async (): Promise<void> => {
    setTold('')
    setMaking({ what: 'beginning', made: 0, of: 0 })
    try {
      const bytes = await everything((what, made, of) => setMaking({ what, made, of }))
      if (bytes !== null) save(`${fileStem(input.assessment.name)}-sheets.zip`, bytes, 'application/zip')
      setTold(bytes === null ? 'Stopped. Nothing was saved.' : 'Saved.')
    } catch (error) {
      setTold(notMade(error))
    } finally {
      setMaking(null)
    }
  }
  return (
    <div className={styles.everything}>
      {making === null ? (
        <Button onPress={() => void make()}>Save everything as PDF</Button>
      ) : (
        <>
          <progress className={styles.progress} aria-label="Documents made" max={making.of || 1} value={making.made} />
          <Button onPress={stopPrinting}>Stop</Button>
        </>
      )}
      <span className={styles.told} role="status">
        {making === null ? told : `${making.made} of ${making.of || '…'}: ${making.what}`}
      </span>
    </div>
  )
}

/** Letters and digits of a name, as a file may be called. */
const fileStem = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '') || 'plan'
