/** Pictures at true scale as one printable document: the map, then the tiles of each. */
import type { Page } from '../drawing/drawing.ts'
import { framed, type Identity, type Paper } from '../layout/paper.ts'
import { assemblyPages } from './assembly.ts'
import { gridOf } from './grid.ts'
import type { Picture } from './picture.ts'
import { tilePages } from './tiles.ts'

export interface TiledInput {
  readonly title: string
  readonly subject: string
  readonly pictures: readonly Picture[]
  readonly paper: Paper
  readonly identity: Identity
  readonly allowed: number
  readonly correction: string
  readonly notes?: readonly string[]
}

export function tiledDocument(input: TiledInput): Page[] {
  const { paper, identity, correction } = input
  const pictures = input.pictures.map((picture) => ({ picture, grid: gridOf(picture, paper) }))
  const map = assemblyPages({ ...input, pictures })
  const tiles = pictures.reduce((sum, { grid }) => sum + grid.tiles.length, 0)
  const total = map.length + tiles
  let before = map.length
  const sheets = pictures.flatMap(({ picture, grid }) => {
    const pages = tilePages(picture, grid, { paper, identity, correction, before, total })
    before += pages.length
    return pages
  })
  return [...framed(map, paper, identity, tiles), ...sheets]
}
