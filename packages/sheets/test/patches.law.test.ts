/** Patches in the fin's laminate: two that make a whole ply are that ply; one alone couples, weighs half, and its side is told. */
import { assess } from '@finwright/core/assess/assess.ts'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign, PlyDesign } from '@finwright/core/assess/design.ts'
import { expect, test } from 'vitest'
import { readExample } from './fixture/example.ts'

const design = readExample('small-us')
const [first, ...rest] = design.plies
const assessed = (plies: readonly PlyDesign[]): Assessment => {
  const made = assess({ ...design, plies } as CanDesign)
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value
}
const patch = (id: string, cover: PlyDesign['cover']): PlyDesign => ({ ...first, id, cover })

const whole = assessed(design.plies)
const twoPatches = assessed([patch('P1', 'next'), patch('P9', 'previous'), ...rest])
const nextAlone = assessed([patch('P1', 'next'), ...rest])
const previousAlone = assessed([patch('P1', 'previous'), ...rest])
const without = assessed(rest)
const frequencies = ({ structure }: Assessment): number[] => structure.modes.map(({ frequency_Hz }) => frequency_Hz)

const mass = ({ fin }: Assessment): number => fin.mass_kg!

test('a patch on each side is the whole ply: mass, modes, strength, flutter', () => {
  expect(mass(twoPatches)).toBeCloseTo(mass(whole), 12)
  expect(twoPatches.fin.thickness_m.root!).toBeCloseTo(whole.fin.thickness_m.root!, 12)
  frequencies(twoPatches).forEach((one, i) => {
    expect(Math.abs(one / frequencies(whole)[i] - 1)).toBeLessThan(1e-7)
  })
  expect(twoPatches.strength.failureIndex! / whole.strength.failureIndex!).toBeCloseTo(1, 6)
  // Heat is felt by the thinner face: counting both patches on one would have made it 1.2e-4 better. The same plan twice: 2e-6.
  expect(Math.abs(twoPatches.flutter.margin.speedRatio! / whole.flutter.margin.speedRatio! - 1)).toBeLessThan(1e-5)
})

test('one alone weighs half of it, stiffens less, and couples bending with stretching the other way on the other face', () => {
  for (const one of [nextAlone, previousAlone]) {
    expect(mass(one)).toBeCloseTo((mass(whole) + mass(without)) / 2, 12)
    expect(frequencies(one)[0]).not.toBeCloseTo(frequencies(without)[0], 2)
  }
  const coupling = ({ fin }: Assessment): number => fin.laminates[0].couplingStiffness_N[0][0]
  expect(Math.abs(coupling(whole))).toBeLessThan(1e-6 * Math.abs(coupling(nextAlone)))
  expect(coupling(nextAlone)).toBeCloseTo(-coupling(previousAlone), 4)
  // +z is the previous face: the next fin's patch lies there.
  expect(coupling(nextAlone)).toBeGreaterThan(0)
  // Turned over, the fin is the other: the same modes.
  frequencies(nextAlone).forEach((one, i) => {
    expect(Math.abs(one / frequencies(previousAlone)[i] - 1)).toBeLessThan(1e-6)
  })
  const told = ({ warnings }: Assessment) => warnings.filter(({ code }) => code === 'pattern/patch-one-face')
  expect(told(nextAlone)[0].message).toContain('previous face only')
  expect(told(whole)).toEqual([])
})
