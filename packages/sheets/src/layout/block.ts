/**
 * Blocks stacked down a column and broken into pages. A block knows its height; drawn, it fills a given place.
 */
import type { Fill, Primitive, Stroke, XY } from '../drawing/drawing.ts'
import { group, pen, rectangle, stroke } from '../drawing/drawing.ts'

export interface Block {
  readonly height: number
  /** Space above; left out at the top of a page. */
  readonly gap: number
  readonly draw: (at: XY) => readonly Primitive[]
  /** Drawn again above this block when it opens a page: the head of a table. */
  readonly head?: Block
  /** Stays on the page of the block after it. */
  readonly keep?: boolean
  /** Opens a page of its own. */
  readonly opensPage?: boolean
}

/** The items of each page, in the column that starts at (x, y). */
export function paged(
  blocks: readonly Block[],
  column: { readonly x: number; readonly y: number; readonly height: number },
): Primitive[][] {
  const pages: Primitive[][] = [[]]
  let y = 0
  blocks.forEach((block, i) => {
    const gap = y === 0 ? 0 : block.gap
    const opens = block.opensPage === true && y > 0
    if (opens || (y > 0 && y + gap + reach(blocks, i) > column.height + 1e-9)) {
      pages.push([])
      y = 0
      if (block.head !== undefined) y = place(block.head, 0)
    } else y += gap
    y = place(block, y)
  })
  return pages

  function place(block: Block, at: number): number {
    pages[pages.length - 1].push(...block.draw([column.x, column.y + at]))
    return at + block.height
  }
}

/** Height from a block to the end of those it must stay with. */
function reach(blocks: readonly Block[], i: number): number {
  let height = blocks[i].height
  for (let k = i; blocks[k].keep === true && k + 1 < blocks.length; k++) {
    height += blocks[k + 1].gap + blocks[k + 1].height
  }
  return height
}

/** Of blocks one under another, the first without its gap. */
export const heightOf = (blocks: readonly Block[]): number =>
  blocks.reduce((sum, { height, gap }, i) => sum + height + (i === 0 ? 0 : gap), 0)

/** What a column has left for a picture among these blocks, within its bounds. */
export function roomAmong(
  blocks: readonly Block[],
  column: number,
  { least, most, gap }: { readonly least: number; readonly most: number; readonly gap: number },
): number {
  return Math.max(least, Math.min(most, column - heightOf(blocks) - gap))
}

/** Blocks as one, never broken. */
export function stacked(blocks: readonly Block[], gap = 0): Block {
  const tops: number[] = []
  let height = 0
  blocks.forEach((block, i) => {
    if (i > 0) height += block.gap
    tops.push(height)
    height += block.height
  })
  return { height, gap, draw: ([x, y]) => blocks.flatMap((block, i) => block.draw([x, y + tops[i]])) }
}

/** Stacks side by side, each at its own distance from the left. */
export function beside(columns: readonly { readonly x: number; readonly block: Block }[], gap = 0): Block {
  return {
    height: Math.max(...columns.map(({ block }) => block.height)),
    gap,
    draw: ([x, y]) => columns.flatMap((column) => column.block.draw([x + column.x, y])),
  }
}

export interface BoxStyle {
  readonly width: number
  readonly padding: number
  readonly stroke?: Stroke
  readonly fill?: Fill
  /** At least this high. */
  readonly height?: number
  readonly gap?: number
}

/** A block in a frame. */
export function boxed(inner: Block, style: BoxStyle): Block {
  const height = Math.max(inner.height + 2 * style.padding, style.height ?? 0)
  return {
    height,
    gap: style.gap ?? 3,
    draw: ([x, y]) => [
      rectangle(
        { x, y, width: style.width, height },
        { stroke: style.stroke ?? stroke(pen.thin), fill: style.fill ?? null },
      ),
      ...inner.draw([x + style.padding, y + style.padding]),
    ],
  }
}

/** A picture drawn with its own origin at its top left corner. */
export const picture = (height: number, items: readonly Primitive[], gap = 3): Block => ({
  height,
  gap,
  draw: (at) => [group(items, { move: at })],
})

export const space = (height: number): Block => ({ height, gap: 0, draw: () => [] })
