/** Looks longer for a nest that takes less cloth: how long, when it is good enough, how it gets on; what it finds is kept in the plan. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { plain } from '@finwright/sheets/layout/figures.ts'
import { useState } from 'react'
import { Button } from '../../parts/Button.tsx'
import { Choice } from '../../parts/Choice.tsx'
import { useCanDesign, useEnter, useFigures, useSession, useStore } from '../../state/use.ts'
import styles from './Cut.module.css'
import { forgetNest, keepNest } from './nest.commands.ts'
import { endSearch, inputOf, search, searching } from './nesting.ts'

/** Depths of pairs asked for; some three million a second in a browser. */
const efforts = { seconds: 12e6, minute: 120e6, minutes: 600e6 } as const

export function Better({ assessment, stale }: { readonly assessment: Assessment; readonly stale: boolean }) {
  const design = useCanDesign()
  const figures = useFigures()
  const enter = useEnter()
  const { answers } = useSession()
  const state = useStore(searching)
  const [effort, setEffort] = useState<keyof typeof efforts>('seconds')
  const [enough, setEnough] = useState<'never' | 'three' | 'six'>('never')
  const { kept } = assessment.nest
  const begin = (): void => {
    if (design === null) return
    const { key } = answers.get()
    void search({
      input: inputOf(assessment, design),
      budget: efforts[effort],
      shownArea: assessment.nest.rolls.reduce((sum, roll) => sum + roll.width_m * roll.usedLength_m, 0),
      saved: { never: null, three: 0.03, six: 0.06 }[enough],
      stands: () => answers.get().key === key,
      keep: (placements) => enter(keepNest(placements)).ok,
    })
  }
  if (state.kind === 'looks') {
    const { told } = state
    return (
      <div className={styles.better}>
        <progress className={styles.progress} aria-label="Effort spent" max={1} value={told?.spent ?? 0} />
        <Button onPress={() => endSearch(true)}>Good enough: keep it</Button>
        <Button kind="quiet" onPress={() => endSearch(false)}>
          Cancel
        </Button>
        <p role="status" className={styles.told}>
          {told === null
            ? 'Filling the cloth …'
            : `${figures.surface(told.usedArea)} of cloth now, ${plain(100 * (1 - told.usedArea / told.startArea), 1)} % less than filling alone${told.buyLength > 0 ? '; some is to be bought' : ''}.`}
        </p>
      </div>
    )
  }
  return (
    <div className={styles.better}>
      <Choice
        label="Look for"
        value={effort}
        options={[
          { value: 'seconds', label: 'seconds' },
          { value: 'minute', label: 'a minute' },
          { value: 'minutes', label: 'minutes' },
        ]}
        onChange={setEffort}
      />
      <Choice
        label="Good enough at"
        value={enough}
        options={[
          { value: 'three', label: '3 % less' },
          { value: 'six', label: '6 % less' },
          { value: 'never', label: 'the best' },
        ]}
        onChange={setEnough}
      />
      <Button isDisabled={stale || design === null} onPress={begin}>
        Look for a better nest
      </Button>
      {kept && (
        <Button kind="quiet" onPress={() => enter(forgetNest)}>
          Forget the kept nest
        </Button>
      )}
      <p role="status" className={styles.told}>
        {state.said !== '' ? state.said : kept ? 'This nest is kept in the plan; print and command line use it.' : ''}
      </p>
    </div>
  )
}
