/** What do I cut? The bay map, every shape, how the pieces lie on the cloth, and what is to be bought. */
import { cutListCsv } from '@finwright/sheets/cut-list.ts'
import { useState } from 'react'
import { Contents } from '../../parts/Contents.tsx'
import { CopyButton } from '../../parts/CopyButton.tsx'
import { Table } from '../../parts/Numbers.tsx'
import { Page, Section, type Shown } from '../../parts/Page.tsx'
import { useFigures } from '../../state/use.ts'
import { BayMap } from './BayMap.tsx'
import { Better } from './Better.tsx'
import styles from './Cut.module.css'
import { buyRows, leftRows, pieceRows, sheared } from './cut.results.ts'
import { Nest } from './Nest.tsx'
import { Shear } from './Shear.tsx'

const contents = [
  { id: 'bay-map', title: 'Bay map' },
  { id: 'nest', title: 'On the cloth' },
  { id: 'shear', title: 'Shear' },
  { id: 'pieces', title: 'Pieces' },
  { id: 'buy', title: 'To buy and keep' },
]

export default function CutPage() {
  return (
    <Page question="What do I cut?" needs={['pattern', 'nest', 'fin']}>
      {(shown) => <Cut {...shown} />}
    </Page>
  )
}

function Cut({ assessment, stale }: Shown) {
  const figures = useFigures()
  const { rolls } = assessment.nest
  const [chosen, setChosen] = useState(0)
  const roll = rolls[Math.min(chosen, rolls.length - 1)]
  const buy = buyRows(assessment, figures)
  const left = leftRows(assessment, figures)
  return (
    <>
      <Contents sections={contents} />
      <Section title="Bay map: one bay unrolled, from fin tip to fin tip" id="bay-map">
        <BayMap assessment={assessment} stale={stale} />
      </Section>
      <Section title="On the cloth" id="nest">
        <fieldset className={styles.tabs}>
          <legend className="unseen">Roll</legend>
          {rolls.map(({ roll: id, clothName }, i) => (
            <button
              key={`${id}-${i.toString()}`}
              type="button"
              className={styles.tab}
              aria-pressed={roll === rolls[i]}
              onClick={() => setChosen(i)}
            >
              {id} <span className={styles.tabNote}>{clothName}</span>
            </button>
          ))}
        </fieldset>
        <Better assessment={assessment} stale={stale} />
        {roll !== undefined && <Nest roll={roll} assessment={assessment} stale={stale} />}
      </Section>
      <Section title="Shear: how far each ply must give" id="shear">
        {sheared(assessment).length === 0 ? (
          <p>Every ply lies without shear: all of the surface unrolls.</p>
        ) : (
          <Shear assessment={assessment} stale={stale} />
        )}
      </Section>
      <Section title="Pieces" id="pieces">
        <Table
          caption="Shapes, one a ply"
          columns={[
            { head: 'Ply' },
            { head: 'Cloth' },
            { head: 'Warp', end: true },
            { head: 'Width as cut', end: true },
            { head: 'Length as cut', end: true },
            { head: 'Dry mass', end: true },
            { head: 'How many', end: true },
          ]}
          rows={pieceRows(assessment, figures)}
          stale={stale}
        />
        <p className={styles.copy}>
          <CopyButton text={() => cutListCsv(assessment)} label="Copy the cut list as CSV" of="every piece" />
        </p>
      </Section>
      <Section title="To buy and to keep" id="buy">
        {buy.length === 0 ? (
          <p>The cloth on the shelf is enough for every can.</p>
        ) : (
          <Table
            caption="Cloth to buy"
            columns={[
              { head: 'Cloth' },
              { head: 'Width', end: true },
              { head: 'At least', end: true },
              { head: 'Why' },
            ]}
            rows={buy}
            stale={stale}
          />
        )}
        {left.length > 0 && (
          <>
            <h3 className={styles.sub}>On the shelf afterwards</h3>
            <Table
              caption="Cloth left"
              columns={[
                { head: 'Roll' },
                { head: 'Cloth' },
                { head: 'Width', end: true },
                { head: 'Length', end: true },
              ]}
              rows={left}
              stale={stale}
            />
          </>
        )}
      </Section>
    </>
  )
}
