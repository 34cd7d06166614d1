/** What was done to the open plan, newest first; any state that was kept can be had again, and undo brings back the present one. */
import { useEffect, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { Table } from '../../parts/Numbers.tsx'
import { Section } from '../../parts/Page.tsx'
import { type HistoryEntry, historyOf, revisionOf } from '../../server/shelf-of-plans.ts'
import { useEnter, useSelected, useSession } from '../../state/use.ts'
import styles from './Plans.module.css'
import { when } from './when.ts'

export function PlanHistory({ plan }: { readonly plan: string }) {
  const enter = useEnter()
  const revision = useSelected(useSession().document, ({ draft }) => draft?.confirmed.revision ?? 0)
  const [entries, setEntries] = useState<readonly HistoryEntry[]>([])
  const [older, setOlder] = useState<number | null>(null)
  const [said, say] = useState('')
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new revision is a new entry
  useEffect(() => {
    void historyOf(plan).then((reply) => {
      if (reply.kind !== 'answer') return
      setEntries(reply.value.entries)
      setOlder(reply.value.older)
    })
  }, [plan, revision])
  const more = async (): Promise<void> => {
    const reply = await historyOf(plan, older ?? undefined)
    if (reply.kind !== 'answer') return
    setEntries([...entries, ...reply.value.entries])
    setOlder(reply.value.older)
  }
  const goBack = async (entry: HistoryEntry): Promise<void> => {
    const reply = await revisionOf(plan, entry.revision)
    if (reply.kind !== 'answer') return say('That state could not be had from the server.')
    const { plan: then, files } = reply.value.record
    const made = enter({ name: 'plan.replace', payload: { plan: then, files, why: `as it was on ${when(entry.at)}` } })
    say(made.ok ? 'The plan is as it was then. Undo brings the present one back.' : made.issues[0]!.message)
  }
  return (
    <Section title="What was done" lead="Every step of the open plan, newest first.">
      <Table
        caption="Steps of the open plan"
        columns={[{ head: 'Step' }, { head: 'When' }, { head: 'What to do' }]}
        rows={entries.map((entry) => [
          entry.kind === 'undo'
            ? `undone: ${entry.label}`
            : entry.kind === 'redo'
              ? `done again: ${entry.label}`
              : entry.label,
          when(entry.at),
          entry.kept && entry.revision !== revision ? (
            <Button
              key={entry.revision}
              kind="quiet"
              aria-label={`As it was after: ${entry.label}, ${when(entry.at)}`}
              onPress={() => void goBack(entry)}
            >
              As it was then
            </Button>
          ) : (
            ''
          ),
        ])}
      />
      {older !== null && (
        <p className={styles.acts}>
          <Button kind="quiet" onPress={() => void more()}>
            Older steps
          </Button>
        </p>
      )}
      <p role="status" className={styles.note}>
        {said}
      </p>
    </Section>
  )
}
