/** A plan out of a file: read and shown before anything changes, or refused with every reason. */
import type { Issue } from '@finwright/core/issue.ts'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { DropFile } from '../../parts/DropFile.tsx'
import { Numbers } from '../../parts/Numbers.tsx'
import { Section } from '../../parts/Page.tsx'
import { planFromFile } from '../../server/shelf-of-plans.ts'
import styles from './Plans.module.css'
import { chosenFiles, type ReadFiles, readChosen } from './read-file.ts'

export function FromFile({ onOpened }: { readonly onOpened: () => void }) {
  const [read, setRead] = useState<ReadFiles | null>(null)
  const take = async (files: readonly File[]): Promise<void> => setRead(readChosen(await chosenFiles(files)))
  const open = async ({ name, from }: Extract<ReadFiles, { kind: 'read' }>): Promise<void> => {
    const reply = await planFromFile(from)
    if (reply.kind === 'answer') onOpened()
    else setRead({ kind: 'faulty', name, issues: reply.kind === 'gone' ? [noServer] : reply.issues })
  }
  return (
    <Section
      title="From a file"
      lead="A plan file, with the CSV files that it names. You see what was read before anything changes."
    >
      <DropFile
        several
        label="Choose a plan file"
        accept=".json,.csv,application/json,text/csv"
        onFiles={(files) => void take(files)}
      />
      {read?.kind === 'faulty' && <Faults name={read.name} issues={read.issues} onClose={() => setRead(null)} />}
      {read?.kind === 'read' && (
        <div className={styles.preview}>
          <Numbers rows={rowsOf(read)} />
          <p className={styles.acts}>
            <Button onPress={() => void open(read)}>Open it as a plan of its own</Button>
            <Button kind="quiet" onPress={() => setRead(null)}>
              Leave it
            </Button>
          </p>
        </div>
      )}
    </Section>
  )
}

interface FaultsProps {
  readonly name: string
  readonly issues: readonly Issue[]
  readonly onClose: () => void
}

function Faults({ name, issues, onClose }: FaultsProps) {
  return (
    <div className={styles.faults} role="alert">
      <p>
        <strong>{name} was not taken in; nothing was changed.</strong>
      </p>
      <ul>
        {issues.map(({ path, message, hint }) => (
          <li key={`${path} ${message}`}>
            {path !== '' && <code>{path}</code>} {message} {hint}
          </li>
        ))}
      </ul>
      <Button kind="quiet" onPress={onClose}>
        Close
      </Button>
    </div>
  )
}

function rowsOf({ name, plan, named }: Extract<ReadFiles, { kind: 'read' }>) {
  const missing = named.filter(({ here }) => !here).map((file) => file.name)
  const { fins, plies, cans } = plan as {
    readonly fins?: JsonObject
    readonly plies?: unknown[]
    readonly cans?: unknown[]
  }
  return [
    { label: 'Name', value: String(plan.name ?? 'without a name'), note: name },
    { label: 'Fins', value: String(fins?.count ?? 'not stated') },
    { label: 'Plies', value: String(plies?.length ?? 0) },
    { label: 'Cans', value: String(cans?.length ?? 0) },
    ...(named.length === 0
      ? []
      : [
          {
            label: 'Files it names',
            value: named.map((file) => file.name).join(', '),
            note:
              missing.length === 0
                ? 'all came with it'
                : `${missing.join(', ')} did not come with it: choose them together, or attach them on the plan’s page`,
          },
        ]),
  ]
}

const noServer: Issue = {
  code: 'server/gone',
  path: '',
  value: null,
  message: 'The server does not answer, and plans are kept by it.',
  hint: 'Start it with npm start and open the file again.',
}
