/**
 * All patterns at true scale on one large page for a roll printer: 841 mm wide, as wide as A0, which a 36 in roll also
 * takes. Pieces stand side by side in rows, nose up.
 */
import { group, type Page, type Primitive, pen, rectangle, stroke, text } from '../drawing/drawing.ts'
import { fingerprint } from '../layout/fingerprint.ts'
import { type Identity, longestPage } from '../layout/paper.ts'
import { checkSquare } from './check-square.ts'
import type { Picture } from './picture.ts'

const rollWidth = 841
const margin = 15
const gap = 12
/** The strip with title and check square. */
const head = 124

interface Placed {
  readonly picture: Picture
  readonly x: number
  readonly y: number
}

export function rollPages(pictures: readonly Picture[], identity: Identity, correction: string): Page[] {
  const pages = shelved(pictures)
  return pages.map(({ placed, height, width }, i) => {
    const items: Primitive[] = [
      ...placed.map(({ picture, x, y }) => group(picture.items, { move: [x - picture.box.x, y - picture.box.y] })),
      ...checkSquare([margin, margin + 2], '100 mm check square'),
    ]
    const title =
      pages.length === 1 ? 'Patterns at true scale' : `Patterns at true scale, sheet ${i + 1} of ${pages.length}`
    return {
      width,
      height,
      title,
      items: [...items, ...headWords(title, width, identity, correction, fingerprint([title, items]))],
    }
  })
}

function headWords(title: string, width: number, identity: Identity, correction: string, hash: string): Primitive[] {
  const { project, revision } = identity
  const rows = [
    project,
    `revision ${revision.hash} · ${revision.date} · page ${hash}`,
    'Print at actual size. Both sides of the square must measure 100 mm; the outer ticks are at 4 in.',
    ...(correction === '' ? [] : [correction]),
  ]
  return [
    text([margin + 112, margin + 16], title.toUpperCase(), { size: 14, face: 'title', tracking: 0.04 }),
    ...rows.map((row, k) => text([margin + 112, margin + 28 + k * 8], row, { size: 5.6, face: 'letter' })),
    rectangle({ x: margin / 2, y: margin / 2, width: width - margin, height: head - 6 }, { stroke: stroke(pen.thin) }),
  ]
}

/** Rows of pieces, tallest first where that is the given order's own; a new page where the longest is reached. */
function shelved(pictures: readonly Picture[]): { placed: Placed[]; height: number; width: number }[] {
  const width = Math.max(rollWidth, ...pictures.map(({ box }) => box.width + 2 * margin))
  const pages: { placed: Placed[]; height: number; width: number }[] = [{ placed: [], height: head + margin, width }]
  let x = margin
  let y = head + margin
  let row = 0
  for (const picture of pictures) {
    const { box } = picture
    if (x > margin && x + box.width > width - margin) {
      x = margin
      y += row + gap
      row = 0
    }
    if (y + box.height + margin > longestPage && pages.at(-1)!.placed.length > 0) {
      pages.push({ placed: [], height: head + margin, width })
      x = margin
      y = head + margin
      row = 0
    }
    const page = pages.at(-1)!
    page.placed.push({ picture, x, y })
    row = Math.max(row, box.height)
    page.height = Math.max(page.height, y + box.height + margin)
    x += box.width + gap
  }
  return pages
}
