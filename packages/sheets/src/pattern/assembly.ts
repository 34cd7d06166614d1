/** The first pages of a tiled document: how to print it, a square to measure, and a map of every picture's tiles. */
import { group, type Primitive, path, pen, rectangle, stroke, text, type XY } from '../drawing/drawing.ts'
import { shortened, textWidth } from '../drawing/lettering.ts'
import { type Block, beside, picture as drawn, paged } from '../layout/block.ts'
import { content, type Leaf, type Paper } from '../layout/paper.ts'
import { heading, paragraph } from '../layout/words.ts'
import { checkSquare } from './check-square.ts'
import { type Grid, overlap } from './grid.ts'
import type { Picture } from './picture.ts'

export interface AssemblyInput {
  readonly title: string
  readonly subject: string
  readonly paper: Paper
  readonly pictures: readonly { readonly picture: Picture; readonly grid: Grid }[]
  /** Greatest difference from 100 mm, of either side of the square, that needs no correction, mm. */
  readonly allowed: number
  /** `corrected for this printer: …`, or empty. */
  readonly correction: string
  /** Steps of its own, after the usual ones. */
  readonly notes?: readonly string[]
}

const columns = 4
/** Two rows of four stand on the first page of the smaller paper. */
const thumbnailHeight = 43

/** How many pages come before the first tile. */
export const assemblyPageCount = (input: Omit<AssemblyInput, 'pictures'> & Pick<AssemblyInput, 'pictures'>): number =>
  pagesOf(input, 0).length

export function assemblyPages(input: AssemblyInput): Leaf[] {
  return pagesOf(input, assemblyPageCount(input)).map((items, i) => ({
    title: input.title,
    subject: input.subject,
    items,
    ownSquare: i === 0,
  }))
}

function pagesOf(input: AssemblyInput, before: number): Primitive[][] {
  const area = content(input.paper)
  return paged([...instructions(input, area.width), ...maps(input, before, area.width)], area)
}

function instructions({ pictures, allowed, correction, notes = [] }: AssemblyInput, width: number): Block[] {
  const sheets = pictures.reduce((sum, { grid }) => sum + grid.tiles.length, 0)
  const many = pictures.length > 1 ? `${pictures.length} drawings` : 'One drawing'
  const right = width - 112
  const steps = [
    'Print this page first, at actual size: 100 %, no fitting, no borderless.',
    `Measure the square. Both sides must be 100.0 mm, within ${allowed} mm; the outer ticks are at 4 in.`,
    'If a side is off, write both lengths in the plan as printing.checkSquare and make the package again. Never stretch by eye.',
    'Print the rest on the same printer. Check the square on every page.',
    'Trim the dashed edges. Lay each page over the next: equal diamonds fall on one another. Tape.',
    'Measure the long slanted line over the joins before you cut.',
    ...notes,
  ]
  const list = steps.map((words, i): Block => {
    const body = paragraph(words, right - 6, { size: 3.6 })
    return {
      ...body,
      gap: 2.2,
      draw: ([x, y]) => [text([x, y + 3.4], `${i + 1}`, { size: 4.2, face: 'title' }), ...body.draw([x + 6, y])],
    }
  })
  const measured = drawn(24, [
    text([0, 6], 'across', { size: 4.3, face: 'letter' }),
    text([38, 6], 'mm', { size: 4.3, face: 'letter' }),
    rectangle({ x: 15, y: 0.5, width: 21, height: 8 }, { stroke: stroke(pen.fine) }),
    text([0, 17], 'along', { size: 4.3, face: 'letter' }),
    text([38, 17], 'mm', { size: 4.3, face: 'letter' }),
    rectangle({ x: 15, y: 11.5, width: 21, height: 8 }, { stroke: stroke(pen.fine) }),
  ])
  return [
    paragraph(`${many} at true scale on ${sheets} ${sheets === 1 ? 'sheet' : 'sheets'} after this map.`, width, {
      size: 4,
    }),
    ...(correction === '' ? [] : [paragraph(`${correction}.`, width, { size: 4, face: 'strong' })]),
    beside(
      [
        { x: 1, block: drawn(106, checkSquare([0, 2])) },
        { x: 112, block: column([...list, measured]) },
      ],
      4,
    ),
  ]
}

function column(blocks: readonly Block[]): Block {
  let height = 0
  const tops = blocks.map((block, i) => {
    if (i > 0) height += block.gap
    const top = height
    height += block.height
    return top
  })
  return { height, gap: 0, draw: ([x, y]) => blocks.flatMap((block, i) => block.draw([x, y + tops[i]])) }
}

function maps({ pictures }: AssemblyInput, before: number, width: number): Block[] {
  const blocks: Block[] = [heading('Map of the sheets', width)]
  let sheet = before
  const starts = pictures.map(({ grid }) => {
    const first = sheet + 1
    sheet += grid.tiles.length
    return first
  })
  const cell = width / columns
  for (let i = 0; i < pictures.length; i += columns) {
    const row = pictures.slice(i, i + columns)
    blocks.push({
      height: thumbnailHeight,
      gap: 3,
      draw: ([x, y]) =>
        row.flatMap(({ picture, grid }, k) => thumbnail(picture, grid, starts[i + k], [x + k * cell, y], cell - 5)),
    })
  }
  return blocks
}

const placeStyle = { size: 2.4, ink: 'dark', anchor: 'middle' } as const

/** The tile's own page says its place too. */
const placeFits = (words: string, room: number): boolean => textWidth(words, { size: 2.4, face: 'text' }) < room

/** The outline over its tiles, with the sheet's number in each. */
function thumbnail(picture: Picture, grid: Grid, first: number, [x, y]: XY, width: number): Primitive[] {
  const left = Math.min(...grid.tiles.map(({ box }) => box.x))
  const top = Math.min(...grid.tiles.map(({ box }) => box.y))
  const right = Math.max(...grid.tiles.map(({ box }) => box.x + box.width))
  const bottom = Math.max(...grid.tiles.map(({ box }) => box.y + box.height))
  const room = { width, height: thumbnailHeight - 12 }
  const scale = Math.min(room.width / (right - left), room.height / (bottom - top))
  const at = ([px, py]: XY): XY => [(px - left) * scale, (py - top) * scale]
  const last = first + grid.tiles.length - 1
  const name = shortened(picture.name, width, { size: 4, face: 'title' })
  const items: Primitive[] = [
    path(picture.outline.map(at), true, { layer: 'mark', stroke: stroke(pen.fine) }),
    ...grid.tiles.flatMap(({ box, row, column }, i) => {
      const [bx, by] = at([box.x, box.y])
      const middle: XY = [bx + (box.width * scale) / 2, by + (box.height * scale) / 2]
      return [
        rectangle(
          { x: bx, y: by, width: box.width * scale, height: box.height * scale },
          { stroke: stroke(pen.hair, 'mid', [1.2, 0.8]) },
        ),
        text([middle[0], middle[1] + 1.6], `${first + i}`, { size: 6, face: 'title', anchor: 'middle' }),
        ...(placeFits(`row ${row} · col ${column}`, (box.width - 2 * overlap) * scale)
          ? [text([middle[0], middle[1] + 5], `row ${row} · col ${column}`, placeStyle)]
          : []),
      ]
    }),
  ]
  return [
    text([x, y + 4], name, { size: 4, face: 'title' }),
    text([x, y + 8], first === last ? `sheet ${first}` : `sheets ${first}–${last}`, { size: 3, ink: 'dark' }),
    group(items, { move: [x, y + 10.5] }),
  ]
}
