/** How much cloth nesting saves on the demo against its pieces as rectangles in rows; by effort, not by the clock. */
import { canPatterns } from '@finwright/core/assess/can-patterns.ts'
import { canNest, type NestSection, nestingBudgets } from '@finwright/core/assess/nest-section.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import { nestPieces, usualGap } from '@finwright/core/nest/nest.ts'
import { describe, expect, test } from 'vitest'
import { boxOf, rowsLength } from '../../../bench/nest-rows.ts'
import { example, read } from './plans.ts'

const document = read(example('demo'))
if (!document.ok || document.value.design.kind !== 'can') throw new Error('the demo is refused')
const { design } = document.value
const patterns = canPatterns(design, curedPlies(design))
if (!patterns.ok) throw new Error('the demo has no patterns')

const nestWith = (budget: number): NestSection => {
  const nest = canNest(design, patterns.value, { budget })
  if (!nest.ok) throw new Error('the demo does not nest')
  return nest.value
}
const clothOf = ({ rolls }: NestSection): number =>
  rolls.reduce((sum, { usedLength_m, width_m }) => sum + usedLength_m * width_m, 0)

/** The shortest rows of rectangles, along the pieces' own axes or along the roll, m². */
function clothInRows(own: boolean): number {
  return design.stock.rolls.reduce((sum, { cloth, width, selvedge }) => {
    const boxes = patterns.ok ? patterns.value.pieces.filter((piece) => piece.cloth === cloth.id) : []
    const length = rowsLength(
      boxes.map((piece) => boxOf({ ...piece, cloth }, own)),
      width - 2 * selvedge,
      usualGap,
    )
    return sum + length * width
  }, 0)
}

/** Mean squared distance of the origins from the middle of their bay's, m². */
function spread(placements: readonly { readonly piece: string; readonly x_m: number; readonly y_m: number }[]): number {
  const squares = grouped(placements).flatMap((bay) => {
    const [x, y] = [mean(bay.map(({ x_m }) => x_m)), mean(bay.map(({ y_m }) => y_m))]
    return bay.map(({ x_m, y_m }) => (x_m - x) ** 2 + (y_m - y) ** 2)
  })
  return mean(squares)
}

const mean = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0) / values.length

function grouped<P extends { readonly piece: string }>(placements: readonly P[]): P[][] {
  const names = new Set(placements.map(({ piece }) => piece.slice(0, 3)))
  return [...names].map((name) => placements.filter(({ piece }) => piece.startsWith(name)))
}

describe('the demo', () => {
  const rows = Math.min(clothInRows(true), clothInRows(false))
  const thorough = nestWith(nestingBudgets.thorough)

  test('takes at least 15 % less cloth than rectangles in rows', () => {
    expect(rows).toBeGreaterThan(4)
    expect(1 - clothOf(thorough) / rows).toBeGreaterThanOrEqual(0.15)
  })

  // The layout keeps the plies of one shape together, which leaves little to gain: 6 %.
  test('pieces of a bay lie nearer one another than in order of the plan, on no more cloth', () => {
    const quick = nestWith(nestingBudgets.quick)
    const cloths = new Map(design.plies.map(({ cloth }) => [cloth.id, cloth]))
    const pieces = patterns.value.pieces.map(({ id, outline, angle, cloth }) => {
      return { id, outline, angle, cloth: cloths.get(cloth)! }
    })
    const apart = nestPieces({ pieces, rolls: design.stock.rolls, gap: usualGap })
    if (!apart.ok) throw new Error('no nest')
    const rolls = apart.value.rolls.map(({ usedLength, placements }) => ({
      usedLength_m: usedLength,
      placements: placements.map(({ piece, x, y }) => ({ piece, x_m: x, y_m: y })),
    }))
    expect(quick.rolls.map(({ usedLength_m }) => usedLength_m)).toEqual(rolls.map(({ usedLength_m }) => usedLength_m))
    expect(spread(quick.rolls[0]!.placements)).toBeLessThan(0.96 * spread(rolls[0]!.placements))
  })

  test('a thorough nest takes no more than a quick one; the quick one saves a tenth', () => {
    const quick = nestWith(nestingBudgets.quick)
    expect(clothOf(thorough)).toBeLessThan(clothOf(quick))
    expect(1 - clothOf(quick) / rows).toBeGreaterThan(0.1)
    expect([quick.searchBudget, thorough.searchBudget]).toEqual([0, nestingBudgets.thorough])
  })
})
