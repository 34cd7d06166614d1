/** What do I mix, and when? The session on a line of time, each batch by mass, and whether the stock lasts. */
import { plain } from '@finwright/sheets/layout/figures.ts'
import { cautions } from '@finwright/sheets/sheets/cautions.data.ts'
import { mixTimeline } from '@finwright/sheets/sheets/mix-timeline.ts'
import { useCallback } from 'react'
import { Caution } from '../../parts/Caution.tsx'
import { Numbers, Table } from '../../parts/Numbers.tsx'
import { Page, Section, type Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { useCanDesign, useFigures } from '../../state/use.ts'
import styles from './Mix.module.css'
import { batchCards, mixRows, plyRows } from './mix.results.ts'

export default function MixPage() {
  return (
    <Page question="What do I mix, and when?" needs={['resin']}>
      {(shown) => <Mix {...shown} />}
    </Page>
  )
}

function Mix({ assessment, stale }: Shown) {
  const figures = useFigures()
  const design = useCanDesign()
  const { resin } = assessment
  const perPly = (design?.shop.timePerPly ?? 0) / 60
  const draw = useCallback((width: number) => mixTimeline(resin, perPly, width), [resin, perPly])
  return (
    <>
      {resin.batches.length === 0 ? (
        <p className={styles.none}>
          This resin cannot be split into batches that can be weighed and used in time. Mix nothing from this plan.
        </p>
      ) : (
        <>
          <Picture
            label="One bay on a line of time: batches and plies"
            draw={draw}
            stale={stale}
            caption="One bay, which is one session. Frames: how long a batch works; hatched: to spare; bars: the plies as they go down."
          />
          <Section title="Batches" lead="By mass, weighed, never by volume.">
            <ol className={styles.batches} data-stale={stale || undefined}>
              {batchCards(assessment, figures).map(({ title, resin: first, total, window, plies, times }) => (
                <li key={title} className={styles.batch}>
                  <h3>{title}</h3>
                  <p className={styles.pour}>
                    <span>Resin to</span> <strong>{first}</strong>
                  </p>
                  <p className={styles.pour}>
                    <span>then hardener, scale at</span> <strong>{total}</strong>
                  </p>
                  <p className={styles.small}>{window}</p>
                  <p className={styles.small}>{plies}</p>
                  <p className={styles.small}>{times}</p>
                </li>
              ))}
            </ol>
            <Caution>{cautions.mixing}</Caution>
            <Caution>{cautions.resin}</Caution>
          </Section>
        </>
      )}
      <Section title="Numbers">
        <Numbers rows={mixRows(assessment, figures)} stale={stale} />
      </Section>
      <Section title="Ply by ply">
        <Table
          caption="What each ply takes, and when it goes down"
          columns={[
            { head: 'Ply' },
            { head: 'Goes down at minute', end: true },
            { head: 'Dry cloth', end: true },
            { head: 'Mix it takes', end: true },
          ]}
          rows={plyRows(assessment, figures)}
          stale={stale}
        />
      </Section>
      <Section title="Why">
        <p className={styles.none}>
          Working time follows temperature by the resin’s activation energy and is shortened in proportion for a batch
          above the data sheet’s mass; between {plain(resin.workingTimeBand_min?.[0] ?? 0, 0)} and{' '}
          {plain(resin.workingTimeBand_min?.[1] ?? 0, 0)} min by the energies that were published. Every batch must be
          gone within the share of it that the plan allows. A cup that runs warm early says that this was too long:
          believe the cup.
        </p>
      </Section>
    </>
  )
}
