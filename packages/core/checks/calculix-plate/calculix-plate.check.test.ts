/** Modes and tip load of a plate and of a fin against an independent finite-element solver, as solids. Hz, mm, N m. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import type { CanDesign } from '../../src/assess/design.ts'
import { finPlate } from '../../src/assess/fin-plate.ts'
import { curedPlies } from '../../src/assess/skins.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import { distance, type Point } from '../../src/geometry/point.ts'
import { assemblePlate, type PlateModel } from '../../src/plate/assemble.ts'
import { recommendedMeshSize } from '../../src/plate/mesh-size.ts'
import { plateModes } from '../../src/plate/modes.ts'
import { plateSolver } from '../../src/plate/static.ts'
import { expectPublished } from '../evidence.ts'
import { type Sheet, sheetSection } from '../plate-cases.ts'

interface Solid {
  readonly frequencies: readonly number[]
  readonly deflection: number
  readonly rootMoment: number
  readonly rootMomentCentre: number
  readonly elements: number
}

interface Fixture {
  readonly solver: string
  /** N at mid-tip. */
  readonly load: number
  readonly fine: Solid
  readonly coarse: Solid
}

interface Metal extends Fixture {
  readonly outline: readonly Point[]
  readonly sheet: { readonly E: number; readonly nu: number; readonly rho: number; readonly t: number }
}

interface Demo extends Fixture {
  /** All that the plate is made of: finPlate and curedPlies read nothing else. */
  readonly design: CanDesign
}

const fixture = (name: string): unknown => JSON.parse(readFileSync(new URL(name, import.meta.url), 'utf8'))
const metal = fixture('aluminium.json') as Metal
const demo = fixture('demo-fin.json') as Demo
const cases = [
  { name: 'aluminium plate', fin: metal, model: () => metalPlate(metal.sheet) },
  { name: 'demo fin', fin: demo, model: () => demoPlate(demo.design) },
]

const allowed = { frequency: 0.01, load: 0.02 } as const
const why = 'a plate theory against a three-dimensional solid'

/** Clamped along the root, the last segment: the outline runs over the tip. */
function metalPlate(sheet: Sheet): PlateModel {
  const outline = metal.outline.toReversed()
  const section = sheetSection(sheet)
  return assemblePlate({
    mesh: meshOutline({ outline, size: recommendedMeshSize(outline) }),
    supports: outline.map((p, i) => (p[1] === 0 && outline[(i + 1) % outline.length][1] === 0 ? 'clamped' : 'free')),
    sectionAt: () => section,
  })
}

const demoPlate = (design: CanDesign): PlateModel => finPlate(design, curedPlies(design)).model

/** What the solid's results are called, of our plate. */
function results(model: PlateModel, load: number): Omit<Solid, 'elements'> {
  const [, lead, trail] = metal.outline
  const at: Point = [(lead[0] + trail[0]) / 2, lead[1]]
  const solved = plateSolver(model)({ forces: [{ at, force: load }] })
  if (solved.kind !== 'solved') throw new Error('the root is clamped')
  const { X } = model.layout.nodes
  const place = (i: number): Point => [X[2 * i], X[2 * i + 1]]
  const tip = solved.field.w.findIndex((_, i) => distance(place(i), at) < 1e-9)
  const own = solved.nodal.map(({ node, momentX }) => ({ x: X[2 * node], momentX }))
  const moment = own.reduce((sum, { momentX }) => sum + momentX, 0)
  return {
    frequencies: plateModes(model, 4).omega.map((omega) => omega / (2 * Math.PI)),
    deflection: solved.field.w[tip] * 1e3,
    rootMoment: Math.abs(moment),
    rootMomentCentre: (own.reduce((sum, { x, momentX }) => sum + x * momentX, 0) / moment) * 1e3,
  }
}

/** Computed beside printed, with the error allowed. */
function rows(ours: Omit<Solid, 'elements'>, solid: Solid): readonly (readonly [string, number, number, number])[] {
  return [
    ...solid.frequencies.map((f, i) => [`mode ${i + 1}, Hz`, ours.frequencies[i], f, allowed.frequency] as const),
    ['deflection at mid-tip under 100 N, mm', ours.deflection, solid.deflection, allowed.load],
    ['root moment under 100 N at mid-tip, N m', ours.rootMoment, solid.rootMoment, allowed.load],
    [
      'where the root moment acts, from the leading edge, mm',
      ours.rootMomentCentre,
      solid.rootMomentCentre,
      allowed.load,
    ],
  ]
}

test.each(cases)('$name: modes, deflection and root moment', ({ name, fin, model }) => {
  const found = rows(results(model(), fin.load), fin.fine)
  expect(found).toHaveLength(7)
  for (const [what, computed, printed, methodError] of found) {
    const quantity = `${name}, ${what} (${fin.solver})`
    expectPublished({ source: 'calculix-plate', quantity, printed: String(printed), computed, methodError, why })
  }
})

test('has teeth: two per cent on the thickness of the metal is noticed', () => {
  const { t, ...sheet } = metal.sheet
  const thicker = rows(results(metalPlate({ ...sheet, t: 1.02 * t }), metal.load), metal.fine)
  const out = thicker.filter(([, computed, printed, error]) => Math.abs(computed / printed - 1) > error)
  expect(out.map(([what]) => what)).toEqual(
    expect.arrayContaining(['mode 1, Hz', 'deflection at mid-tip under 100 N, mm']),
  )
})

test('has teeth: three per cent on the core of the demo fin are noticed', () => {
  const { fins } = demo.design
  const core = { ...fins.core, thickness: 1.03 * fins.core.thickness }
  const thicker = rows(results(demoPlate({ ...demo.design, fins: { ...fins, core } }), demo.load), demo.fine)
  const out = thicker.filter(([, computed, printed, error]) => Math.abs(computed / printed - 1) > error)
  expect(out.map(([what]) => what)).toEqual(
    expect.arrayContaining(['mode 1, Hz', 'mode 2, Hz', 'deflection at mid-tip under 100 N, mm']),
  )
})
