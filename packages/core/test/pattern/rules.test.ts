import { describe, expect, test } from 'vitest'
import type { Issue } from '../../src/issue.ts'
import { patterns } from '../../src/pattern/patterns.ts'
import type { PatternInput, ScheduledPly } from '../../src/pattern/schedule.ts'
import { demo, filleted, ply, stepped, steps, tipStepsOnly } from './demo.ts'

function rulesOf(
  plies: readonly ScheduledPly[],
  change: (input: PatternInput) => PatternInput = (same) => same,
): readonly Issue[] {
  const input = change({ ...demo, plies, layup: { ...demo.layup, overrun: { forward: 0.03, aft: 0.03 } } })
  const made = patterns(input)
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value.rules
}

const codes = (rules: readonly Issue[]): readonly string[] => [...new Set(rules.map(({ code }) => code))]
const replaced = (k: number, change: Partial<ScheduledPly>): readonly ScheduledPly[] =>
  stepped.map((one, i) => (i === k ? { ...one, ...change } : one))

test('a schedule stepped back on every edge keeps every rule', () => {
  expect(rulesOf(stepped)).toEqual([])
})

describe('tip steps only', () => {
  const rules = rulesOf(tipStepsOnly)

  test('every ply but the last is exposed at its chordwise edges, and P4 at the tip as well', () => {
    const exposed = rules.filter(({ code }) => code === 'pattern/edge-exposed')
    expect(exposed.map(({ path }) => path)).toEqual([0, 1, 2, 3].map((i) => `plies[${i}].stepBack.leading`))
    expect(exposed[0]!.message).toContain('leading edge')
    expect(exposed[0]!.message).toContain('trailing edge')
    expect(exposed[0]!.message).not.toContain('the tip')
    expect(exposed[3]!.message).toContain('the tip')
  })

  test('edges stacked are named with the distance they need', () => {
    const stacked = rules.filter(({ code }) => code === 'pattern/edges-stacked')
    expect(stacked.map(({ path }) => path.split('.').at(-1))).toEqual([
      'leading',
      'trailing',
      'tip',
      'bodyForward',
      'bodyAft',
    ])
    expect(stacked[0]!.message).toContain('P1, P2, P3, P4 and P5')
    expect(stacked[0]!.message).toContain('12.7 mm')
    expect(stacked[2]!.message).toContain('P4 and P5')
  })
})

describe('one rule broken at a time', () => {
  test('a step too steep', () => {
    const rules = rulesOf(replaced(3, { stepBack: { ...stepped[3]!.stepBack, tip: 0.019 } }))
    expect(codes(rules)).toEqual(['pattern/step-steep'])
    expect(rules[0]!.path).toBe('plies[2].stepBack.tip')
    expect(rules[0]!.message).toContain('11.0 mm')
    expect(rules[0]!.hint).toContain('31.7 mm')
    expect(rulesOf(replaced(3, { stepBack: { ...stepped[3]!.stepBack, tip: 0.0173 } }))).toEqual([])
    const lax = rulesOf(replaced(3, { stepBack: { ...stepped[3]!.stepBack, tip: 0.019 } }), (input) => ({
      ...input,
      layup: { ...input.layup, stepPerThickness: 40 },
    }))
    expect(lax).toEqual([])
  })

  test('two edges on one line, found in the middle of the schedule', () => {
    const rules = rulesOf(replaced(2, { stepBack: { ...stepped[2]!.stepBack, trailing: 0.045 } }))
    expect(codes(rules)).toEqual(['pattern/edges-stacked'])
    expect(rules[0]!.message).toContain('P2 and P3')
    expect(rules[0]!.path).toBe('plies[2].stepBack.trailing')
  })

  test('a bias ply outermost, and one that no ply along the axes covers', () => {
    const five = stepped.slice(0, 5)
    expect(codes(rulesOf([...five.slice(0, 4), { ...five[4]!, angle: Math.PI / 4 }]))).toEqual([
      'pattern/bias-uncovered',
      'pattern/bias-outermost',
      'pattern/outside-differs',
    ])
  })

  test('an even number of alternating plies ends on another direction', () => {
    const four = [
      ply('P1', 45, steps(0.045, 0.045, 0.045)),
      ...stepped.slice(2, 5).map((p, i) => ({ ...p, id: `P${i + 2}` })),
    ]
    expect(codes(rulesOf(four))).toEqual(['pattern/outside-differs'])
    expect(rulesOf(four)[0]!.hint).toContain('has 4')
  })

  test('a step that ends in the fillet', () => {
    const low = replaced(0, { stepBack: { ...stepped[0]!.stepBack, tip: 0.1 } })
    expect(codes(rulesOf(low))).toEqual(['pattern/step-in-fillet'])
    expect(rulesOf(replaced(0, { stepBack: { ...stepped[0]!.stepBack, tip: 0.09 } }))).toEqual([])
  })

  test('a step on the line where a bevel begins', () => {
    const at = (leading: number) => replaced(3, { stepBack: { ...stepped[3]!.stepBack, leading } })
    expect(codes(rulesOf(at(0.0135)))).toEqual(['pattern/step-on-bevel'])
    expect(rulesOf(at(0.0141))).toEqual([])
  })

  test('plies misnumbered', () => {
    expect(codes(rulesOf(replaced(1, { id: 'P7' })))).toEqual(['pattern/ply-number'])
    expect(codes(rulesOf(replaced(5, { id: 'V2' })))).toEqual(['pattern/ply-number'])
  })

  test('a veil that stops short of the structure', () => {
    const rules = rulesOf(replaced(5, { stepBack: steps(0.005) }))
    expect(codes(rules)).toEqual(['pattern/outer-ply-short'])
    expect(rules[0]!.message).toContain('5.0 mm')
  })

  test('a fillet that grows too tight for cloth', () => {
    const rules = rulesOf(stepped, (input) => ({ ...input, fins: filleted(input.fins, 0.0065) }))
    expect(codes(rules)).toEqual(['pattern/fillet-tight'])
    expect(rules[0]!.message).toContain('From P3 on')
  })
})
