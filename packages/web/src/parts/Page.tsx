/** Every page: its question, the answer in words, then whatever follows; stale answers look stale and say so. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { PartName } from '@finwright/plan/protocol/work.ts'
import { answersIn } from '@finwright/sheets/answers.ts'
import { memo, type ReactNode, useDeferredValue } from 'react'
import type { Known } from '../state/answers.ts'
import { useAssessment, useSelected, useSession, useUnits } from '../state/use.ts'
import styles from './Page.module.css'

export interface Shown {
  readonly assessment: Assessment
  readonly stale: boolean
}

interface PageProps {
  readonly question: string
  /** Sections of the answer without which nothing can be said. */
  readonly needs: readonly PartName[]
  readonly children: (shown: Shown) => ReactNode
}

export function Page({ question, needs, children }: PageProps) {
  const known = useAssessment(needs)
  // The page is drawn when nothing more urgent is to do; what is entered meanwhile comes first.
  const drawn = useDeferredValue(known)
  if (drawn === null) return <Waiting question={question} />
  return <Drawn question={question} known={drawn} draw={children} />
}

function Waiting({ question }: { readonly question: string }) {
  const [step, faulty] = useSelected(
    useSession().answers,
    ({ asked, issues }) => [asked?.step ?? '', issues !== null] as const,
  )
  return (
    <>
      <h1 className={styles.question}>{question}</h1>
      <p className={styles.answer} role="status">
        {faulty ? 'The plan has faults, so there is no answer yet.' : `${step || 'Working it out'} …`}
      </p>
    </>
  )
}

/** Nothing is cut or mixed for it. */
const noneOfStudy = 'This plan is a study of a bare plate; it has no cloth and no resin.'

interface DrawnProps {
  readonly question: string
  readonly known: Known<Assessment>
  readonly draw: PageProps['children']
}

const Drawn = memo(({ question, known: { value, stale }, draw }: DrawnProps) => {
  const units = useUnits()
  const answer = answersIn(value, units).find((one) => one.question === question)?.answer ?? ''
  if (answer === '' && value.kind === 'study')
    return <PageHead question={question} answer={noneOfStudy} stale={stale} />
  return (
    <>
      <PageHead question={question} answer={answer} stale={stale} />
      {draw({ assessment: value, stale })}
    </>
  )
})

interface PageHeadProps {
  readonly question: string
  readonly answer: string
  readonly stale?: boolean
}

export function PageHead({ question, answer, stale = false }: PageHeadProps) {
  const [first, ...rest] = sentences(answer)
  return (
    <div className={styles.head} data-stale={stale || undefined}>
      <h1 className={styles.question}>{question}</h1>
      <p className={styles.answer}>
        <strong>{first}</strong>
        {rest.length > 0 && <span className={styles.rest}> {rest.join(' ')}</span>}
      </p>
      {stale && (
        <p className={styles.stale}>This is the answer before your last change; the new one is being worked out.</p>
      )}
    </div>
  )
}

/** At a full stop before a capital. */
const sentences = (text: string): string[] => text.split(/(?<=[.!?])\s+(?=\p{Lu})/u)

interface SectionProps {
  readonly title: string
  readonly lead?: ReactNode
  readonly id?: string
  readonly children: ReactNode
}

export function Section({ title, lead, id, children }: SectionProps) {
  return (
    <section className={styles.section} id={id}>
      <h2 className={styles.title}>{title}</h2>
      {lead !== undefined && <p className={styles.lead}>{lead}</p>}
      {children}
    </section>
  )
}
