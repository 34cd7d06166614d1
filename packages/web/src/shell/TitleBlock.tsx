/** The head of the window, as a drawing's title block: which plan, what can be undone, how numbers are shown, what is going on. */
import { useEffect, useState } from 'react'
import { Link } from 'wouter'
import { Button } from '../parts/Button.tsx'
import { Choice } from '../parts/Choice.tsx'
import { chooseTheme, theme } from '../state/theme.ts'
import { useEnter, usePlan, useSelected, useSession, useStore, useUnits } from '../state/use.ts'
import { Progress } from './Progress.tsx'
import styles from './TitleBlock.module.css'

export function TitleBlock() {
  return (
    <header className={styles.block}>
      <Link href="/" className={styles.mark}>
        <Fin />
        Finwright
      </Link>
      <PlanName />
      <Steps />
      <Progress />
      <Display />
    </header>
  )
}

function Fin() {
  return (
    <svg viewBox="0 0 30 20" width="30" height="20" aria-hidden="true" className={styles.fin}>
      <path d="M1 18 15 1h8l5 17z" />
      <path className={styles.weave} d="M7 18 19.5 1M12.5 18 21.5 1M18 18l6-13M23.500 18l2.400-6.500" />
    </svg>
  )
}

function PlanName() {
  const { name } = usePlan()
  const enter = useEnter()
  const kept = typeof name === 'string' ? name : ''
  const [typed, setTyped] = useState(kept)
  useEffect(() => setTyped(kept), [kept])
  return (
    <div className={styles.cell}>
      <span className={styles.tag}>
        <label htmlFor="plan-name">Plan</label>
        <Link href="/plans" className={styles.others}>
          all plans
        </Link>
      </span>
      <input
        id="plan-name"
        className={styles.name}
        value={typed}
        maxLength={200}
        data-of-plan=""
        data-unsaved={typed === kept ? undefined : ''}
        onChange={(event) => setTyped(event.target.value)}
        onBlur={() => typed !== kept && enter({ name: 'plan.rename', payload: { name: typed } })}
        onKeyDown={(event) => event.key === 'Enter' && event.currentTarget.blur()}
      />
    </div>
  )
}

function Steps() {
  const { document: plan } = useSession()
  const [undo, redo] = useSelected(plan, (state) => [state.undo, state.redo] as const)
  const names = [
    { label: 'Undo', what: undo, key: 'Ctrl+Z', act: plan.undo },
    { label: 'Redo', what: redo, key: 'Ctrl+Shift+Z', act: plan.redo },
  ]
  return (
    <div className={styles.steps}>
      {names.map(({ label, what, key, act }) => (
        <Button
          key={label}
          kind="quiet"
          isDisabled={what === null}
          aria-label={what === null ? label : `${label}: ${what} (${key})`}
          onPress={() => void act()}
        >
          {label}
        </Button>
      ))}
    </div>
  )
}

function Display() {
  const units = useUnits()
  const enter = useEnter()
  const shown = useStore(theme)
  return (
    <div className={styles.display}>
      <Choice
        label="Shown in"
        value={units}
        options={[
          { value: 'metric', label: 'Metric' },
          { value: 'us', label: 'US' },
        ]}
        onChange={(next) => enter({ name: 'plan.setUnits', payload: { units: next } })}
      />
      <Choice
        label="Sheet"
        value={shown}
        options={[
          { value: 'light', label: 'Light' },
          { value: 'dark', label: 'Dark' },
        ]}
        onChange={chooseTheme}
      />
    </div>
  )
}
