/** A roll with its pieces in true proportion; the piece under the cursor is named and lit. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { NestRoll } from '@finwright/core/assess/nest-section.ts'
import { plain } from '@finwright/sheets/layout/figures.ts'
import { nestHeight, nestPicture, placedPieces } from '@finwright/sheets/sheets/nest-picture.ts'
import { useCallback, useMemo } from 'react'
import { Picture } from '../../parts/Picture.tsx'
import { useFigures } from '../../state/use.ts'
import { linear } from './cut.results.ts'

interface NestProps {
  readonly roll: NestRoll
  readonly pieces: Assessment['pattern']['pieces']
  readonly stale: boolean
}

export function Nest({ roll, pieces, stale }: NestProps) {
  const figures = useFigures()
  const placed = useMemo(() => placedPieces(roll, pieces), [roll, pieces])
  const draw = useCallback(
    (width: number) => {
      const space = { width: Math.min(width, 130), height: 400 }
      const height = nestHeight(roll, space)
      return { height, items: nestPicture({ roll, placed, figures, at: [0, 0], ...space }) }
    },
    [roll, placed, figures],
  )
  const stock =
    roll.availableLength_m === null ? 'to be bought' : `of ${linear(roll.availableLength_m, figures)} in stock`
  return (
    <Picture
      label={`Roll ${roll.roll}: ${placed.length} pieces on ${linear(roll.usedLength_m, figures)}`}
      draw={draw}
      stale={stale}
      caption={`${placed.length} pieces on ${linear(roll.usedLength_m, figures)} ${stock}; ${plain(100 * roll.density, 0)} % of that cloth becomes pieces. Numbers give the order of cutting.`}
    />
  )
}
