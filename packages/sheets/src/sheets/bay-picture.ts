/** The bay map's picture alone, as wide as there is room: strip, dimensions, counts of plies. For the screen, where words stand beside it. */

import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import type { Primitive } from '../drawing/drawing.ts'
import type { Figures } from '../layout/figures.ts'
import { bayDimensions } from './bay-dimensions.ts'
import { type BayFrame, bayFrame, boundsOf } from './bay-frame.ts'
import { plyCounts } from './bay-map.ts'
import { bayStrip } from './bay-strip.ts'

export interface BayPicture {
  readonly height: number
  readonly items: readonly Primitive[]
  /** From bay axes to the picture. */
  readonly frame: BayFrame
}

interface BayPictureInput {
  readonly pattern: Assessment['pattern']
  readonly design: CanDesign
  readonly figures: Figures
}

/** Room at the sides and above for dimensions; narrower pictures go without. */
const room = { side: 14, above: 22, below: 8 } as const
const narrow = 90

/** Null for a design without plies. */
export function bayPicture(
  { pattern, design, figures }: BayPictureInput,
  width: number,
  most: number,
): BayPicture | null {
  const { bay, section, shapes } = pattern
  const staying = shapes.filter(({ role }) => !comesOff(role))
  if (bay === null || section === null || staying.length === 0) return null
  const bounds = boundsOf(staying.flatMap(({ netOutline_m }) => netOutline_m))
  const dimensioned = width >= narrow
  const [side, above] = dimensioned ? [room.side, room.above] : [1, 3]
  const [across, along] = [(bounds.maxY - bounds.minY) * 1e3, (bounds.maxX - bounds.minX) * 1e3]
  const scale = Math.min((width - 2 * side) / across, (most - above - room.below) / along)
  const frame = bayFrame(scale, [width / 2, above - bounds.minX * 1e3 * scale])
  const rows = { whole: above - 14, parts: above - 8, names: above - 3 }
  return {
    height: above + along * scale + room.below,
    items: [
      ...bayStrip({ shapes, bay, design, frame }),
      ...plyCounts(staying, frame),
      ...(dimensioned ? bayDimensions({ bay, section, design, frame, bounds, figures, rows }) : []),
    ],
    frame,
  }
}
