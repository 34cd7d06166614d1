/** The start: whatever is sensibly answered makes a plan that reads without a fault. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { completed, faultsOf, makePlan } from '../src/features/first-run/make-plan.ts'
import { type Answers, type AskedQuantity, examples, questions } from '../src/features/first-run/questions.data.ts'
import { read, sensible } from './sensible-answers.ts'

describe('the start', () => {
  test('the examples make plans in both systems of units', () => {
    for (const units of ['metric', 'us'] as const) {
      const { document, chosen } = read(examples[units], units)
      expect(document.complete.units).toBe(units)
      expect(document.design.kind).toBe('can')
      expect(chosen.every(({ why }) => why.length > 10)).toBe(true)
    }
  })

  test('any sensible answers make a plan without a fault', () => {
    let ran = 0
    fc.assert(
      fc.property(sensible, (answers) => {
        ran++
        expect(read(answers).document.design.kind).toBe('can')
      }),
      { numRuns: 300, seed: 5 },
    )
    expect(ran).toBe(300)
  })

  test('the faster the flight, the more cloth; the more cloth, the more plies of it', () => {
    const plies = (topMach: string, cloth: string) => read({ ...examples.metric, topMach, cloth }).document.typed
    const count = (plan: object): number => (plan as { plies: unknown[] }).plies.length
    const slow = count(plies('0.7', 'glass-plain-200'))
    expect(count(plies('1.8', 'glass-plain-200'))).toBeGreaterThan(slow)
    expect(count(plies('0.7', 'glass-plain-100'))).toBeGreaterThan(slow)
  })

  test('the air thins on the way up: denser states are never further up', () => {
    const { document } = read({ ...examples.metric, topAltitude: '3000 m' })
    const { flight } = document.design as unknown as { flight: { states: { density: number }[] } }
    const densities = flight.states.map(({ density }) => density)
    expect(densities.length).toBe(8)
    expect(densities.every((rho, i) => i === 0 || rho < densities[i - 1]!)).toBe(true)
    // U.S. Standard Atmosphere, 1976, table I: 0.9093 kg/m³ at 3000 m.
    expect(densities.at(-1)).toBeCloseTo(0.9093, 3)
  })

  test('bad answers are told at their field', () => {
    const wall = questions.flatMap(({ fields }) => fields).find(({ key }) => key === 'wall') as AskedQuantity
    const faults = faultsOf(wall, { ...examples.metric, wall: '2 s' } as Answers, 'metric')
    expect(faults.map(({ path }) => path)).toEqual(['wall'])
    expect(faults[0]!.message).toContain('2 s')
    expect(faults[0]!.message).toContain('Allowed')
    expect(makePlan({ ...examples.metric, wall: 'thick' } as Answers, 'metric', 'x').ok).toBe(false)
  })

  test('a number alone takes the unit in sight', () => {
    const wall = questions.flatMap(({ fields }) => fields).find(({ key }) => key === 'wall') as AskedQuantity
    expect(completed(wall, { ...examples.us, wall: '1/16' } as Answers, 'us')).toBe('1/16 in')
    expect(completed(wall, { ...examples.us, wall: '2 mm' } as Answers, 'us')).toBe('2 mm')
  })
})
