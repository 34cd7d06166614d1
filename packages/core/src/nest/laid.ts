/**
 * Layouts on the grid turned into placements of pieces.
 *
 * Pieces of one shape are alike, so which of them lies where costs nothing: at first they take their places from the
 * roll's end in the order given, so that the first can is cut first; then pieces of one roll trade places as long as
 * that draws the pieces of a group (a bay) together, by the sum of squared distances from each group's middle.
 */
import { invariant } from '../issue.ts'
import type { NestCloth, NestedRoll, PiecePlacement } from './piece.ts'
import type { Cut } from './rolls.ts'
import { gridPerMetre, type Shape } from './shape.ts'
import type { Spot } from './strip.ts'
import { placedOutline, rotationFor, turned } from './turn.ts'

export function nestedRolls(cloth: NestCloth, shapes: readonly Shape[], cuts: readonly Cut[]): NestedRoll[] {
  const next = shapes.map(() => 0)
  return cuts.map(({ from, layout }) => {
    const spots = [...layout.spots].sort((a, b) => a.x - b.x || a.y - b.y)
    const indices = spots.map(({ variant }) => next[variant >> 2]++)
    drawTogether(shapes, spots, indices)
    let length = 0
    let area = 0
    const placements = spots.map((spot, s): PiecePlacement => {
      const shape = shapes[spot.variant >> 2]
      const placement = placementOf(shape, indices[s], spot, from.selvedge)
      const { outline } = shape.pieces[indices[s]]
      length = Math.max(length, ...placedOutline(outline, placement).map(([right]) => right))
      area += shape.area
      return placement
    })
    const used = from.width * length
    return {
      roll: from.id,
      cloth: cloth.id,
      clothName: cloth.name,
      width: from.width,
      selvedge: from.selvedge,
      availableLength: from.length === Infinity ? null : from.length,
      usedLength: length,
      density: area / used,
      waste: used - area,
      placements,
    }
  })
}

function placementOf(
  { pieces, origins }: Shape,
  index: number,
  { variant, x, y }: Spot,
  selvedge: number,
): PiecePlacement {
  const piece = pieces[index]
  invariant(piece !== undefined, 'no more spots than pieces')
  const [u, v] = turned(origins[index], ((variant % 4) * Math.PI) / 2)
  const rotation = rotationFor(piece.angle, variant % 4)
  return { piece: piece.id, x: x / gridPerMetre - u, y: y / gridPerMetre - v + selvedge, rotation }
}

/** Trades of places, over all pairs again and again; each lowers the spread, so it ends; this is far above what it takes. */
const mostPasses = 50

interface Group {
  count: number
  x: number
  y: number
}

/** Changes `indices`, the piece of each spot, among spots of one shape. */
export function drawTogether(shapes: readonly Shape[], spots: readonly Spot[], indices: number[]): void {
  const groupOf = (s: number): string | undefined => shapes[spots[s].variant >> 2].pieces[indices[s]].group
  const groups = new Map<string, Group>()
  spots.forEach(({ x, y }, s) => {
    const name = groupOf(s)
    if (name === undefined) return
    const { count, x: sumX, y: sumY } = groups.get(name) ?? { count: 0, x: 0, y: 0 }
    groups.set(name, { count: count + 1, x: sumX + x, y: sumY + y })
  })
  if (groups.size < 2) return
  for (let pass = 0; pass < mostPasses; pass++) {
    let traded = false
    for (let a = 0; a < spots.length; a++) {
      for (let b = a + 1; b < spots.length; b++) {
        if (spots[a].variant >> 2 !== spots[b].variant >> 2) continue
        const [p, q] = [groups.get(groupOf(a) ?? ''), groups.get(groupOf(b) ?? '')]
        if (p === undefined || q === undefined || p === q || gainOf(p, q, spots[a], spots[b]) <= 1e-6) continue
        move(p, spots[a], spots[b])
        move(q, spots[b], spots[a])
        ;[indices[a], indices[b]] = [indices[b], indices[a]]
        traded = true
      }
    }
    if (!traded) return
  }
}

/**
 * By how much the spread falls when p gives its place a for b and q the other way, m²: the squares of the places cancel
 * and the spread of n places about their middle is Σ r² − |Σ r|²/n.
 */
function gainOf(p: Group, q: Group, a: Spot, b: Spot): number {
  const [dx, dy] = [(b.x - a.x) / gridPerMetre, (b.y - a.y) / gridPerMetre]
  const grows = (g: Group, u: number, v: number): number => {
    const [x, y] = [g.x / gridPerMetre, g.y / gridPerMetre]
    return ((x + u) ** 2 + (y + v) ** 2 - x ** 2 - y ** 2) / g.count
  }
  return grows(p, dx, dy) + grows(q, -dx, -dy)
}

function move(group: Group, from: Spot, to: Spot): void {
  group.x += to.x - from.x
  group.y += to.y - from.y
}
