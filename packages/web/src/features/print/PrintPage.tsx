/** What do I print? Every sheet as it will print, the printer set right first, and the files to print from. */
import type { CanDesign } from '@finwright/core/assess/design.ts'
import type { DocumentInput } from '@finwright/sheets/documents.ts'
import { correctionFor } from '@finwright/sheets/printer.ts'
import { useEffect, useMemo, useState } from 'react'
import { Choice } from '../../parts/Choice.tsx'
import { PageHead, Section } from '../../parts/Page.tsx'
import { useAnswers, useStore, useUnits } from '../../state/use.ts'
import { Calibration } from './Calibration.tsx'
import styles from './PrintPage.module.css'
import { choosePaper, type Listed, type PaperChoice, pagesInWords, paper } from './print.results.ts'
import { listDocuments } from './printing.ts'
import { SaveEverything } from './SaveEverything.tsx'
import { Sheets } from './Sheets.tsx'

const question = 'What do I print?'

export default function PrintPage() {
  const input = usePrintInput()
  const { issues, key } = useAnswers()
  const units = useUnits()
  const size = useStore(paper) ?? (units === 'us' ? 'letter' : 'a4')
  if (input === null)
    return (
      <PageHead
        question={question}
        answer={
          issues?.key === key
            ? 'The plan has faults, so there is nothing to print yet.'
            : 'The sheets are drawn when everything is worked out. A moment …'
        }
      />
    )
  return <Printed input={input} size={size} />
}

/** Everything of one and the same plan; null while it is being worked out. */
function usePrintInput(): DocumentInput | null {
  const { assessment, document, key } = useAnswers()
  const units = useUnits()
  const fresh = assessment?.key === key && document?.key === key
  return useMemo(() => {
    if (!fresh || assessment === null || document === null) return null
    const { design, hash, defaulted } = document.value
    const date = new Date().toISOString().slice(0, 10)
    return { assessment: assessment.value, design, revision: { hash, date }, units, defaults: defaulted }
  }, [fresh, assessment, document, units])
}

function Printed({ input, size }: { readonly input: DocumentInput; readonly size: PaperChoice }) {
  const refused = input.design.kind === 'can' ? refusal(input.design) : []
  const listed = useListed(refused.length > 0 ? null : input, size)
  const [grey, setGrey] = useState<'colour' | 'grey'>('colour')
  return (
    <>
      <PageHead question={question} answer={answer(listed, size, refused.length > 0)} />
      <div className={styles.bar}>
        <Choice
          label="Paper"
          value={size}
          options={[
            { value: 'a4', label: 'A4' },
            { value: 'letter', label: 'Letter' },
            { value: 'roll', label: 'Roll' },
          ]}
          onChange={choosePaper}
        />
        <Choice
          label="Seen in"
          value={grey}
          options={[
            { value: 'colour', label: 'Ink' },
            { value: 'grey', label: 'Black and white' },
          ]}
          onChange={setGrey}
        />
        {listed !== null && <SaveEverything input={input} />}
      </div>
      {input.design.kind === 'can' && <Calibration size={size} refused={refused} />}
      {listed !== null && listed.length > 0 && (
        <Section title="The sheets">
          <Sheets listed={listed} grey={grey === 'grey'} />
        </Section>
      )}
    </>
  )
}

const refusal = (design: CanDesign) => {
  const corrections = correctionFor(design)
  return corrections.ok ? [] : corrections.issues
}

/** Null while they are being drawn. */
function useListed(input: DocumentInput | null, size: PaperChoice): readonly Listed[] | null {
  const [listed, setListed] = useState<{
    readonly of: readonly unknown[]
    readonly documents: readonly Listed[]
  } | null>(null)
  useEffect(() => {
    let wanted = true
    if (input !== null)
      void listDocuments(input, size).then((documents) => wanted && setListed({ of: [input, size], documents }))
    return () => {
      wanted = false
    }
  }, [input, size])
  return listed !== null && listed.of[0] === input && listed.of[1] === size ? listed.documents : null
}

function answer(listed: readonly Listed[] | null, size: PaperChoice, refused: boolean): string {
  if (refused) return 'Nothing, until the printer is set right. Print the check square again with scaling off.'
  if (listed === null) return 'The sheets are being drawn …'
  const count = listed.reduce((sum, { pages }) => sum + pages.length, 0)
  const first =
    size === 'roll'
      ? `All patterns at true scale on ${pagesInWords(count)} for a roll printer.`
      : `${listed.length} documents, ${pagesInWords(count)} of ${size === 'a4' ? 'A4' : 'Letter'}.`
  return `${first} Print at 100 %, actual size, never “fit to page”; then measure the check square before you cut.`
}
