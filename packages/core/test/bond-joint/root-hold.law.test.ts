/** Laws of the springs that joint and tube are for the plate: reciprocity, the cut, the wall as a beam, order, limits. */
import { expect, test } from 'vitest'
import { filletThickness } from '../../src/bond/fillet-layer.ts'
import { stripFlexibility, stripSection } from '../../src/bond/joint/fin-strip.ts'
import { isotropicLayer } from '../../src/bond/joint/layer-moduli.ts'
import {
  type Backing,
  type RootGrip,
  type RootHold,
  type RootHoldInput,
  rootHold,
} from '../../src/bond/joint/root-hold.ts'
import { teeGives } from '../../src/bond/joint/tee-give.ts'
import { cutHeight } from '../../src/bond/joint/tee-loads.ts'
import { solveTee } from '../../src/bond/joint/tee-solve.ts'
import { baySection } from '../../src/bond/section.ts'
import { demoRoot, GPa } from './demo-root.ts'

const near = (a: number, b: number, relative: number) => expect(Math.abs(a / b - 1)).toBeLessThan(relative)

const root = (backing: Backing, r = 0.015, wall = 2e-3): RootHoldInput => {
  const { section, skin, core, adhesive, tube } = demoRoot(r)
  return { section, skin, core, adhesive, tube: { wall, moduli: tube.moduli }, backing }
}
const held = (input: RootHoldInput): RootHold => {
  const found = rootHold(input)
  if (!found.ok) throw new Error(found.issues[0].message)
  return found.value
}
const backings = ['none', 'coupler', 'motor case', 'rings'] as const
const cases = (hold: RootHold): RootGrip[] => [hold.soft, hold.likely, hold.stiff]

test('reciprocity: the turn under a shear force is the deflection under a moment', () => {
  const { section, skin, core, adhesive, tube } = demoRoot()
  const shape = { section, skin: skin.t, bondLine: adhesive.bondLine, wall: tube.wall, above: 12e-3 }
  const layers = { core, skin: skin.moduli, wall: tube.moduli, adhesive: isotropicLayer(adhesive) }
  for (const bayCentre of ['held', 'hinged', 'even'] as const) {
    const { shear, moment } = solveTee({ shape, layers, inside: 'free', bayCentre })
    near(shear.work.M, moment.work.V, 1e-6)
  }
})

test('what the joint gives does not depend on where the fin is cut', () => {
  const { section, skin, core, adhesive, tube } = demoRoot()
  const layers = { core, skin: skin.moduli, wall: tube.moduli, adhesive: isotropicLayer(adhesive) }
  const give = (above: number) => {
    const shape = { section, skin: skin.t, bondLine: adhesive.bondLine, wall: tube.wall, above }
    const { shear, moment } = solveTee({ shape, layers, inside: 'free', bayCentre: 'hinged', refine: 2 })
    const strip = stripFlexibility({ section, skin, core, adhesive }, cutHeight(shape), true)
    return { VV: shear.work.V - strip.VV, VM: moment.work.V - strip.VM, MM: moment.work.M - strip.MM }
  }
  const [near12, far] = [give(12e-3), give(30e-3)]
  near(far.MM, near12.MM, 5e-3)
  near(far.VM, near12.VM, 1e-2)
  near(far.VV, near12.VV, 3e-2) // what is left of a cantilever of 43 mm after nearly all is taken off
})

test('the strip is the three-layer beam of lamination theory', () => {
  const { section, skin, core, adhesive } = demoRoot()
  const one = { E1: 10 * GPa, E2: 10 * GPa, E3: 10 * GPa, nu12: 0, nu13: 0, nu23: 0, G13: 5 * GPa }
  const { EI, S } = stripSection(
    { section, skin: { t: 1e-3, moduli: one }, core: one, adhesive: { E: 10 * GPa, G: 5 * GPa } },
    2e-3,
  )
  const t = 2 * (section.h + 3e-3)
  near(EI, (10 * GPa * t ** 3) / 12, 1e-12)
  near(S, (5 / 6) * 5 * GPa * t, 1e-12)
  // without fillets: closed form of a cantilever
  const strip = { section, skin, core, adhesive }
  const plain = stripSection(strip, 0)
  const F = stripFlexibility(strip, 0.05, false)
  near(F.VV, 0.05 ** 3 / (3 * plain.EI) + 0.05 / plain.S, 1e-12)
  near(F.MM, 0.05 / plain.EI, 1e-12)
})

test('the fillet is as thick as its circle says', () => {
  const { section } = demoRoot()
  const { R, xc, h, r } = section
  for (const y of [0, 0.003, 0.008]) {
    const e = filletThickness(section, y)
    expect(Math.hypot(R + y - xc, h + e - (h + r))).toBeCloseTo(r, 12)
  }
  expect(filletThickness(section, xc - R + 1e-6)).toBe(0)
})

test('a thin wall between many fins turns as a beam does: far end held, hinged, even', () => {
  const made = baySection({ tubeRadius: 0.1, coreThickness: 1e-3, finCount: 12, span: 0.1, filletRadius: 1.5e-3 })
  if (!made.ok) throw new Error('the section exists')
  const section = made.value
  const [E, t] = [2 * GPa, 0.4e-3]
  const gives = teeGives(
    {
      section,
      skin: { t: 0.02e-3, moduli: isotropicLayer({ E: 1e-3 * GPa, G: 0.4e-3 * GPa }) },
      core: isotropicLayer({ E: 100 * GPa, G: 40 * GPa }),
      tube: { wall: t, moduli: isotropicLayer({ E, G: 0.4 * E }) },
      adhesive: { E: 10 * GPa, G: 4 * GPa, bondLine: 0.1e-3 },
    },
    [
      { inside: 'free', bayCentre: 'held' },
      { inside: 'free', bayCentre: 'hinged' },
      { inside: 'free', bayCentre: 'even' },
    ],
  )
  const [fixed, hinged, even] = gives.at.map(({ whole }) => whole.MM)
  // half the bay, a long, its first share f rigid: bending moment (1 − c y) / 2 at share y, no force along the tube, since the
  // fin is free to follow; c = 0 even, 1 hinged, and held ∫ y / ∫ y² (no deflection of the fin on the tube's radius)
  const f = section.theta / (Math.PI / 12)
  const [one, y, yy] = [1 - f, (1 - f ** 2) / 2, (1 - f ** 3) / 3]
  const turn = { even: one, hinged: one - 2 * y + yy, held: one - y ** 2 / yy }
  const D = ((E / (1 - 0.25 ** 2)) * t ** 3) / 12
  const a = (0.1 * Math.PI) / 12
  near((even - hinged) / (a / (2 * D)), turn.even - turn.hinged, 0.01)
  near((hinged - fixed) / (a / (2 * D)), turn.hinged - turn.held, 0.01)
})

test.each(backings)('%s: soft gives most, stiff least; every spring is positive definite', (backing) => {
  for (const r of [0.006, 0.015, 0.025]) {
    const [soft, likely, stiff] = cases(held(root(backing, r)))
    expect(soft.flexibility.MM).toBeGreaterThan(likely.flexibility.MM)
    expect(likely.flexibility.MM).toBeGreaterThan(stiff.flexibility.MM)
    for (const { spring, flexibility: F } of [soft, likely, stiff]) {
      expect(spring.rotation).toBeGreaterThan(0)
      expect(spring.deflection * spring.rotation - spring.coupling ** 2).toBeGreaterThan(0)
      // (w, θ) = F (1, 0): the springs take V = 1 and no moment
      near(spring.deflection * F.VV + spring.coupling * F.VM, 1, 1e-9)
      expect(Math.abs(spring.coupling * F.VV + spring.rotation * F.VM) / (spring.rotation * F.VV)).toBeLessThan(1e-6)
    }
  }
})

test.each(backings)('%s: a thicker wall turns less, in every case', (backing) => {
  const turns = [1e-3, 1.5e-3, 2e-3, 3e-3, 4e-3].map((wall) =>
    cases(held(root(backing, 0.015, wall))).map((c) => c.flexibility.MM),
  )
  for (let k = 1; k < turns.length; k++)
    for (const c of [0, 1, 2]) {
      // on a case that holds it all round, the wall is only a layer between fin and case: thicker is a little softer
      if (backing === 'motor case' && c === 2) expect(turns[k][c] / turns[k - 1][c]).toBeLessThan(1.1)
      else expect(turns[k][c]).toBeLessThan(turns[k - 1][c])
    }
})

test('more behind the wall turns less: none, coupler, motor case', () => {
  const [none, coupler, motorCase] = (['none', 'coupler', 'motor case'] as const).map(
    (b) => held(root(b)).likely.flexibility.MM,
  )
  expect(coupler).toBeLessThan(none)
  expect(motorCase).toBeLessThan(coupler)
  expect(held(root('rings')).likely.flexibility).toEqual(held(root('none')).likely.flexibility)
})

test('a larger fillet turns less against the bare fin', () => {
  const turns = [0.006, 0.01, 0.015, 0.022].map((r) => held(root('none', r)).likely.beyondBare.MM)
  for (let k = 1; k < turns.length; k++) expect(turns[k]).toBeLessThan(turns[k - 1])
})

test('parts sum to one, the wall leads behind a thin wall, and the words name it', () => {
  const { parts, words } = held(root('none', 0.008, 1e-3))
  near(parts.wall + parts.adhesive + parts.skins + parts.foot, 1, 1e-12)
  expect(parts.wall).toBeGreaterThan(0.5)
  expect(words).toContain('tube wall')
})

test('the same input is answered from memory, another is not', () => {
  const first = held(root('none'))
  expect(held(root('none'))).toBe(first)
  expect(held(root('none', 0.015, 2.1e-3))).not.toBe(first)
})

test('what the joint cannot be computed for is said', () => {
  const bad = rootHold({ ...root('none'), tube: { ...root('none').tube, wall: -1 } })
  expect(bad.ok).toBe(false)
  if (!bad.ok) expect(bad.issues[0].code).toBe('bond/wall-range')
})
