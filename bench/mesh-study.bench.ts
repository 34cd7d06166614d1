/**
 * How frequencies and the tip's deflection depend on the mesh: the study behind the recommended size, what it costs that
 * triangles do not follow the lines along which the section jumps, and what the error estimate says. Prints tables;
 * docs/methods/plate.md quotes them.
 */
import { filletThickness } from '@finwright/core/bond/fillet-layer.ts'
import { stripSection } from '@finwright/core/bond/joint/fin-strip.ts'
import { rootHold } from '@finwright/core/bond/joint/root-hold.ts'
import { baySection } from '@finwright/core/bond/section.ts'
import type { Mesh } from '@finwright/core/geometry/mesh.ts'
import { meshOutline } from '@finwright/core/geometry/outline-mesh.ts'
import type { Point } from '@finwright/core/geometry/point.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { assemblePlate } from '@finwright/core/plate/assemble.ts'
import { fieldReader } from '@finwright/core/plate/field-at.ts'
import { recommendedMeshSize } from '@finwright/core/plate/mesh-size.ts'
import { plateModes } from '@finwright/core/plate/modes.ts'
import { refinementError } from '@finwright/core/plate/refinement.ts'
import type { PlateSection, SectionPoint } from '@finwright/core/plate/section.ts'
import { plateSolver } from '@finwright/core/plate/static.ts'
import type { Support } from '@finwright/core/plate/supports.ts'
import { finSection, outline, supports } from './demo-fin.ts'

interface Run {
  readonly triangles: number
  readonly unknowns: number
  readonly frequencies: readonly number[]
  /** Under the force, m/N, where one is asked for. */
  readonly deflections: readonly number[]
}

interface Case {
  readonly sectionAt: (point: SectionPoint) => PlateSection
  readonly root?: Support
  /** Where a force of 1 N acts. */
  readonly at?: Point
  readonly count?: number
}

const held = (root: Support = 'clamped'): readonly Support[] => [root, ...supports.slice(1)]

function solved(mesh: Mesh, { sectionAt, root, at, count = 6 }: Case) {
  const model = assemblePlate({ mesh, supports: held(root), sectionAt })
  const { omega } = plateModes(model, count)
  const bent = at === undefined ? null : plateSolver(model)({ forces: [{ at, force: 1 }] })
  const w =
    at === undefined || bent?.kind !== 'solved' ? [] : [fieldReader(model)(bent.field, at[0], at[1])?.w ?? Number.NaN]
  return { model, omega, w }
}

function run(mesh: Mesh, given: Case): Run {
  const { model, omega, w } = solved(mesh, given)
  return {
    triangles: mesh.T.length / 3,
    unknowns: model.layout.n,
    frequencies: omega.map((value) => value / (2 * Math.PI)),
    deflections: w,
  }
}

const per = (values: readonly number[], exact: readonly number[]): string =>
  values.map((f, i) => `${(100 * (f / exact[i] - 1)).toFixed(2)}`.padStart(7)).join('')

function table(rows: readonly (readonly [string, Run])[], exact: Run): void {
  for (const [label, { triangles, unknowns, frequencies, deflections }] of rows) {
    const errors = `${per(frequencies, exact.frequencies)}  ${per(deflections, exact.deflections)}`
    console.log(`  ${label.padEnd(24)} ${String(triangles).padStart(5)} ${String(unknowns).padStart(6)} ${errors}`)
  }
}

const side = Math.sqrt(area(outline))
const tip: Point = [0.21, 0.11]

function study(name: string, given: Case, finest: number): void {
  const size = recommendedMeshSize(outline)
  const at = (share: number): Run => run(meshOutline({ outline, size: side / share }), { ...given, at: tip })
  const exact = at(finest)
  console.log(`\n${name}`)
  console.log(
    `  finest mesh, Hz: ${exact.frequencies.map((f) => f.toFixed(1)).join(', ')}; tip ${exact.deflections[0].toExponential(4)} m/N`,
  )
  console.log('  size                  triangles unknowns   error of modes 1 … 6, %                    of the tip')
  table(
    [4, 5, 6, 7, 8, 10, 12, 16, 20].map((share) => [`√area / ${share}`, at(share)]),
    exact,
  )
  const own = solved(meshOutline({ outline, size }), { ...given, at: tip })
  const estimate = refinementError({
    ...{ outline, size, sectionAt: given.sectionAt, model: own.model, omega: own.omega },
    deflection: { at: tip, perForce: own.w[0] },
  })
  const said = [...estimate.omega, estimate.deflection ?? Number.NaN].map((e) => (100 * e).toFixed(2).padStart(7))
  console.log(`  said at √area / 8${' '.repeat(20)}${said.slice(0, 6).join('')}  ${said[6]}`)
}

study('demo fin, symmetric laminate', { sectionAt: finSection(false) }, 40)
study('demo fin, bending and stretching coupled', { sectionAt: finSection(true) }, 24)

/** An even sheet on a tube of 102 mm with a 2 mm wall and fillets of 15 mm, held by joint and bare tube. Invented. */
function filleted(): Case {
  const section = baySection({ tubeRadius: 0.051, coreThickness: 3.2e-3, finCount: 4, span: 0.11, filletRadius: 0.015 })
  if (!section.ok) throw new Error('the section exists')
  const sheet = (E: number, E3: number, G13: number) =>
    ({ E1: E, E2: E, E3, nu12: 0.15, nu13: 0.35, nu23: 0.35, G13 }) as const
  const root = {
    section: section.value,
    skin: { t: 1.3e-3, moduli: sheet(12e9, 5.4e9, 2e9) },
    core: sheet(16e9, 6.5e9, 2.4e9),
    tube: { wall: 2e-3, moduli: sheet(14e9, 6.7e9, 2.5e9) },
    adhesive: { E: 1.6e9, G: 0.6e9, bondLine: 0.3e-3 },
  }
  const hold = rootHold({ ...root, backing: 'none' })
  if (!hold.ok) throw new Error('the hold is computed')
  const known = new Map<number, PlateSection>()
  const sectionAt = ({ y }: SectionPoint): PlateSection => {
    const e = Math.round(filletThickness(section.value, y) * 1e4) / 1e4
    const { EI, S } = stripSection(root, e)
    const D = [EI, 0.15 * EI, 0, 0.15 * EI, EI, 0, 0, 0, 0.425 * EI]
    const mass = { massPerArea: 8.5 + 2 * 1100 * e, rotaryInertia: 0 }
    const made = known.get(e) ?? { A: new Float64Array(9), B: new Float64Array(9), D, S: [S, 0, 0, S], ...mass }
    known.set(e, made)
    return made
  }
  return { sectionAt, root: hold.value.likely.spring }
}
study('even sheet with fillets, held by joint and tube', filleted(), 40)

/** 0.2 × 0.11 m, 5 mm thick up to x = 0.1, 3 mm beyond. */
const [a, b] = [0.2, 0.11]
const stepped = [5e-3, 3e-3].map((t): PlateSection => {
  const [E, nu, rho] = [20e9, 0.13, 1900]
  const plane = (c: number): number[] => [c, nu * c, 0, nu * c, c, 0, 0, 0, (c * (1 - nu)) / 2]
  const S = ((5 / 6) * E * t) / (2 * (1 + nu))
  const D = (E * t ** 3) / 12 / (1 - nu ** 2)
  const stretch = (E * t) / (1 - nu ** 2)
  const mass = { massPerArea: rho * t, rotaryInertia: (rho * t ** 3) / 12 }
  return { A: plane(stretch), B: new Float64Array(9), D: plane(D), S: [S, 0, 0, S], ...mass }
})
const atStep = ({ x }: SectionPoint): PlateSection => stepped[x < a / 2 ? 0 : 1]
const rectangle: Point[] = [
  [0, 0],
  [a, 0],
  [a, b],
  [0, b],
]

/** Cells of two triangles, `columns` even: the step runs along sides of triangles. */
function following(columns: number): Mesh {
  const rows = Math.round((columns * b) / a)
  const node = (i: number, j: number): number => j * (columns + 1) + i
  const X: number[] = []
  for (let j = 0; j <= rows; j++) for (let i = 0; i <= columns; i++) X.push((a * i) / columns, (b * j) / rows)
  const T: number[] = []
  for (let j = 0; j < rows; j++) {
    for (let i = 0; i < columns; i++) {
      const [p, q, r, s] = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)]
      T.push(...((i + j) % 2 === 0 ? [p, q, r, p, r, s] : [p, q, s, q, r, s]))
    }
  }
  const along = (segment: number, count: number, at: (k: number) => number) =>
    Array.from({ length: count }, (_, k) => ({ a: at(k), b: at(k + 1), segment }))
  const boundary = [
    ...along(0, columns, (k) => node(k, 0)),
    ...along(1, rows, (k) => node(columns, k)),
    ...along(2, columns, (k) => node(columns - k, rows)),
    ...along(3, rows, (k) => node(0, rows - k)),
  ]
  return { X: Float64Array.from(X), T: Int32Array.from(T), boundary }
}

const stepCase: Case = { sectionAt: atStep }
const exact = run(following(64), stepCase)
console.log('\nrectangle with a step of thickness from 5 to 3 mm')
console.log(`  finest mesh, Hz: ${exact.frequencies.map((f) => f.toFixed(1)).join(', ')}`)
console.log('  mesh                  triangles unknowns   error of modes 1 … 6, %')
table(
  [6, 8, 12, 16, 24].map((columns) => [`follows, ${columns} columns`, run(following(columns), stepCase)]),
  exact,
)
table(
  [6, 7, 8, 9, 10, 12, 14, 16, 24].map((columns) => {
    return [`straddles, a / ${columns}`, run(meshOutline({ outline: rectangle, size: a / columns }), stepCase)]
  }),
  exact,
)
