/** The shear that each ply must take where the surface does not unroll, on its flat piece, with the cuts that relieve it. */
import { plain } from '@finwright/sheets/layout/figures.ts'
import { filmWords, placeName } from '@finwright/sheets/sheets/film-words.ts'
import { shearPicture } from '@finwright/sheets/sheets/shear-picture.ts'
import { reliefRows, shearRows } from '@finwright/sheets/sheets/shear-sheet.ts'
import { useCallback, useState } from 'react'
import { Table } from '../../parts/Numbers.tsx'
import type { Shown } from '../../parts/Page.tsx'
import { Picture } from '../../parts/Picture.tsx'
import { useFigures } from '../../state/use.ts'
import styles from './Cut.module.css'
import { sheared } from './cut.results.ts'

export function Shear({ assessment, stale }: Shown) {
  const figures = useFigures()
  const { pattern } = assessment
  const plies = sheared(assessment)
  const worst = plies.reduce((a, b) => (b.greatest_deg > a.greatest_deg ? b : a), plies[0]!)
  const [chosen, setChosen] = useState<string | null>(null)
  const shear = plies.find(({ ply }) => ply === chosen) ?? worst
  const shape = pattern.shapes.find(({ ply }) => ply === shear.ply)!
  const cuts = pattern.relief.filter(({ ply }) => ply === shear.ply).length
  const draw = useCallback(
    (width: number) => shearPicture({ pattern, shear, shape }, Math.min(width, 140), 150),
    [pattern, shear, shape],
  )
  const words =
    shape.role === 'film'
      ? `${shear.ply} ${filmWords(pattern, shear.ply)}.`
      : `${shear.ply} turns its warp against its weft by at most ${plain(shear.greatest_deg, 1)}°, ${placeName[shear.region]} (the ring); its weave gives ${plain(shear.limit_deg, 0)}°${shear.limitIsGuess ? ', a guess' : ''}.`
  const relief = reliefRows(assessment, figures)
  return (
    <>
      <fieldset className={styles.tabs}>
        <legend className="unseen">Ply</legend>
        {plies.map(({ ply, greatest_deg, limit_deg }) => (
          <button
            key={ply}
            type="button"
            className={styles.tab}
            aria-pressed={ply === shear.ply}
            onClick={() => setChosen(ply)}
          >
            {ply}{' '}
            <span className={styles.tabNote}>
              {plain(greatest_deg, 1)}°{greatest_deg > limit_deg ? ', past its limit' : ''}
            </span>
          </button>
        ))}
      </fieldset>
      <Picture
        label={`Shear of ${shear.ply} on its flat piece: greatest ${plain(shear.greatest_deg, 1)} degrees, ${placeName[shear.region]}`}
        draw={draw}
        stale={stale}
        caption={`${words} Darker where it turns further, red past the limit; laid from the middle of the body outward. ${cuts === 0 ? 'No cut is needed.' : `${cuts} ${cuts === 1 ? 'cut is' : 'cuts are'} proposed, red lines; cut only where it still wrinkles.`}`}
      />
      <Table
        caption="Shear of every ply"
        columns={[
          { head: 'Ply' },
          { head: 'Greatest', end: true },
          { head: 'Where' },
          { head: 'It gives', end: true },
          { head: 'Lands off the map by', end: true },
        ]}
        rows={shearRows(assessment, figures)}
        stale={stale}
      />
      {relief.length > 0 && (
        <>
          <h3 className={styles.sub}>Cuts that relieve it</h3>
          <Table
            caption="Cuts and places to stop short"
            columns={[
              { head: 'Ply' },
              { head: 'Do' },
              { head: 'Aft, at the net line', end: true },
              { head: 'Across', end: true },
              { head: 'Deep', end: true },
              { head: 'Opens by about', end: true },
            ]}
            rows={relief}
            stale={stale}
          />
        </>
      )}
    </>
  )
}
