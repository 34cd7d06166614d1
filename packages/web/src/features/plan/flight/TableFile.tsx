/** A table out of a CSV file: chosen, dropped or pasted, read and seen, and only then taken. */
import type { Issue } from '@finwright/core/issue.ts'
import { type PlanTableName, readPlanTable, tableAdvice } from '@finwright/plan/csv/plan-tables.ts'
import { fileLimits } from '@finwright/plan/protocol/commands/file.ts'
import { useMemo, useState } from 'react'
import { Button } from '../../../parts/Button.tsx'
import { DropFile } from '../../../parts/DropFile.tsx'
import { Faults } from '../../../parts/Faults.tsx'
import { useUnits } from '../../../state/use.ts'
import styles from './Flight.module.css'
import { tableName, tableWords } from './flight.results.ts'
import { TableCharts } from './TableCharts.tsx'

export interface TableText {
  readonly file: string
  readonly text: string
}

interface TableFileProps {
  readonly name: PlanTableName
  /** Takes it; what stands in the way, if anything. */
  readonly onTake: (table: TableText) => Promise<readonly Issue[]>
  readonly takeLabel: string
}

export function TableFile({ name, onTake, takeLabel }: TableFileProps) {
  const [seen, setSeen] = useState<TableText | null>(null)
  const [faults, setFaults] = useState<readonly Issue[]>([])
  const [said, say] = useState('')
  const [pasting, setPasting] = useState(false)
  const [pasted, setPasted] = useState('')

  async function open(file: File): Promise<void> {
    say('')
    setSeen(null)
    if (file.size > fileLimits.bytes) {
      setFaults([tooLarge(file)])
      return
    }
    setFaults([])
    setSeen({ file: file.name, text: await file.text() })
  }
  const see = (text: string): void => {
    setFaults([])
    say('')
    setSeen({ file: `${name}.csv`, text })
  }
  const take = async (table: TableText): Promise<void> => {
    const issues = await onTake(table)
    setFaults(issues)
    if (issues.length > 0) return
    setSeen(null)
    setPasting(false)
    setPasted('')
    say(`${table.file} is taken. Undo brings back what stood there before.`)
  }
  return (
    <div className={styles.attach}>
      <DropFile
        label="Choose a CSV file"
        accept=".csv,.txt,.tsv,text/csv,text/plain"
        onFiles={([file]) => void open(file)}
      >
        <Button kind="quiet" onPress={() => setPasting(!pasting)} aria-expanded={pasting}>
          or paste rows
        </Button>
      </DropFile>
      {pasting && (
        <div className={styles.paste}>
          <label>
            Heading and rows, as a spreadsheet copies them
            <textarea
              className={styles.pasted}
              rows={6}
              spellCheck={false}
              value={pasted}
              onChange={(event) => setPasted(event.target.value)}
            />
          </label>
          <Button isDisabled={pasted.trim() === ''} onPress={() => see(pasted)}>
            Look at it
          </Button>
        </div>
      )}
      <p className={styles.hint}>
        {tableAdvice(name)} Columns may stand in any order and in any unit that the heading names; lines that begin with
        # are remarks.
      </p>
      <p className={styles.hint} role="status">
        {said}
      </p>
      {seen !== null && (
        <Preview
          key={`${seen.file} ${seen.text.length}`}
          name={name}
          table={seen}
          takeLabel={takeLabel}
          onTake={() => take(seen)}
          onLeave={() => {
            setSeen(null)
            setFaults([])
          }}
        />
      )}
      {faults.length > 0 && <Faults issues={faults} then="Nothing was changed." />}
    </div>
  )
}

interface PreviewProps {
  readonly name: PlanTableName
  readonly table: TableText
  readonly takeLabel: string
  readonly onTake: () => Promise<void>
  readonly onLeave: () => void
}

function Preview({ name, table, takeLabel, onTake, onLeave }: PreviewProps) {
  const units = useUnits()
  const [taking, setTaking] = useState(false)
  const { columns, issues } = useMemo(
    () => readPlanTable(name, { name: table.file, text: table.text }),
    [name, table.file, table.text],
  )
  return (
    <section className={styles.preview} aria-label={`What stands in ${table.file}`}>
      <h3 className={styles.previewTitle}>{table.file}</h3>
      {columns === undefined ? (
        <Faults issues={issues} then="Nothing was changed. Correct the file and choose it again." />
      ) : (
        <>
          <p>
            {tableName(name)}: {tableWords(name, columns, units)}
          </p>
          <TableCharts name={name} columns={columns} />
        </>
      )}
      <div className={styles.acts}>
        {columns !== undefined && (
          <Button
            isDisabled={taking}
            onPress={() => {
              setTaking(true)
              void onTake().finally(() => setTaking(false))
            }}
          >
            {taking ? 'Taking it …' : takeLabel}
          </Button>
        )}
        <Button kind="quiet" onPress={onLeave}>
          {columns === undefined ? 'Close' : 'Leave it'}
        </Button>
      </div>
    </section>
  )
}

const tooLarge = (file: File): Issue => ({
  code: 'csv/too-large',
  path: '',
  value: file.size,
  message: `${file.name} has ${Math.round(file.size / 2 ** 20)} MB; at most ${fileLimits.bytes / 2 ** 20} MB are taken.`,
  hint: 'Thin it out: a hundred points a second are more than enough.',
})
