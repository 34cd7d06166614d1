/**
 * What is cut where, what is left and what is to be bought, mapped to the assessment's keys.
 *
 * A quick nest only fills the cloth; a thorough one searches on from there. Effort is a count of work, so the same plan
 * gives the same nest on every machine.
 */
import type { Checked, Issue } from '../issue.ts'
import { keptNest } from '../nest/kept.ts'
import { type NestInput, type NestResult, nestPieces, usualGap } from '../nest/nest.ts'
import { offcutStock, offcutsOf, usualOffcut } from '../nest/offcuts.ts'
import type { NestedRoll, NestPiece, Point, StockRoll } from '../nest/piece.ts'
import { type NestWatch, searchNest } from '../nest/search-nest.ts'
import type { Patterns } from '../pattern/patterns.ts'
import type { CanDesign } from './design.ts'

export interface Placement {
  readonly piece: string
  readonly x_m: number
  readonly y_m: number
  readonly rotation_deg: number
}

/** A rectangle of a roll that is worth keeping: from (x, y), roll axes, `length` along it and `width` across. */
export interface NestOffcut {
  readonly x_m: number
  readonly y_m: number
  readonly length_m: number
  readonly width_m: number
  /** The roll that it is in `NestSection.left`. */
  readonly roll: string
}

export interface NestRoll {
  readonly roll: string
  readonly cloth: string
  readonly clothName: string
  readonly width_m: number
  readonly selvedge_m: number
  /** In stock; null for cloth that has to be bought. */
  readonly availableLength_m: number | null
  readonly usedLength_m: number
  readonly density: number
  /** Cloth of the used length that becomes no piece. */
  readonly waste_m2: number
  /** Outlines of flaws that nothing lies on. */
  readonly defects_m: readonly (readonly Point[])[]
  readonly placements: readonly Placement[]
  /** The tail beyond the used length first. */
  readonly offcuts: readonly NestOffcut[]
}

/** A length of cloth as a plan's `stock.rolls` states it. */
export interface RollLeft {
  readonly roll: string
  readonly cloth: string
  readonly clothName: string
  readonly width_m: number
  readonly length_m: number
  readonly selvedge_m: number
  readonly defects_m: readonly (readonly Point[])[]
}

export interface NestSection {
  readonly rolls: readonly NestRoll[]
  readonly buy: readonly {
    readonly cloth: string
    readonly clothName: string
    readonly width_m: number
    readonly length_m: number
    readonly reason: string
  }[]
  /** The stock once everything is cut: rolls not touched, what stays on the others, and off-cuts. */
  readonly left: readonly RollLeft[]
  /** Depths of pairs the search might ask for; 0 where the cloth was only filled. */
  readonly searchBudget: number
  /** Whether it is the nest that the plan keeps. */
  readonly kept: boolean
}

/** How a nest is looked for, resolved at the edge. */
export interface Nesting {
  /** Depths of pairs to ask for, see `search-nest.ts`; 0 fills only. */
  readonly budget: number
  readonly watch?: NestWatch
}

/** A fraction of a second for the demo, and some four seconds at most on a slow machine. */
export const nestingBudgets = { quick: 0, thorough: 12e6 } as const
export type NestEffort = keyof typeof nestingBudgets

export function canNest(
  { plies, stock }: CanDesign,
  patterns: Patterns,
  { budget, watch }: Nesting = { budget: nestingBudgets.quick },
): Checked<NestSection> {
  const input = nestInput({ plies, stock }, patterns.pieces)
  const kept = stock.layout === null ? null : keptNest(input, stock.layout)
  if (kept?.kind === 'kept')
    return { ok: true, value: nestSection(kept.value, input, 0, true), warnings: kept.warnings }
  const nest = budget === 0 ? nestPieces(input) : searchNest(input, { budget }, watch)
  if (!nest.ok) return nest
  const warnings = kept === null ? nest.warnings : [layoutBroken(kept.why), ...nest.warnings]
  return { ...nest, value: nestSection(nest.value, input, budget, false), warnings }
}

const layoutBroken = (why: string): Issue => ({
  code: 'nest/layout-broken',
  path: 'stock.layout',
  value: null,
  message: `The nest that the plan keeps no longer holds: ${why}. The pieces were nested anew.`,
  hint: 'Look for a better nest again, or undo the change that broke it; clear the kept nest to be rid of this line.',
})

/** All pieces of a can's plan and the cloth in stock. */
export function nestInput(
  { plies, stock }: Pick<CanDesign, 'plies' | 'stock'>,
  all: readonly Pick<Patterns['pieces'][number], 'id' | 'cloth' | 'outline' | 'angle' | 'can' | 'bay'>[],
): NestInput {
  const cloths = new Map(plies.map(({ cloth }) => [cloth.id, cloth]))
  const pieces = all.map(({ id, cloth, outline, angle, can, bay }): NestPiece => {
    return { id, outline, angle, cloth: cloths.get(cloth)!, group: `${can}-${bay}` }
  })
  return { pieces, rolls: stock.rolls, gap: usualGap }
}

function nestSection({ rolls, buy }: NestResult, input: NestInput, searchBudget: number, kept: boolean): NestSection {
  const left: RollLeft[] = []
  const inStock = rolls.filter(({ availableLength }) => availableLength !== null)
  const touched = new Map(inStock.map((roll) => [roll.roll, roll]))
  const saved = new Map<NestedRoll, NestOffcut[]>()
  for (const from of input.rolls) {
    const roll = touched.get(from.id)
    if (roll === undefined) {
      left.push(rollLeft(from))
      continue
    }
    const offcuts = offcutsOf(roll, input.pieces, input.gap, usualOffcut, from.defects)
    const stock = offcutStock(from, offcuts)
    left.push(...stock.map(rollLeft))
    saved.set(
      roll,
      offcuts.map(({ x, y, length, width }, n) => ({
        ...{ x_m: x, y_m: y, length_m: length, width_m: width, roll: stock[n].id },
      })),
    )
  }
  const flaws = new Map(input.rolls.map(({ id, defects = [] }) => [id, defects]))
  return {
    rolls: rolls.map((roll) => nestRoll(roll, flaws.get(roll.roll) ?? [], saved.get(roll) ?? [])),
    buy: buy.map(({ cloth, clothName, width, length, reason }) => ({
      ...{ cloth, clothName, width_m: width, length_m: length, reason },
    })),
    ...{ left, searchBudget, kept },
  }
}

function nestRoll(roll: NestedRoll, defects: readonly (readonly Point[])[], offcuts: readonly NestOffcut[]): NestRoll {
  return {
    roll: roll.roll,
    cloth: roll.cloth,
    clothName: roll.clothName,
    width_m: roll.width,
    selvedge_m: roll.selvedge,
    availableLength_m: roll.availableLength,
    usedLength_m: roll.usedLength,
    density: roll.density,
    waste_m2: roll.waste,
    defects_m: defects,
    placements: roll.placements.map(({ piece, x, y, rotation }) => ({
      ...{ piece, x_m: x, y_m: y, rotation_deg: (rotation * 180) / Math.PI },
    })),
    offcuts,
  }
}

function rollLeft({ id, cloth, width, length, selvedge, defects = [] }: StockRoll): RollLeft {
  return {
    ...{ roll: id, cloth: cloth.id, clothName: cloth.name, width_m: width, length_m: length },
    ...{ selvedge_m: selvedge, defects_m: defects },
  }
}
