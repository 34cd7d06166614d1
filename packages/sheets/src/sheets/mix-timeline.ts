/** A lay-up session on a line of time: when each batch is mixed, how long it works, which ply goes down when. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { fill, line, type Primitive, pen, rectangle, stroke, text } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { textWidth } from '../drawing/lettering.ts'
import { ticksTo } from '../layout/chart.ts'
import { plain } from '../layout/figures.ts'

type Resin = Assessment['resin']

const rowHeight = 6
const head = 9
const batchHeight = 8

export interface Timeline {
  readonly height: number
  readonly items: readonly Primitive[]
}

/** Null where no batches could be planned. `perPly` is the time one ply takes, min. */
export function mixTimeline({ batches, perPly }: Resin, minutesPerPly: number, width: number): Timeline | null {
  if (batches.length === 0) return null
  const names = Math.max(...perPly.map(({ ply }) => textWidth(ply, lettering))) + 3
  const end = Math.max(
    ...batches.map(({ useBefore_min }) => useBefore_min),
    ...perPly.map(({ start_min }) => start_min + minutesPerPly),
  )
  const at = (minute: number): number => names + (minute / end) * (width - names - 1)
  const items: Primitive[] = []
  let y = head
  for (const [i, batch] of batches.entries()) {
    items.push(...batchRow(batch, i, { at, y }))
    y += batchHeight
    for (const ply of perPly.filter((one) => batch.plies.includes(one.ply))) {
      const box = {
        x: at(ply.start_min),
        y: y + 1,
        width: at(ply.start_min + minutesPerPly) - at(ply.start_min),
        height: rowHeight - 2,
      }
      items.push(text([0, y + 4.4], ply.ply, lettering), rectangle(box, { fill: fill('ink', 0.75), layer: 'fill' }))
      y += rowHeight
    }
    y += 1.5
  }
  const ticks = ticksTo(end, Math.max(3, Math.min(10, width / 18)))
  const axis = ticks.flatMap((minute) => [
    line([at(minute), head - 2], [at(minute), y], stroke(pen.hair, 'pale')),
    text([at(minute), head - 3.4], `${plain(minute, 0)}${minute === 0 ? ' min' : ''}`, {
      ...lettering,
      ink: 'dark',
      anchor: minute === 0 ? 'start' : 'middle',
    }),
  ])
  return { height: y + 1, items: [...axis, ...items] }
}

const lettering = { size: 2.9, face: 'letter' } as const

interface RowPlace {
  readonly at: (minute: number) => number
  readonly y: number
}

/** Its working time as a frame, the spare part of it hatched. */
function batchRow(
  { startsAt_min, useBefore_min, spare_min }: Resin['batches'][number],
  i: number,
  { at, y }: RowPlace,
): Primitive[] {
  const [from, to, spareFrom] = [at(startsAt_min), at(useBefore_min), at(useBefore_min - Math.max(0, spare_min))]
  const box = { x: from, y: y + 1, width: to - from, height: batchHeight - 2 }
  const corner = (x: number): readonly [number, number][] => [[x, box.y]]
  const spare = [
    ...corner(spareFrom),
    ...corner(to),
    [to, box.y + box.height] as [number, number],
    [spareFrom, box.y + box.height] as [number, number],
  ]
  const words = `batch ${i + 1}: mix at minute ${plain(startsAt_min, 0)}, gone by minute ${plain(useBefore_min, 0)}`
  const fits = textWidth(words, lettering) < spareFrom - from - 2
  const sparing = `${plain(spare_min, 0)} min to spare`
  const spareFits = textWidth(sparing, lettering) < to - spareFrom - 2
  return [
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([spare], { angle: -Math.PI / 4, spacing: 1.8 }),
      stroke: { ink: 'light', width: pen.hair },
    },
    rectangle(box, { stroke: stroke(pen.net) }),
    text([from + 1.2, y + 5], fits ? words : `batch ${i + 1}`, lettering),
    ...(spareFits
      ? [
          rectangle(
            {
              x: to - textWidth(sparing, lettering) - 2,
              y: box.y + 0.8,
              width: textWidth(sparing, lettering) + 1.6,
              height: box.height - 1.6,
            },
            { fill: fill('paper'), layer: 'fill' },
          ),
          text([to - 1.2, y + 5], sparing, { ...lettering, anchor: 'end' }),
        ]
      : []),
  ]
}
