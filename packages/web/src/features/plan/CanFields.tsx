/** The cans to make: put in, renamed, taken out. */
import type { Issue } from '@finwright/core/issue.ts'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import tableStyles from '../../parts/EditTable.module.css'
import { Faults } from '../../parts/Faults.tsx'
import { useEnter } from '../../state/use.ts'
import { useField } from '../../state/use-field.ts'
import { addedCan, cansOf, removedCan, renamedCan, setPurpose } from './cans.commands.ts'
import styles from './PlanPage.module.css'

const purposes = [
  { value: 'flight', label: 'to fly' },
  { value: 'backup', label: 'as backup' },
  { value: 'practice', label: 'for practice' },
]

export function CanFields() {
  const { typed, standing, issues } = useField(['cans'])
  const enter = useEnter()
  const [refused, setRefused] = useState<readonly Issue[]>([])
  const stated = Array.isArray(typed)
  const cans = cansOf(typed ?? standing?.value)
  const go = (made: ReturnType<typeof addedCan>): void => {
    if (!made.ok) {
      setRefused(made.issues)
      return
    }
    const entered = enter(made.intent)
    setRefused(entered.ok ? [] : entered.issues)
  }
  return (
    <div className={styles.cans} data-path="cans">
      <table className={tableStyles.table}>
        <caption className="unseen">Cans to make</caption>
        <thead>
          <tr>
            <th scope="col">Letter</th>
            <th scope="col">What it is for</th>
            <th scope="col">
              <span className="unseen">Take out</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {cans.map((can, at) => (
            <tr key={`${at.toString()} ${letterOf(can)}`} data-path={`cans[${at}]`}>
              <td>
                <Letter can={can} at={at} onRename={(letter) => go(renamedCan(cans, stated, at, letter))} />
              </td>
              <td>
                <select
                  className={tableStyles.input}
                  aria-label={`What can ${letterOf(can)} is for`}
                  value={typeof can.purpose === 'string' ? can.purpose : 'flight'}
                  onChange={(event) => go(setPurpose(cans, stated, at, event.target.value))}
                >
                  {purposes.map(({ value, label }) => (
                    <option key={value} value={value}>
                      {label}
                    </option>
                  ))}
                </select>
              </td>
              <td className={tableStyles.acts}>
                <button
                  type="button"
                  className={tableStyles.act}
                  disabled={cans.length < 2}
                  aria-label={`Take out can ${letterOf(can)}`}
                  onClick={() => go(removedCan(cans, stated, at))}
                >
                  take out
                </button>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
      {[...issues, ...refused].length > 0 && <Faults issues={[...issues, ...refused]} />}
      <Button onPress={() => go(addedCan(cans, stated))}>Add a can</Button>
      {!stated && <span className={styles.hint}>Nothing stated; taken: {standing?.source}.</span>}
    </div>
  )
}

const letterOf = ({ letter }: JsonObject): string => String(letter ?? '?')

interface LetterProps {
  readonly can: JsonObject
  readonly at: number
  readonly onRename: (letter: string) => void
}

function Letter({ can, at, onRename }: LetterProps) {
  const { issues } = useField(['cans', at, 'letter'])
  const kept = letterOf(can)
  const [draft, setDraft] = useState<string | null>(null)
  const take = (): void => {
    if (draft !== null && draft.trim().toUpperCase() !== kept) onRename(draft.trim().toUpperCase())
    setDraft(null)
  }
  return (
    <span className={tableStyles.cell} data-faulty={issues.length > 0 || undefined}>
      <input
        className={`${tableStyles.input} ${styles.letter}`}
        aria-label={`Letter of can ${kept}`}
        data-of-plan=""
        data-unsaved={draft === null ? undefined : ''}
        value={draft ?? kept}
        maxLength={3}
        spellCheck={false}
        onFocus={(event) => event.currentTarget.select()}
        onChange={(event) => setDraft(event.target.value)}
        onBlur={take}
        onKeyDown={(event) => event.key === 'Enter' && take()}
      />
      {issues.map(({ code, message, hint }) => (
        <span key={code} className={tableStyles.faults}>
          {message} {hint}
        </span>
      ))}
    </span>
  )
}
