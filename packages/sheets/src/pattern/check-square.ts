/**
 * The check square of a true-scale page: a closed square of exactly 100 mm in fine dots, its corners drawn full, and
 * ticks at 4 in (101.6 mm) from its lower left corner along both axes.
 */
import { line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'

export const squareSide = 100
/** A good print stays within this of the square's side, mm; our default, no standard. */
export const allowedPrintError = 0.5
const fourInches = 101.6

/** At its upper left corner; takes 104 mm both ways with its labels. */
export function checkSquare([x, y]: XY, words = '100 mm check square'): Primitive[] {
  const right = x + squareSide
  const bottom = y + squareSide
  const corners: XY[] = [
    [x, y],
    [right, y],
    [right, bottom],
    [x, bottom],
  ]
  const leg = 7
  const full = stroke(pen.fine)
  const style = { size: 4.3, face: 'letter', layer: 'check', ink: 'dark' } as const
  return [
    path(corners, true, { layer: 'check', stroke: stroke(pen.thin, 'dark', [0.5, 1.5]) }),
    ...corners.flatMap(([cx, cy]) => {
      const inX = cx === x ? leg : -leg
      const inY = cy === y ? leg : -leg
      const elbow: XY[] = [
        [cx + inX, cy],
        [cx, cy],
        [cx, cy + inY],
      ]
      return [path(elbow, false, { layer: 'check', stroke: full })]
    }),
    line([x + fourInches, bottom - 2.5], [x + fourInches, bottom + 1], full, 'check'),
    line([x - 1, bottom - fourInches], [x + 2.5, bottom - fourInches], full, 'check'),
    text([x + 1.5, bottom - 1.6], words, style),
    text([right - 1.2, bottom - 1.6], '4 in →', { ...style, anchor: 'end' }),
  ]
}

/** The strips that its lines and words take, for keeping other words away. */
export function squareStrips([x, y]: XY): XY[][] {
  const strip = (left: number, top: number, width: number, height: number): XY[] => [
    [left, top],
    [left + width, top],
    [left + width, top + height],
    [left, top + height],
  ]
  return [
    strip(x - 1, y - 2, 103, 2.6),
    strip(x - 1, y, 1.6, 100),
    strip(x + 99.4, y, 3, 100),
    strip(x - 1, y + 94.5, 103, 6.5),
  ]
}
