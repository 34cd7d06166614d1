import { expect, test } from 'vitest'
import { adhesiveAllowable, proposedKnockDown } from '../../src/bond/joint/allowable.ts'
import { type RootJoint, type RootJointInput, rootJoint } from '../../src/bond/joint/root-joint.ts'
import { sufficientFilletRadius } from '../../src/bond/joint/sufficient-radius.ts'
import { demoRoot, fillet, GPa } from './demo-root.ts'

function solved(input: RootJointInput): RootJoint {
  const result = rootJoint(input)
  if (!result.ok) throw new Error(result.issues.map(({ message }) => message).join(' '))
  return result.value
}

const codes = (change: Partial<RootJointInput>): string[] => {
  const result = rootJoint({ ...demoRoot(), ...change })
  return result.ok ? [] : result.issues.map(({ code }) => code)
}

test('the worst station and mode, and the margin they leave', () => {
  const { worst, margin, stations, byMode, detail } = solved(demoRoot())
  expect(stations).toHaveLength(3)
  expect(worst?.x).toBe(0.3)
  expect(worst?.mode).toBe('base bond')
  const { shear, peel } = detail!.baseBond
  const principal = Math.abs(peel) / 2 + Math.hypot(peel / 2, shear)
  expect(worst!.stress['base bond']).toBeCloseTo(principal, 3)
  expect(margin).toBeCloseTo(3e6 / principal - 1, 9)
  expect(byMode['base bond']).toBeCloseTo(margin!, 9)
  expect(Math.min(...Object.values(byMode).map((value) => value!))).toBeCloseTo(margin!, 9)
})

test('another allowable, another mode', () => {
  const { worst, margin } = solved({ ...demoRoot(), allowable: { adhesive: 30e6, opening: 1e6 } })
  expect(worst?.mode).toBe('skin opening')
  expect(margin).toBeCloseTo(1e6 / worst!.stress['skin opening'] - 1, 9)
})

test('the moment runs through the skins, the shear through base bond and fillets', () => {
  const { shares } = solved(demoRoot())
  expect(shares.moment.skins).toBeGreaterThan(0.9)
  expect(shares.shear.baseBond + shares.shear.fillets).toBeGreaterThan(0.9)
})

test('no load, no margin', () => {
  const none = solved({ ...demoRoot(), line: { x: [0, 1], V: [0, 0], M: [0, 0] } })
  expect(none.margin).toBeNull()
  expect(none.worst).toBeNull()
  expect(none.byMode.fillet).toBeNull()
  const radius = sufficientFilletRadius({ ...demoRoot(), line: { x: [], V: [], M: [] } })
  expect(radius.ok && radius.value.kind).toBe('unloaded')
})

test.each([0.004, 0.015, 0.03])('the radius that is enough is enough and hardly more, from %d m', (r) => {
  const input = demoRoot(r)
  const found = sufficientFilletRadius(input, 0.25)
  expect(found.ok && found.value.kind).toBe('found')
  if (!found.ok || found.value.kind !== 'found') return
  const { radius, margin, evaluations } = found.value
  expect(margin).toBeGreaterThanOrEqual(0.25)
  expect(solved({ ...input, section: fillet(radius) }).margin).toBeCloseTo(margin, 9)
  expect(solved({ ...input, section: fillet(0.97 * radius) }).margin).toBeLessThan(0.25)
  expect(evaluations).toBeLessThanOrEqual(12)
})

test('a lightly loaded joint is content with the least radius that can be laid', () => {
  const input = { ...demoRoot(), line: { x: [0], V: [10], M: [0.5] } }
  const found = sufficientFilletRadius(input)
  expect(found.ok && found.value).toMatchObject({ kind: 'found', radius: 1.1 * input.skin.t })
})

test('an overloaded joint is told that no fillet is enough, and which comes nearest', () => {
  const found = sufficientFilletRadius({ ...demoRoot(), line: { x: [0], V: [50e3], M: [2500] } })
  expect(found.ok && found.value.kind).toBe('none-fits')
  if (!found.ok || found.value.kind !== 'none-fits') return
  expect(found.value.margin).toBeLessThan(0)
  expect(solved({ ...demoRoot(), line: { x: [0], V: [50e3], M: [2500] } }).margin).toBeLessThan(found.value.margin)
})

test('a fillet too tight for the skins still learns what radius is enough', () => {
  const tight = { ...demoRoot(0.0012), allowable: { adhesive: 3e6, opening: 5e6 } }
  expect(rootJoint(tight).ok).toBe(false)
  const found = sufficientFilletRadius(tight)
  expect(found.ok && found.value.kind).toBe('found')
})

test('every bad number is named at once', () => {
  const demo = demoRoot()
  expect(codes({ section: fillet(0.0012) })).toEqual(['bond/fillet-tight'])
  expect(codes({ skin: { ...demo.skin, t: 0 } })).toEqual(['bond/no-skin'])
  expect(codes({ adhesive: { E: 3 * GPa, G: 0.9 * GPa, bondLine: 0 } })).toEqual([
    'bond/bond-line-range',
    'bond/adhesive-moduli',
  ])
  expect(codes({ adhesive: { ...demo.adhesive, bondLine: Number.NaN } })).toEqual(['bond/bond-line-range'])
  expect(codes({ tube: { ...demo.tube, wall: 0.06 } })).toEqual(['bond/wall-range'])
  expect(codes({ core: { ...demo.core, G13: -1 } })).toEqual(['bond/layer-moduli'])
  const result = rootJoint({ ...demo, adhesive: { E: 3 * GPa, G: 0.9 * GPa, bondLine: 0.3e-3 } })
  expect(result.ok ? '' : result.issues[0]!.message).toBe(
    "The adhesive's E is 3.00 GPa and its G 0.900 GPa; both must be positive and G greater than E/3.",
  )
})

test('a lap shear figure is divided before it is used, by what the plan says or by our proposal', () => {
  expect(adhesiveAllowable(14e6)).toBeCloseTo(14e6 / 4.5, 6)
  expect(adhesiveAllowable(14e6, { ...proposedKnockDown, properties: 1.25 })).toBeCloseTo(14e6 / 3.75, 6)
})

test('no station is lost, whatever their order', () => {
  const demo = demoRoot()
  const shuffled = solved({ ...demo, line: { x: [0.3, 0, 0.15], V: [2400, 900, 1200], M: [120, 40, 60] } })
  expect(shuffled.margin).toBe(solved(demo).margin)
  expect(shuffled.stations.map(({ x }) => x)).toEqual([0.3, 0, 0.15])
})
