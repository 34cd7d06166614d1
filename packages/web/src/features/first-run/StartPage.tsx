/** A short guided start: eight questions, a sensible plan. The address carries the question, so that back and forward work. */
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { useMemo } from 'react'
import { Link, useLocation, useSearchParams } from 'wouter'
import demo from '../../../../../examples/demo.fincan.json'
import { Button } from '../../parts/Button.tsx'
import { PageHead } from '../../parts/Page.tsx'
import { useEnter, useStore, useUnits } from '../../state/use.ts'
import { AskedFieldRow } from './AskedFieldRow.tsx'
import { demoFlight } from './demo-flight.data.ts'
import { faultsOf, type Made, makePlan, type Units } from './make-plan.ts'
import { type Answers, type Question, questions, shownFields } from './questions.data.ts'
import { Review } from './Review.tsx'
import styles from './StartPage.module.css'
import { StartSketch } from './StartSketch.tsx'
import { answered, answersIn, forgetAnswers } from './start-state.ts'

const name = 'New can'

export default function StartPage() {
  const units = useUnits()
  const given = useStore(answered)
  const answers = answersIn(given, units)
  const made = useMemo(() => makePlan(answersIn(given, units), units, name), [given, units])
  const [search, setSearch] = useSearchParams()
  const step = Math.min(Math.max(Number(search.get('step') ?? 1) || 1, 1), questions.length + 1)
  const go = (next: number): void => {
    setSearch({ step: String(next) })
    document.getElementById('page')?.focus()
  }
  const question = questions[step - 1]
  return (
    <>
      <PageHead
        question="Start a plan"
        answer={`Eight questions make a plan that can be worked out, drawn and printed. ${remaining(step)}`}
      />
      <Demo />
      <div className={styles.start}>
        <nav aria-label="The eight questions" className={styles.list}>
          <ol>
            {questions.map((one, i) => (
              <li key={one.id}>
                <a
                  href={`?step=${i + 1}`}
                  aria-current={step === i + 1 ? 'step' : undefined}
                  onClick={leading(() => go(i + 1))}
                >
                  <span className={styles.number}>{i + 1}</span>
                  <span className={styles.asked}>{one.title}</span>
                  <span className={styles.given}>{inShort(one, answers, units)}</span>
                </a>
              </li>
            ))}
            <li>
              <a
                href={`?step=${questions.length + 1}`}
                aria-current={question === undefined ? 'step' : undefined}
                onClick={leading(() => go(questions.length + 1))}
              >
                <span className={styles.number}>✓</span>
                <span className={styles.asked}>The plan</span>
              </a>
            </li>
          </ol>
        </nav>
        <form
          className={styles.body}
          onSubmit={(event) => {
            event.preventDefault()
            if (question !== undefined) go(step + 1)
          }}
        >
          {question === undefined ? (
            <Last made={made} />
          ) : (
            <Ask question={question} answers={answers} given={given} units={units} made={made} />
          )}
          <div className={styles.onward}>
            {step > 1 && <Button onPress={() => go(step - 1)}>Back</Button>}
            {question !== undefined && (
              <Button type="submit">{step === questions.length ? 'See the plan' : 'Next'}</Button>
            )}
            {question === undefined && made.ok && <MakeIt plan={made.value.plan} />}
          </div>
        </form>
      </div>
    </>
  )
}

const remaining = (step: number): string =>
  step > questions.length
    ? 'All eight are answered.'
    : `This is question ${step} of ${questions.length}; what stands there is an invented example.`

/** A link that stays in the window. */
const leading =
  (act: () => void) =>
  (event: React.MouseEvent): void => {
    if (event.metaKey || event.ctrlKey || event.shiftKey) return
    event.preventDefault()
    act()
  }

/** What a question came to: its choices by name, its quantities as typed. */
function inShort(question: Question, answers: Answers, units: Units): string {
  return shownFields(question, answers)
    .flatMap((field) => {
      if (field.kind === 'quantity') {
        if (faultsOf(field, answers, units).length > 0) return ['!']
        return answers[field.key] === '' ? [] : [answers[field.key]]
      }
      return field.options.filter(({ value }) => value === answers[field.key]).map(({ label }) => label)
    })
    .join(' · ')
}

interface AskProps {
  readonly question: Question
  readonly answers: Answers
  readonly given: Partial<Answers>
  readonly units: Units
  readonly made: Made
}

function Ask({ question, answers, given, units, made }: AskProps) {
  return (
    <section aria-labelledby="asked">
      <h2 id="asked" className={styles.title}>
        {question.title}
      </h2>
      <p className={styles.why}>{question.why}</p>
      {made.ok && <StartSketch plan={made.value.plan} />}
      {shownFields(question, answers).map((field) => (
        <AskedFieldRow key={field.key} asked={field} answers={answers} own={field.key in given} units={units} />
      ))}
      {question.caution !== undefined && (
        <p className={styles.caution}>
          <strong>Caution</strong> {question.caution}
        </p>
      )}
    </section>
  )
}

function Last({ made }: { readonly made: Made }) {
  if (made.ok)
    return (
      <section aria-labelledby="asked">
        <h2 id="asked" className={styles.title}>
          The plan
        </h2>
        <p className={styles.why}>
          A beginning, not a verdict: once it is made, the margins are worked out, and they say what has to change.
          Margins are a builder’s help; they give nobody permission to fly.
        </p>
        <Review made={made.value} />
      </section>
    )
  return (
    <section aria-labelledby="asked">
      <h2 id="asked" className={styles.title}>
        Something cannot be read yet
      </h2>
      <ul className={styles.faults}>
        {made.issues.map(({ path, message, hint }) => (
          <li key={path}>
            <Link href={`/start?step=${placeOf(path)}`}>
              {message} {hint}
            </Link>
          </li>
        ))}
      </ul>
    </section>
  )
}

const placeOf = (key: string): number =>
  questions.findIndex(({ fields }) => fields.some((field) => field.key === key)) + 1

function MakeIt({ plan }: { readonly plan: JsonObject }) {
  const enter = useEnter()
  const [, navigate] = useLocation()
  return (
    <>
      <Button
        onPress={() => {
          const entered = enter({ name: 'plan.replace', payload: { plan, why: 'a plan from eight answers' } })
          if (!entered.ok) return
          forgetAnswers()
          navigate('/')
        }}
      >
        Make this plan
      </Button>
      <span className={styles.note}>It takes the place of the plan that is open; Undo brings that one back.</span>
    </>
  )
}

function Demo() {
  const enter = useEnter()
  const [, navigate] = useLocation()
  return (
    <p className={styles.demo}>
      Or look around in an invented rocket first:{' '}
      <Button
        kind="quiet"
        onPress={() => {
          const plan = { ...(demo as unknown as JsonObject), flight: demoFlight }
          if (enter({ name: 'plan.replace', payload: { plan, why: 'the demo' } }).ok) navigate('/')
        }}
      >
        open the demo
      </Button>
    </p>
  )
}
