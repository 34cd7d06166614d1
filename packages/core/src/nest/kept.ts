/**
 * A nest that the plan keeps: found by a long search, or moved by hand. It holds as long as it is legal for the pieces and rolls as
 * they are now; as soon as it is not, the pieces are nested anew and the reason is said.
 *
 * Places are written to a micrometre, so that two cut edges may lie nearer than the gap by up to 1.5 µm, and an edge may pass the selvedge
 * line by 0.7 µm: the places are taken back onto the cloth by as much, and the gap is looked at less 3 µm.
 */
import type { Issue } from '../issue.ts'
import type { NestInput, NestResult } from './nest.ts'
import type { NestCloth, NestedRoll, NestPiece, PiecePlacement, StockRoll } from './piece.ts'
import { purchase, shortage, spareLength } from './purchase.ts'
import { shapesOf, shoelace } from './shape.ts'
import { allowedTurns, isBalanced, placedOutline, rotationFor } from './turn.ts'
import { nestFault } from './verify.ts'

/** Lengths in m, angle in rad, roll axes. `roll` is a roll in stock, else cloth to be bought. */
export interface KeptPlacement extends PiecePlacement {
  readonly roll: string
}

const written = 1e-6
const gapWritten = 3 * written
/** Angles are written to a thousandth of a degree. */
const angleWritten = 2e-5

export type KeptNest =
  | { readonly kind: 'kept'; readonly value: NestResult; readonly warnings: readonly Issue[] }
  | { readonly kind: 'broken'; readonly why: string }

export function keptNest(input: NestInput, placements: readonly KeptPlacement[]): KeptNest {
  const byId = new Map(input.pieces.map((piece) => [piece.id, piece]))
  const unknown = placements.find(({ piece }) => !byId.has(piece))
  if (unknown !== undefined) return { kind: 'broken', why: `there is no piece ${unknown.piece} any more` }
  const rolls: NestedRoll[] = []
  const buy: NestResult['buy'][number][] = []
  const warnings: Issue[] = []
  const cloths = [...new Map(input.pieces.map(({ cloth }) => [cloth.id, cloth])).values()]
  for (const cloth of cloths) {
    const stock = input.rolls.filter((roll) => roll.cloth.id === cloth.id)
    const own = input.pieces.filter((piece) => piece.cloth.id === cloth.id)
    for (const id of new Set(
      placements.filter(({ piece }) => byId.get(piece)!.cloth.id === cloth.id).map(({ roll }) => roll),
    )) {
      const from = stock.find((roll) => roll.id === id) ?? toBuy(id, cloth, own, stock)
      if (from === null) return { kind: 'broken', why: `there is no roll '${id}' of ${cloth.name}` }
      const laid = placements.filter(({ roll, piece }) => roll === id && byId.get(piece)!.cloth.id === cloth.id)
      const turned = laid.map((at) => settled(at, byId.get(at.piece)!))
      const roll = asRoll(from, cloth, turned, byId)
      rolls.push(roll)
      if (roll.availableLength !== null) continue
      buy.push(purchase(roll, stock))
      warnings.push(shortage(roll, stock, cloth))
    }
  }
  const gap = Math.max(0, input.gap - gapWritten)
  const fault = nestFault({ pieces: input.pieces, rolls, gap, stock: input.rolls })
  if (fault !== null) return { kind: 'broken', why: fault }
  return { kind: 'kept', value: { rolls, buy }, warnings }
}

/** Where pieces lie, as a plan keeps it. */
export const placementsOf = (rolls: readonly NestedRoll[]): KeptPlacement[] =>
  rolls.flatMap(({ roll, placements }) => placements.map((at) => ({ ...at, roll })))

interface From {
  readonly id: string
  readonly width: number
  readonly selvedge: number
  readonly length: number
}

function toBuy(id: string, cloth: NestCloth, own: readonly NestPiece[], stock: readonly StockRoll[]): From | null {
  const spare = spareLength(cloth, shapesOf(own, isBalanced(cloth), 0), stock)
  return spare.id === id ? spare : null
}

/** The turn as it was before it was written, which for cloth is one of two or four. */
function settled(at: PiecePlacement, { cloth, angle }: NestPiece): PiecePlacement {
  if (cloth.weave === 'film') return at
  const turns = allowedTurns(isBalanced(cloth)).map((quarters) => rotationFor(angle, quarters))
  const rotation = turns.find((turn) => Math.abs(Math.sin((turn - at.rotation) / 2)) < angleWritten)
  return rotation === undefined ? at : { ...at, rotation }
}

function asRoll(
  { id, width, selvedge, length }: From,
  { id: cloth, name: clothName }: NestCloth,
  at: readonly PiecePlacement[],
  byId: ReadonlyMap<string, NestPiece>,
): NestedRoll {
  const placements = at.map((one) => ontoCloth(one, byId.get(one.piece)!, { width, selvedge, length }))
  let [usedLength, area] = [0, 0]
  for (const one of placements) {
    const { outline } = byId.get(one.piece)!
    usedLength = Math.max(usedLength, ...placedOutline(outline, one).map(([x]) => x))
    area += shoelace(outline)
  }
  const used = width * usedLength
  const availableLength = length === Infinity ? null : length
  return {
    ...{ roll: id, cloth, clothName, width, selvedge, availableLength, usedLength },
    ...{ density: area / used, waste: used - area, placements },
  }
}

/** Back from over an edge, by no more than what writing it may have cost. */
function ontoCloth(
  at: PiecePlacement,
  { outline }: NestPiece,
  { width, selvedge, length }: Pick<From, 'width' | 'selvedge' | 'length'>,
): PiecePlacement {
  const points = placedOutline(outline, at)
  const [X, Y] = [points.map(([x]) => x), points.map(([, y]) => y)]
  return {
    ...at,
    x: at.x + back(Math.min(...X), Math.max(...X), 0, length),
    y: at.y + back(Math.min(...Y), Math.max(...Y), selvedge, width - selvedge),
  }
}

function back(low: number, high: number, least: number, most: number): number {
  if (low < least && least - low <= written) return least - low
  if (high > most && high - most <= written) return most - high
  return 0
}
