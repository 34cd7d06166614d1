/** The root joint in section, the margin of each way it can go, and the load to prove it with. */
import { plain } from '@finwright/sheets/layout/figures.ts'
import { cautions } from '@finwright/sheets/sheets/cautions.data.ts'
import { jointLine, wayMeaning } from '@finwright/sheets/sheets/hold/joint-page.ts'
import { jointPicture } from '@finwright/sheets/sheets/hold/joint-picture.ts'
import { jointWhy } from '@finwright/sheets/sheets/hold/whys.ts'
import { useCallback } from 'react'
import { Caution } from '../../parts/Caution.tsx'
import { Numbers, Table } from '../../parts/Numbers.tsx'
import { Section, type Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { WhyWords } from '../../parts/WhyWords.tsx'
import { asidesStale } from '../../state/answers.ts'
import { useFigures, useSelected, useSession } from '../../state/use.ts'
import styles from './Hold.module.css'
import { jointRows, proofRows } from './hold.results.ts'

export function Joint({ assessment, stale }: Shown) {
  const figures = useFigures()
  const settled = !useSelected(useSession().answers, asidesStale)
  const { bond, fin, pattern, strength } = assessment
  // biome-ignore lint/correctness/useExhaustiveDependencies: drawn from these sections alone
  const draw = useCallback(
    (width: number) => {
      const height = Math.min(78, 0.6 * width + 12)
      const items = jointPicture(assessment, { width, height })
      return items === null ? null : { height, items }
    },
    [bond, fin, pattern],
  )
  if (bond.joint === null && strength.tipEquivalent === null) return null
  const { joint } = bond
  return (
    <Section title="Root joint" {...(settled ? { lead: jointLine({ assessment, figures }) } : {})} id="joint">
      <Picture label="The root joint in section with the margin of each way to go" draw={draw} stale={stale} />
      {joint !== null && (
        <Table
          caption="Margins of the root joint: allowable over stress, less one"
          columns={[{ head: 'Way to go' }, { head: 'Margin', end: true }, { head: 'What that is' }]}
          rows={joint.byMode.map(({ mode, margin }) => [
            mode,
            margin === null ? 'no load' : `${margin >= 0 ? '+' : ''}${plain(margin, 2)}`,
            wayMeaning[mode] ?? '',
          ])}
          strong={(row) => joint.byMode[row]!.mode === joint.worst.mode}
          stale={stale}
        />
      )}
      <Numbers rows={jointRows(assessment, figures, settled)} stale={stale} />
      {strength.tipEquivalent !== null && (
        <>
          <h3 className={styles.sub}>To prove it: a force at the tip</h3>
          <Numbers rows={proofRows(assessment, figures)} stale={stale} />
          <Caution>{cautions.proof}</Caution>
        </>
      )}
      {joint !== null && (
        <div className={styles.why}>
          <WhyWords why={jointWhy(figures, assessment)} sources={assessment.sources} />
        </div>
      )}
      <Caution>{cautions.flight}</Caution>
    </Section>
  )
}
