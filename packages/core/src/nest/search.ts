/**
 * Search for a short layout of repeated shapes on one strip.
 *
 * A recipe fixes the order of the pieces, the turns each shape may take and the score; filling the strip by it is
 * deterministic. A handful of recipes that do well on swept hexagons are tried, then the best is changed at random
 * (fixed seed) and kept whenever it does no worse, until the effort is spent. Effort is counted in edge comparisons,
 * not by the clock, so the same input gives the same layout on every machine.
 * The long search (`search-nest.ts`) starts from what this finds.
 */
import { uniformInt } from 'pure-rand/distribution/uniformInt'
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'
import type { NoFitTable } from './no-fit.ts'
import { emptyStrip, type Score, type Spot, type StripSize, type Variant } from './strip.ts'

/** Added to the work of every layout, so that the search ends even where nothing is compared. */
const leastWork = 1000

export interface PackShape {
  readonly area: number
  readonly count: number
  /** Quarter turns worth trying. */
  readonly turns: readonly number[]
}

export interface PackProblem {
  readonly shapes: readonly PackShape[]
  /** Four a shape, by quarter turn. */
  readonly variants: readonly (Variant | null)[]
  readonly noFit: NoFitTable
  readonly size: StripSize
  /** What lies on the strip already and stays. */
  readonly fixed?: readonly Spot[]
  /** Edge comparisons to spend, at least one layout is always made. */
  readonly effort: number
}

export interface Layout {
  /** In order of placing; the variant is 4 × shape + quarter turn. */
  readonly spots: readonly Spot[]
  /** Right end of the rightmost piece, grid units. */
  readonly used: number
  /** Area of the pieces that found no place, in the unit of `PackShape.area`. */
  readonly left: number
  /** Layouts tried. */
  readonly tried: number
}

/**
 * Which turns of a shape a recipe allows: all, or those with the warp along (0) or across (1) the roll; `alternate` puts
 * every piece head to tail with the one before it.
 */
interface TurnRule {
  readonly quarter: 0 | 1 | null
  readonly alternate: boolean
}
const any: TurnRule = { quarter: null, alternate: false }
const along: TurnRule = { quarter: 0, alternate: false }
const alternateAlong: TurnRule = { quarter: 0, alternate: true }
const turnRules: readonly TurnRule[] = [
  any,
  along,
  { quarter: 1, alternate: false },
  alternateAlong,
  { quarter: 1, alternate: true },
]

interface Recipe {
  readonly order: readonly number[]
  readonly rules: readonly TurnRule[]
  /** Weight of the left end, of the height above the lower edge (or the nearer edge), both against the right end. */
  readonly leftWeight: number
  readonly heightWeight: number
  readonly fromNearerEdge: boolean
}

export function shortestLayout(problem: PackProblem): Layout {
  let { recipe, filled, spent, tried } = bestOfStarts(problem)
  const generator = xoroshiro128plus(1)
  const draw = (below: number): number => uniformInt(generator, 0, below - 1)
  while (spent < problem.effort && recipe.order.length > 1) {
    const changed = changedRecipe(recipe, draw)
    const attempt = fill(problem, changed, filled)
    spent += attempt.work + leastWork
    tried++
    if (!isWorse(attempt, filled)) {
      recipe = changed
      filled = attempt
    }
  }
  return { spots: filled.spots, used: filled.used, left: filled.left, tried }
}

function bestOfStarts(problem: PackProblem): { recipe: Recipe; filled: Filled; spent: number; tried: number } {
  const [first, ...others] = startingRecipes(problem)
  let recipe = first
  let filled = fill(problem, first, null)
  let spent = filled.work + leastWork
  let tried = 1
  for (const other of others) {
    if (spent >= problem.effort) break
    const attempt = fill(problem, other, filled)
    spent += attempt.work + leastWork
    tried++
    if (isWorse(attempt, filled)) continue
    recipe = other
    filled = attempt
  }
  return { recipe, filled, spent, tried }
}

/**
 * Chosen by trial: of sixty random recipes those that between them came nearest the best of all sixty over 24 random
 * sets of bay pieces (within 1 % on average). Those that leave quarter turns out come first, as they
 * need half the no-fit regions. A wrong choice only costs length.
 */
function startingRecipes({ shapes, variants }: PackProblem): Recipe[] {
  const reach = (i: number): number => Math.max(extentX(variants[4 * i]!), extentY(variants[4 * i]!))
  const byArea = expanded(shapes, (i) => shapes[i].area)
  const byTotal = expanded(shapes, (i) => shapes[i].area * shapes[i].count)
  const byReach = expanded(shapes, reach)
  const all = (rule: TurnRule): TurnRule[] => shapes.map(() => rule)
  const recipe = (order: number[], rule: TurnRule, left: number, height: number, nearer: boolean): Recipe => {
    return { order, rules: all(rule), leftWeight: left, heightWeight: height, fromNearerEdge: nearer }
  }
  return [
    recipe(byTotal, along, 0.75, 0.05, false),
    recipe(byTotal, alternateAlong, 1, 0.01, true),
    recipe(byReach, along, 0.55, 0, true),
    recipe(byReach, along, 1.35, 0.2, false),
    recipe(byTotal, any, 1.1, 0.65, true),
    recipe(byArea, any, 1.3, 0.65, false),
  ]
}

const extentX = ({ minX, maxX }: Variant): number => maxX - minX
const extentY = ({ minY, maxY }: Variant): number => maxY - minY

/** All pieces by shape, those of the greatest rank first. */
function expanded(shapes: readonly PackShape[], rank: (i: number) => number): number[] {
  const order = shapes.map((_, i) => i).sort((i, j) => rank(j) - rank(i) || i - j)
  return order.flatMap((i) => new Array<number>(shapes[i].count).fill(i))
}

type Draw = (below: number) => number

function changedRecipe(recipe: Recipe, draw: Draw): Recipe {
  const kind = draw(10)
  if (kind < 4) return { ...recipe, order: swapped(recipe.order, 1 + draw(3), draw) }
  if (kind < 7) {
    const rules = [...recipe.rules]
    rules[draw(rules.length)] = turnRules[draw(turnRules.length)]
    return { ...recipe, rules }
  }
  if (kind < 9) return { ...recipe, leftWeight: draw(151) / 100, heightWeight: draw(71) / 100 }
  return { ...recipe, fromNearerEdge: !recipe.fromNearerEdge }
}

function swapped(order: readonly number[], times: number, draw: Draw): number[] {
  const changed = [...order]
  for (let n = 0; n < times; n++) {
    const a = draw(changed.length)
    const b = draw(changed.length)
    ;[changed[a], changed[b]] = [changed[b], changed[a]]
  }
  return changed
}

interface Filled {
  readonly spots: readonly Spot[]
  readonly used: number
  readonly left: number
  readonly work: number
}

type Result = Pick<Filled, 'left' | 'used'>

/** More left over, or as much left over and longer. */
const isWorse = (a: Result, b: Result): boolean => a.left > b.left || (a.left === b.left && a.used > b.used)

/** Fills the strip by a recipe; gives up, as worse, once it passes `toBeat`. */
function fill(
  { shapes, variants, noFit, size, fixed = [] }: PackProblem,
  recipe: Recipe,
  toBeat: Filled | null,
): Filled {
  const strip = emptyStrip(variants, noFit, size, fixed)
  const score = scoreOf(recipe, size.width)
  const full = new Set<number>()
  const latest: number[] = []
  let used = 0
  let left = 0
  for (const shape of recipe.order) {
    const turns = shapes[shape].turns
    const spot = full.has(shape)
      ? null
      : (strip.best(variantsOf(shape, kept(turns, recipe.rules[shape], latest[shape])), score) ??
        strip.best(variantsOf(shape, turns), score))
    if (spot === null) {
      full.add(shape)
      left += shapes[shape].area
    } else {
      strip.place(spot)
      latest[shape] = spot.variant % 4
      used = Math.max(used, spot.x + variants[spot.variant]!.maxX)
    }
    if (toBeat !== null && isWorse({ left, used }, toBeat)) {
      return { spots: [], used: Infinity, left: Infinity, work: strip.work() }
    }
  }
  return { spots: strip.placed.slice(fixed.length), used, left, work: strip.work() }
}

const variantsOf = (shape: number, turns: readonly number[]): number[] => turns.map((turn) => 4 * shape + turn)

function scoreOf({ leftWeight, heightWeight, fromNearerEdge }: Recipe, width: number): Score {
  if (fromNearerEdge) {
    return (left, right, bottom, top) => right + leftWeight * left + heightWeight * Math.min(bottom, width - top)
  }
  return (left, right, bottom) => right + leftWeight * left + heightWeight * bottom
}

/** The turns a rule leaves of those a shape has; all of them when it would leave none. */
function kept(
  turns: readonly number[],
  { quarter, alternate }: TurnRule,
  latest: number | undefined,
): readonly number[] {
  if (quarter === null) return turns
  const allowed = turns.filter((turn) => turn % 2 === quarter && !(alternate && turn === latest))
  return allowed.length > 0 ? allowed : turns
}
