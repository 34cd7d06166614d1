/**
 * Defects of the rolls in stock: places on which no piece may lie. Each is a shape that is never moved; as the pieces are
 * grown by half the cutting gap and it is not, half the gap stays between it and a cut edge.
 */
import type { Issue } from '../issue.ts'
import { convexParts, type GridPoint, type Loop } from './convex.ts'
import type { Point, StockRoll } from './piece.ts'
import type { Length } from './rolls.ts'
import { gridPerMetre, type Shape, shoelace } from './shape.ts'
import type { Spot } from './strip.ts'

export interface StockLengths {
  readonly lengths: readonly Length[]
  /** Convex parts of the shapes and, after them, of the defects: what no-fit regions are made of. */
  readonly parts: readonly (readonly Loop[])[]
}

export function stockLengths(stock: readonly StockRoll[], shapes: readonly Shape[]): StockLengths {
  const parts = shapes.map((shape) => shape.parts)
  const lengths = stock.map(({ id, width, selvedge, length, defects = [] }) => ({
    ...{ id, width, selvedge, length },
    defects: defects.map((outline): Spot => {
      const loop = onRoll(outline, selvedge)
      const middle = middleOf(loop)
      parts.push(convexParts(loop.map(({ x, y }) => ({ x: x - middle.x, y: y - middle.y }))))
      return { variant: 4 * (parts.length - 1), ...middle, score: 0 }
    }),
  }))
  return { lengths, parts }
}

/** Defects that have no area. */
export function badDefects(rolls: readonly StockRoll[]): Issue[] {
  return rolls.flatMap(({ id, defects = [] }, r) =>
    defects.flatMap((outline, d) => {
      const size = Math.abs(shoelace(outline))
      if (outline.flat().every(Number.isFinite) && size > 1e-8) return []
      return [
        {
          code: 'nest/defect-outline',
          path: `stock.rolls[${r}].defects[${d}]`,
          value: outline,
          message: `Defect ${d + 1} of roll ${id} encloses no area; it takes three corners or more, lengths in metres.`,
          hint: 'Give the corners of an outline around the flaw, measured from the cut end and from the selvedge.',
        },
      ]
    }),
  )
}

function onRoll(outline: readonly Point[], selvedge: number): Loop {
  const loop = outline.map(([x, y]) => ({
    x: Math.round(x * gridPerMetre),
    y: Math.round((y - selvedge) * gridPerMetre),
  }))
  return shoelace(outline) < 0 ? loop.reverse() : loop
}

function middleOf(loop: Loop): GridPoint {
  const X = loop.map(({ x }) => x)
  const Y = loop.map(({ y }) => y)
  return {
    x: Math.round((Math.min(...X) + Math.max(...X)) / 2),
    y: Math.round((Math.min(...Y) + Math.max(...Y)) / 2),
  }
}
