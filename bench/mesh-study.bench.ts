/**
 * How the frequencies depend on the mesh: the study behind the recommended size, and what it costs that triangles do not
 * follow the lines along which the section jumps. Prints tables; docs/methods/plate.md quotes them.
 */
import type { Mesh } from '@finwright/core/geometry/mesh.ts'
import { meshOutline } from '@finwright/core/geometry/outline-mesh.ts'
import type { Point } from '@finwright/core/geometry/point.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { assemblePlate } from '@finwright/core/plate/assemble.ts'
import { plateModes } from '@finwright/core/plate/modes.ts'
import type { PlateSection, SectionPoint } from '@finwright/core/plate/section.ts'
import { finSection, outline, supports } from './demo-fin.ts'

interface Run {
  readonly triangles: number
  readonly unknowns: number
  readonly frequencies: readonly number[]
}

function run(mesh: Mesh, sectionAt: (point: SectionPoint) => PlateSection, count = 6): Run {
  const model = assemblePlate({ mesh, supports, sectionAt })
  const { omega } = plateModes(model, count)
  return {
    triangles: mesh.T.length / 3,
    unknowns: model.layout.n,
    frequencies: omega.map((value) => value / (2 * Math.PI)),
  }
}

function table(rows: readonly (readonly [string, Run])[], exact: readonly number[]): void {
  for (const [label, { triangles, unknowns, frequencies }] of rows) {
    const errors = frequencies.map((f, i) => `${(100 * (f / exact[i] - 1)).toFixed(2)}`.padStart(7)).join('')
    console.log(`  ${label.padEnd(24)} ${String(triangles).padStart(5)} ${String(unknowns).padStart(6)} ${errors}`)
  }
}

for (const skew of [false, true]) {
  const side = Math.sqrt(area(outline))
  const at = (share: number): Run => run(meshOutline({ outline, size: side / share }), finSection(skew))
  const exact = at(skew ? 24 : 40).frequencies
  console.log(`\ndemo fin, ${skew ? 'bending and stretching coupled' : 'symmetric laminate'}`)
  console.log(`  finest mesh, Hz: ${exact.map((f) => f.toFixed(1)).join(', ')}`)
  console.log('  size                  triangles unknowns   error of modes 1 … 6, %')
  table(
    [4, 5, 6, 7, 8, 10, 12, 16, 20].map((share) => [`√area / ${share}`, at(share)]),
    exact,
  )
}

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

const exact = run(following(64), atStep).frequencies
console.log('\nrectangle with a step of thickness from 5 to 3 mm')
console.log(`  finest mesh, Hz: ${exact.map((f) => f.toFixed(1)).join(', ')}`)
console.log('  mesh                  triangles unknowns   error of modes 1 … 6, %')
table(
  [6, 8, 12, 16, 24].map((columns) => [`follows, ${columns} columns`, run(following(columns), atStep)]),
  exact,
)
table(
  [6, 7, 8, 9, 10, 12, 14, 16, 24].map((columns) => {
    return [`straddles, a / ${columns}`, run(meshOutline({ outline: rectangle, size: a / columns }), atStep)]
  }),
  exact,
)
