/** Stresses of the root joint against an independent finite-element model of the same section. mm, MPa; loads N/mm, N. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { LayerModuli } from '../../src/bond/joint/layer-moduli.ts'
import { type RootStress, rootStress } from '../../src/bond/joint/root-stress.ts'
import { baySection } from '../../src/bond/section.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

interface Measures {
  readonly bondShear: number
  readonly bondPeel: number
  readonly fillet: number
  readonly skinPeel: number
  readonly skinOpening: number
  readonly skinForce: number
  readonly shear: { readonly bond: number; readonly fillet: number; readonly skin: number }
  readonly moment: { readonly bond: number; readonly fillet: number; readonly skin: number }
}

interface Fixture {
  readonly solver: string
  readonly section: {
    readonly R: number
    readonly h: number
    readonly N: number
    readonly skin: number
    readonly bond: number
    readonly wall: number
    readonly materials: { readonly [layer in 'core' | 'skin' | 'wall' | 'adhesive']: LayerModuli }
  }
  readonly window: number
  readonly loads: readonly { readonly name: string; readonly V: number; readonly M: number }[]
  readonly results: readonly {
    readonly r: number
    readonly inside: 'free' | 'held'
    readonly flexibility: { readonly perMoment: number; readonly perShear: number }
    readonly measures: readonly Measures[]
  }[]
}

const { section, window, loads, results, solver } = JSON.parse(
  readFileSync(new URL('t-section.json', import.meta.url), 'utf8'),
) as Fixture

/** Worst found: 3.6 % under shear alone, 2.7 % where moment acts; a mesh three times as fine closes them to 0.6 %. */
const allowed = { shear: 0.04, moment: 0.03, both: 0.03 } as const
/** What halving the reference's own mesh moves it by, at most: source.md. */
const referenceError = 0.0075
const why = 'a mesh of 870 nodes that answers within 10 ms; refined, it converges on the reference'

const mm = 1e-3
const pascals = (m: LayerModuli): LayerModuli => ({
  ...m,
  E1: m.E1 * 1e6,
  E2: m.E2 * 1e6,
  E3: m.E3 * 1e6,
  G13: m.G13 * 1e6,
})

function stressOf(r: number, inside: 'free' | 'held', { refine = 1, adhesive = 1 } = {}): RootStress {
  const { R, h, N, skin, bond, wall, materials } = section
  const made = baySection({
    tubeRadius: R * mm,
    coreThickness: 2 * h * mm,
    finCount: N,
    span: 110 * mm,
    filletRadius: r * mm,
  })
  if (!made.ok) throw new Error('the section exists')
  return rootStress({
    section: made.value,
    skin: { t: skin * mm, moduli: pascals(materials.skin) },
    core: pascals(materials.core),
    tube: { wall: wall * mm, moduli: pascals(materials.wall), inside, bayCentre: 'held' }, // as in the stored model
    adhesive: {
      E: materials.adhesive.E1 * 1e6 * adhesive,
      G: materials.adhesive.G13 * 1e6 * adhesive,
      bondLine: bond * mm,
    },
    averagingLength: window * mm,
    refine,
  })
}

/** Computed beside printed, of one load. */
function rows(stress: RootStress, load: Fixture['loads'][number], printed: Measures) {
  const si = { V: load.V * 1e3, M: load.M }
  const at = stress.at(si)
  const bond = stress.baseBond(si)
  const principal = Math.abs(printed.bondPeel) / 2 + Math.hypot(printed.bondPeel / 2, printed.bondShear)
  const measures: (readonly [string, number, number])[] = [
    ['base bond, largest principal, MPa', at['base bond'] / 1e6, Number(principal.toPrecision(6))],
    ['fillet, MPa', at.fillet / 1e6, printed.fillet],
    ['skin peel, MPa', at['skin peel'] / 1e6, printed.skinPeel],
    ['skin opening, MPa', at['skin opening'] / 1e6, printed.skinOpening],
  ]
  if (load.name === 'shear') return measures
  return [
    ...measures,
    ['base bond shear, MPa', bond.shear / 1e6, printed.bondShear] as const,
    ['base bond peel, MPa', bond.peel / 1e6, printed.bondPeel] as const,
    ['skin force, N/mm', stress.skin(si).N / 1e3, printed.skinForce] as const,
  ]
}

test('the fixture holds what it should', () => {
  expect(solver).toMatch(/^CalculiX CrunchiX \d/)
  expect(results.map(({ r, inside }) => `${r} ${inside}`)).toEqual(['8 free', '15 free', '25 free', '15 held'])
  expect(loads.map(({ name }) => name)).toEqual(['shear', 'moment', 'both'])
})

test.each(results)('fillet $r mm, inside $inside', ({ r, inside, measures }) => {
  const stress = stressOf(r, inside)
  loads.forEach((load, k) => {
    for (const [name, computed, printed] of rows(stress, load, measures[k])) {
      const quantity = `${name}: r ${r} mm, inside ${inside}, ${load.name}`
      const methodError = allowed[load.name as keyof typeof allowed]
      expectPublished({ source: 't-section-calculix', quantity, printed: String(printed), computed, methodError, why })
    }
  })
})

test.each(results)('what the root gives: r $r mm, inside $inside', ({ r, inside, flexibility }) => {
  const { perMoment, perShear } = stressOf(r, inside).flexibility
  const at = `r ${r} mm, inside ${inside}`
  const source = 't-section-calculix'
  // a small difference of two turns of about 7e-5 per N, where fillet and tube nearly cancel
  const methodError = 0.005
  expectPublished({
    ...{ source, quantity: `turn of the root per moment, 1/N: ${at}`, methodError },
    printed: String(flexibility.perMoment),
    computed: perMoment,
  })
  const cancelled = Math.abs(flexibility.perShear) < 5e-5
  expectPublished({
    ...{ source, quantity: `turn of the root per shear force, mm/N: ${at}` },
    ...(cancelled ? { methodError: 0.035, why: 'fillet and tube nearly cancel here' } : { methodError }),
    printed: String(flexibility.perShear),
    computed: perShear * 1e3,
  })
})

test('what is left is the mesh: three times as fine, the two models agree', () => {
  for (const { r, inside, measures } of [results[0], results[2]]) {
    const stress = stressOf(r, inside, { refine: 3 })
    const differences = loads.flatMap((load, k) =>
      rows(stress, load, measures[k]).map(([, computed, printed]) => Math.abs(computed / printed - 1)),
    )
    expect(differences).toHaveLength(4 + 7 + 7)
    expect(Math.max(...differences)).toBeLessThan(referenceError)
  }
}, 20_000)

test('the shares of shear and moment: base bond, both fillets, both skins', () => {
  for (const { r, inside, measures } of results) {
    const { shares } = stressOf(r, inside)
    const [unitShear, fifty] = measures
    const near = (computed: number, printed: number) => expect(Math.abs(computed - printed)).toBeLessThan(0.01)
    near(shares.shear.baseBond, unitShear.shear.bond)
    near(shares.shear.fillets, 2 * unitShear.shear.fillet)
    near(shares.shear.skins, 2 * unitShear.shear.skin)
    near(shares.moment.baseBond, fifty.moment.bond / 50)
    near(shares.moment.fillets, (2 * fifty.moment.fillet) / 50)
    near(shares.moment.skins, (2 * fifty.moment.skin) / 50)
  }
})

test.each([
  ['the fillet of 15 mm a tenth larger', () => stressOf(16.5, 'free')],
  ['an adhesive a third stiffer', () => stressOf(15, 'free', { adhesive: 4 / 3 })],
])('has teeth: %s is noticed', (_, nudged) => {
  const { measures } = results[1]
  const noticed = rows(nudged(), loads[1], measures[1]).filter(
    ([, computed, printed]) => !agrees(computed, published(String(printed)), allowed.moment),
  )
  expect(noticed.length).toBeGreaterThanOrEqual(4)
})
