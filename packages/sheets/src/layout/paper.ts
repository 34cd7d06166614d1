/** Paper sizes and the frame that every printed page has: title above, identity below, check square, page hash. */
import { line, type Page, type Primitive, path, pen, stroke, text } from '../drawing/drawing.ts'
import { shortened, textWidth } from '../drawing/lettering.ts'
import { fingerprint } from './fingerprint.ts'

export type PaperSize = 'a4' | 'letter'

export interface Paper {
  readonly width: number
  readonly height: number
}

/** A4 is ISO 216; Letter is 8.5 × 11 in. */
export const papers: { readonly [size in PaperSize]: Paper } = {
  a4: { width: 210, height: 297 },
  letter: { width: 215.9, height: 279.4 },
}

/** A PDF page may be 14 400 points long at most (ISO 32000-1:2008, Annex C, table C.1); in mm. */
export const longestPage = (14400 / 72) * 25.4

/** Kept clear at each edge: most printers cannot print there. */
export const clear = 10

/** Where a page's content goes. */
export const content = ({ width, height }: Paper) => ({ x: 14, y: 25, width: width - 28, height: height - 25 - 20 })

/** Whose page it is; printed on every page. */
export interface Identity {
  readonly project: string
  readonly revision: { readonly hash: string; readonly date: string }
}

/** One page before it is framed. */
export interface Leaf {
  /** `Mix card`. */
  readonly title: string
  /** `Unit A · bay 1`; may be empty. */
  readonly subject: string
  readonly items: readonly Primitive[]
  /** Has a full check square among its items. */
  readonly ownSquare?: boolean
}

/** The pages of one document, each in its frame; `more` pages of another kind follow. */
export function framed(leaves: readonly Leaf[], paper: Paper, identity: Identity, more = 0): Page[] {
  return leaves.map((leaf, i) => ({
    width: paper.width,
    height: paper.height,
    title: leaf.subject === '' ? leaf.title : `${leaf.title} – ${leaf.subject}`,
    items: [
      ...titleStrip(leaf, paper),
      ...leaf.items,
      ...footer(leaf, paper, identity, `${i + 1} of ${leaves.length + more}`),
    ],
  }))
}

function titleStrip({ title, subject }: Leaf, { width }: Paper): Primitive[] {
  const room = width - 28
  const own = textWidth(title.toUpperCase(), { size: 6.2, face: 'title', tracking: 0.06 })
  return [
    text([14, 17.6], title.toUpperCase(), { size: 6.2, face: 'title', tracking: 0.06 }),
    text([width - 14, 17.6], shortened(subject, room - own - 6, { size: 4.6, face: 'letter' }), {
      size: 4.6,
      face: 'letter',
      anchor: 'end',
    }),
    line([clear, 20.4], [width - clear, 20.4], stroke(pen.bold)),
    line([clear, 21.3], [width - clear, 21.3], stroke(pen.hair)),
  ]
}

function footer(leaf: Leaf, { width, height }: Paper, { project, revision }: Identity, count: string): Primitive[] {
  const y = height - 15.5
  const small = { size: 2.7, face: 'text', ink: 'dark' } as const
  const right = `page ${fingerprint([leaf.title, leaf.subject, leaf.items])} · ${count}`
  const left = `${project} · revision ${revision.hash} · ${revision.date}`
  const room = width - 28 - textWidth(right, small) - 6
  return [
    line([clear, y], [width - clear, y], stroke(pen.hair)),
    text([14, height - 11.4], shortened(left, room, small), small),
    text([width - 14, height - 11.4], right, { ...small, anchor: 'end' }),
    ...(leaf.ownSquare === true ? [] : quietCheckSquare(clear, y - 100)),
  ]
}

/**
 * The check square of a page that is not to scale: four short marks at the corners of a square of 100 mm, and two ticks
 * at 4 in from its lower left corner.
 */
function quietCheckSquare(x: number, y: number): Primitive[] {
  const mark = { ink: 'light', width: pen.hair } as const
  const corner = 1.6
  const inches = 101.6
  return [
    path(
      [
        [x, y],
        [x + 100, y],
        [x + 100, y + 100],
        [x, y + 100],
      ],
      true,
      { layer: 'check', stroke: { ...mark, dash: [corner, 100 - corner] } },
    ),
    line([x + inches, y + 100], [x + inches, y + 100 - 1], mark, 'check'),
    line([x, y + 100 - inches], [x + 1, y + 100 - inches], mark, 'check'),
    text([x + inches + 0.6, y + 99.2], '100 mm · 4 in', { size: 1.9, ink: 'mid', layer: 'check' }),
  ]
}
