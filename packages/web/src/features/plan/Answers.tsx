/** All questions answered in words, each a way to its page. */
import { answersIn } from '@finwright/sheets/answers.ts'
import { Link } from 'wouter'
import { pages } from '../../pages.ts'
import { useAssessment, useUnits } from '../../state/use.ts'
import styles from './PlanPage.module.css'

const needs = ['flight', 'flutter', 'strength', 'bond', 'structure', 'pattern', 'nest', 'resin'] as const

export function Answers() {
  const known = useAssessment(needs)
  const units = useUnits()
  if (known === null) return null
  const shown = answersIn(known.value, units).flatMap(({ question, answer }) => {
    const page = pages.find((one) => one.question === question)
    return page === undefined ? [] : [{ question, answer, to: page.path }]
  })
  return (
    <dl className={styles.answers} data-stale={known.stale || undefined}>
      {shown.map(({ question, answer, to }) => (
        <div key={question}>
          <dt>
            <Link href={to}>{question}</Link>
          </dt>
          <dd>{answer}</dd>
        </div>
      ))}
    </dl>
  )
}
