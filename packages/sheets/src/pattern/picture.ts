/** A drawing at true scale before it is laid on paper: its items, what it covers, and what words must keep away from. */
import type { Box, Primitive, XY } from '../drawing/drawing.ts'
import type { Segment } from '../layout/placing.ts'

export interface PictureFrame {
  /** In mm, right and down; everything lies inside it. */
  readonly box: Box
  /** Tiles that this outline does not touch are not printed; empty: all are. */
  readonly outline: readonly XY[]
  /** Long upright lines at these x and level ones at these y: no join should fall on one. */
  readonly upright: readonly number[]
  readonly level: readonly number[]
}

/** How a picture lies on its tiles: the joins to keep words off, and where each tile's check square goes. */
export interface TilePlan {
  readonly seams: readonly Segment[]
  /** Upper left corners in the picture's plane, one a tile in the grid's order. */
  readonly squares: readonly XY[]
}

export interface Picture extends PictureFrame {
  /** `P3 of 7`, printed large on every tile. */
  readonly name: string
  /** Shorter, for bookmarks and file names: `P3`. */
  readonly key: string
  /** What it is for: `unit A and B, bays 1–4`. */
  readonly use: string
  readonly items: readonly Primitive[]
  readonly lines: readonly Segment[]
  readonly words: readonly (readonly XY[])[]
  /** Chosen before the words were placed; null when the squares go where the words leave room. */
  readonly squares: readonly XY[] | null
}
