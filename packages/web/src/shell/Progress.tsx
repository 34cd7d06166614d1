/** What is being worked out, with a way to stop it; and whether the server keeps what was entered. */
import { useEffect, useState } from 'react'
import { Button } from '../parts/Button.tsx'
import { useAnswers, useBefore, useDocument, useSession } from '../state/use.ts'
import styles from './Progress.module.css'

/** Work that is over sooner is not announced, ms. */
const patience = 250

export function Progress() {
  const { asked, assessment, key, issues } = useAnswers()
  const { connection, draft, undo } = useDocument()
  const session = useSession()
  const { answers } = session
  const before = useBefore()
  const long = useHeldFor(asked !== null, patience)
  const waiting = draft?.waiting.length ?? 0
  if (connection === 'gone')
    return (
      <Told
        state="gone"
        words={`Server gone. ${waiting === 0 ? 'Nothing waits.' : `${waiting} ${waiting === 1 ? 'change waits' : 'changes wait'} here.`}`}
      />
    )
  if (asked !== null && long)
    return (
      <Told state="busy" words={asked.step === '' ? 'Working it out' : asked.step}>
        <Button kind="quiet" onPress={answers.cancel}>
          Stop
        </Button>
      </Told>
    )
  if (asked !== null) return <Told state="rest" words="Working it out" />
  if (assessment?.key !== key && issues?.key !== key)
    return (
      <Told state="stopped" words="Stopped; some numbers are old">
        <Button kind="quiet" onPress={answers.again}>
          Go on
        </Button>
      </Told>
    )
  if (before !== null)
    return (
      <Told state="rest" words={undo === null ? 'Compared with before' : `Changed: ${undo}`}>
        <Button kind="quiet" onPress={session.before.forget} aria-label="Settle: stop comparing with before">
          Settle
        </Button>
      </Told>
    )
  return <Told state="rest" words="All worked out and kept" />
}

interface ToldProps {
  readonly state: 'busy' | 'gone' | 'stopped' | 'rest'
  readonly words: string
  readonly children?: React.ReactNode
}

function Told({ state, words, children }: ToldProps) {
  return (
    <div className={styles.progress} data-state={state}>
      <span className={styles.words} role="status">
        {words}
      </span>
      {children}
    </div>
  )
}

function useHeldFor(on: boolean, delay: number): boolean {
  const [held, setHeld] = useState(false)
  useEffect(() => {
    if (!on) {
      setHeld(false)
      return
    }
    const timer = setTimeout(() => setHeld(true), delay)
    return () => clearTimeout(timer)
  }, [on, delay])
  return held
}
