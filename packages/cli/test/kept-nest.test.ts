/** A nest in the plan is the nest of the answer, for as long as it holds. */
import { expect, test } from 'vitest'
import { assessed, example, type RawPlan } from './plans.ts'

const found = assessed(example('small-us'))
const layout = found.nest.rolls.flatMap(({ roll, placements }) =>
  placements.map(({ piece, x_m, y_m, rotation_deg }) => ({
    ...{ piece, roll, x: `${(x_m * 1e3).toFixed(3)} mm`, y: `${(y_m * 1e3).toFixed(3)} mm` },
    turn: `${rotation_deg.toFixed(6)} deg`,
  })),
)
const withLayout = (change: (plan: RawPlan) => void = () => undefined) =>
  assessed(
    example('small-us', (plan) => {
      plan.stock.layout = structuredClone(layout)
      change(plan)
    }),
  )

test('kept: every piece where the plan has it, film at its own turn, and what is left of the rolls', () => {
  const { nest, warnings } = withLayout()
  expect([found.nest.kept, nest.kept]).toEqual([false, true])
  expect(warnings.filter(({ code }) => code.startsWith('nest/'))).toEqual([])
  expect(nest.left.map(({ roll, length_m }) => [roll, length_m.toFixed(4)])).toEqual(
    found.nest.left.map(({ roll, length_m }) => [roll, length_m.toFixed(4)]),
  )
})

test('a longer piece breaks it: nested anew, and said', () => {
  const { nest, warnings } = withLayout((plan) => {
    plan.layup.overhang.edges = '3/4 in'
  })
  expect(nest.kept).toBe(false)
  const [broken] = warnings.filter(({ code }) => code === 'nest/layout-broken')
  expect(broken?.path).toBe('stock.layout')
  expect(broken?.message).toMatch(/no longer holds: .*(apart|overlap|selvedges|used length)/)
})

test('a roll that was taken off the shelf breaks it', () => {
  const { warnings } = withLayout((plan) => {
    plan.stock.rolls = plan.stock.rolls.filter(({ id }: { id: string }) => id !== 'glass')
  })
  expect(warnings.find(({ code }) => code === 'nest/layout-broken')?.message).toContain("no roll 'glass'")
})
