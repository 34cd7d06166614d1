/**
 * What must hold between the fields of a can, beyond each field's own limits. Every check runs on what is known and passes
 * over what is not, so that one wrong field hides no other fault. What only the pattern can tell is told there.
 */
import type { CanDesign, Point } from '@finwright/core/assess/design.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { selfCrossing } from '@finwright/core/geometry/polygon-crossing.ts'
import type { Issue } from '@finwright/core/issue.ts'
import { allKnown, type Loose, listOf, type Report } from '../resolve/loose.ts'
import type { CanPlan } from '../schema/can.ts'
import { valueAt } from '../schema/locate.ts'
import { checkFins } from './fins.ts'
import { checkOutline } from './outline.ts'
import { checkPlies } from './plies.ts'

/** m²: a square of a millimetre. */
const leastFlaw = 1e-6

export interface Checking {
  readonly design: Loose<CanDesign>
  readonly plan: Loose<CanPlan>
  readonly report: Report
  /** What stands at a path of the plan, as typed. */
  readonly typed: (...path: (string | number)[]) => unknown
}

export function checkCan(design: Loose<CanDesign>, plan: Loose<CanPlan>, report: Report): void {
  const checking: Checking = { design, plan, report, typed: (...path) => valueAt(plan, path) }
  checkOutline(checking)
  checkFins(checking)
  checkPlies(checking)
  checkStock(checking)
  checkLetters(checking)
  checkMasses(checking)
  checkImpulse(checking)
}

function checkStock(checking: Checking): void {
  const { design, report, typed } = checking
  const rolls = design.stock?.rolls ?? []
  const seen = new Map<string, number>()
  rolls.forEach((roll, i) => {
    const path = `stock.rolls[${i}]`
    if (roll?.width !== undefined && roll.selvedge !== undefined && 2 * roll.selvedge >= roll.width) {
      const written = typed('stock', 'rolls', i, 'selvedge')
      report({
        code: 'stock/selvedge',
        path: `${path}.selvedge`,
        value: written,
        message: `The selvedge of ${written} at both edges leaves nothing of a roll ${typed('stock', 'rolls', i, 'width')} wide; twice the selvedge must be below the width.`,
        hint: 'Check the units of both.',
      })
    }
    checkDefects(i, checking)
    const first = roll?.id === undefined ? undefined : seen.get(roll.id)
    if (first !== undefined) {
      report({
        code: 'stock/repeated-roll',
        path: `${path}.id`,
        value: roll!.id,
        message: `The roll '${roll!.id}' is listed already as roll ${first + 1}; each must have a name of its own.`,
        hint: 'Rename one of the two.',
      })
    } else if (roll?.id !== undefined) seen.set(roll.id, i)
  })
}

/** Flaws must enclose an area, not cross themselves and lie on the roll. */
function checkDefects(i: number, { design, report, typed }: Checking): void {
  const roll = design.stock?.rolls?.[i]
  listOf(roll?.defects)?.forEach((defect, d) => {
    const corners = allKnown(listOf(defect))?.filter((corner): corner is Point => !corner.includes(undefined))
    if (corners === undefined || corners.length < (defect?.length ?? 0)) return
    const path = `stock.rolls[${i}].defects[${d}]`
    const value = typed('stock', 'rolls', i, 'defects', d)
    const { length, width } = roll ?? {}
    if (selfCrossing(corners) !== null || !(Math.abs(area(corners)) > leastFlaw)) {
      report({
        code: 'stock/defect-outline',
        path,
        value,
        message: `Flaw ${d + 1} of this roll encloses no area, or its outline crosses itself; nothing can be kept off it.`,
        hint: 'Give two opposite corners of a rectangle along the roll, or the corners of an outline in turn.',
      })
    } else if (
      corners.every(([x]) => x >= (length ?? Infinity)) ||
      corners.every(([, y]) => y >= (width ?? Infinity))
    ) {
      report({
        code: 'stock/defect-off-roll',
        path,
        value,
        message: `Flaw ${d + 1} of this roll lies wholly beyond it: the roll is ${typed('stock', 'rolls', i, 'width')} wide with ${typed('stock', 'rolls', i, 'length')} left.`,
        hint: 'Corners are stated along the roll from the cut end, then across from the left selvedge.',
      })
    }
  })
}

function checkLetters({ design, report }: Checking): void {
  const letters = (design.cans ?? []).map((can) => can?.letter)
  letters.forEach((letter, i) => {
    if (letter === undefined || letters.indexOf(letter) === i) return
    report({
      code: 'cans/repeated-letter',
      path: `cans[${i}].letter`,
      value: letter,
      message: `The letter '${letter}' is taken by another can; each can must have its own, A to Z.`,
      hint: `Use a letter that is free, such as '${freeLetter(letters)}'.`,
    })
  })
}

const freeLetter = (taken: readonly (string | undefined)[]): string =>
  [...'ABCDEFGHIJKLMNOPQRSTUVWXYZ'].find((letter) => !taken.includes(letter)) ?? 'Z'

function checkMasses({ design, report, typed }: Checking): void {
  const flight = design.flight
  if (flight?.kind !== 'thrust') return
  const { liftOffMass, propellantMass } = flight
  if (liftOffMass === undefined || propellantMass === undefined || propellantMass < liftOffMass) return
  report({
    code: 'flight/propellant-too-heavy',
    path: 'flight.propellantMass',
    value: typed('flight', 'propellantMass'),
    message: `The propellant mass is ${typed('flight', 'propellantMass')}; it must stay below the lift-off mass of ${typed('flight', 'liftOffMass')}, which includes it.`,
    hint: 'Check the units; the lift-off mass is that of the whole rocket, ready to fly.',
  })
}

function checkImpulse({ design, report, typed }: Checking): void {
  const flight = design.flight
  if (flight?.kind !== 'thrust' || flight.thrust === undefined || flight.thrust.length === 0) return
  if (flight.thrust.some((thrust) => thrust === undefined || thrust > 0)) return
  const issue: Issue = {
    code: 'flight/no-impulse',
    path: 'flight.thrust',
    value: typed('flight', 'thrust'),
    message: 'The thrust is zero in every row; the curve must have an impulse.',
    hint: 'Check that the thrust column holds the thrust.',
  }
  report(issue)
}
