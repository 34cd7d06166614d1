/** Plans kept here: which is open, others to open, copies, files in and out, and what was done to the open one. */
import { useCallback, useEffect, useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { Table } from '../../parts/Numbers.tsx'
import { PageHead, Section } from '../../parts/Page.tsx'
import type { Reply } from '../../server/client.ts'
import * as shelf from '../../server/shelf-of-plans.ts'
import { useSelected, useSession } from '../../state/use.ts'
import { FromFile } from './FromFile.tsx'
import { PlanHistory } from './PlanHistory.tsx'
import styles from './Plans.module.css'
import { when } from './when.ts'

export default function PlansPage() {
  const open = useSelected(useSession().document, ({ id }) => id)
  const [list, setList] = useState<shelf.PlanList | null>(null)
  const [examples, setExamples] = useState<readonly shelf.Example[]>([])
  const [said, say] = useState('')
  const hear = useCallback(<T,>(reply: Reply<T>, then: (value: T) => void): void => {
    if (reply.kind === 'answer') then(reply.value)
    else say(reply.kind === 'gone' ? noServer : reply.issues.map(({ message, hint }) => `${message} ${hint}`).join(' '))
  }, [])
  useEffect(() => {
    void shelf.listPlans().then((reply) => hear(reply, setList))
    void shelf.listExamples().then((reply) => hear(reply, ({ examples: found }) => setExamples(found)))
  }, [hear])
  const opened = <T,>(reply: Reply<T>): void => hear(reply, openWindowAnew)
  const plans = list?.plans ?? []
  const present = plans.find(({ id }) => id === open)
  return (
    <>
      <PageHead
        question="Which plan?"
        answer={
          list === null
            ? 'Looking …'
            : `${plans.length === 1 ? 'One plan is' : `${plans.length} plans are`} kept here. ${present === undefined ? '' : `“${present.name}” is open.`}`
        }
      />
      <p role="alert" className={styles.said}>
        {said}
      </p>
      {list !== null && (
        <>
          <Section title="Kept">
            <Table
              caption="Plans kept here"
              columns={[{ head: 'Plan' }, { head: 'Changed' }, { head: 'What to do' }]}
              rows={plans.map((plan) => [
                plan.name,
                when(plan.changed),
                <span key={plan.id} className={styles.acts}>
                  {plan.id === open ? (
                    <span>open now</span>
                  ) : (
                    <Button
                      kind="quiet"
                      aria-label={`Open ${plan.name}`}
                      onPress={async () => opened(await shelf.openPlan(plan.id))}
                    >
                      Open
                    </Button>
                  )}
                  <Button
                    kind="quiet"
                    aria-label={`Copy ${plan.name}`}
                    onPress={async () => opened(await shelf.copyOfPlan(plan.id))}
                  >
                    Copy
                  </Button>
                  {plan.id !== open && (
                    <Button
                      kind="quiet"
                      aria-label={`Take away ${plan.name}`}
                      onPress={async () => hear(await shelf.takeAway(plan), setList)}
                    >
                      Take away
                    </Button>
                  )}
                </span>,
              ])}
              strong={(row) => plans[row]!.id === open}
            />
            {open !== null && (
              <p className={styles.acts}>
                <a href={shelf.planFileAddress(open)} download>
                  Save the open plan as a file
                </a>
                <a href={shelf.planZipAddress(open)} download>
                  with the files it names (zip)
                </a>
              </p>
            )}
          </Section>
          <FromFile onOpened={openWindowAnew} />
          <Section
            title="Examples"
            lead="Invented rockets to look around in, and studies of plates held against published cases. Opening one makes a plan of its own; the one that is open stays."
          >
            <ul className={styles.examples}>
              {examples.map(({ name, title, note }) => (
                <li key={name}>
                  <Button kind="quiet" onPress={async () => opened(await shelf.planFromExample(name))}>
                    {title}
                  </Button>
                  <span className={styles.note}>{note}</span>
                </li>
              ))}
            </ul>
          </Section>
          {list.removed.length > 0 && (
            <Section title="Taken away" lead="They stay in the database until it is thrown away as a whole.">
              <Table
                caption="Plans taken away"
                columns={[{ head: 'Plan' }, { head: 'Changed' }, { head: 'What to do' }]}
                rows={list.removed.map((plan) => [
                  plan.name,
                  when(plan.changed),
                  <Button
                    key={plan.id}
                    kind="quiet"
                    aria-label={`Bring back ${plan.name}`}
                    onPress={async () => hear(await shelf.bringBack(plan), setList)}
                  >
                    Bring back
                  </Button>,
                ])}
              />
            </Section>
          )}
          {open !== null && <PlanHistory plan={open} />}
        </>
      )}
    </>
  )
}

/** What waits to be sent is kept by the window and goes on from there. */
const openWindowAnew = (): void => window.location.assign('/')

const noServer =
  'The server does not answer, and plans are kept by it. Start it with npm start and come back to this page.'
