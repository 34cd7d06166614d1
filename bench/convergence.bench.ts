/**
 * How the answers for the demo's fin settle: with the mesh, with the boxes of the lifting surfaces and with the modes kept. Prints the tables
 * of docs/convergence.md. Times nothing.
 */
import { readFileSync } from 'node:fs'
import type { CanDesign } from '../packages/core/src/assess/design.ts'
import { type FinPlate, finPlate, plateSection } from '../packages/core/src/assess/fin-plate.ts'
import { curedPlies } from '../packages/core/src/assess/skins.ts'
import type { AerodynamicMethod } from '../packages/core/src/flutter/forces.ts'
import { doubletLatticeMethod, flutterBoxes, subsonicAir } from '../packages/core/src/flutter/lattice-method.ts'
import { solvePk } from '../packages/core/src/flutter/pk.ts'
import { supersonicAir, supersonicSurfaceMethod } from '../packages/core/src/flutter/source-method.ts'
import { finPolygon } from '../packages/core/src/geometry/fin-outline.ts'
import { meshOutline } from '../packages/core/src/geometry/outline-mesh.ts'
import { assemblePlate, type PlateModel } from '../packages/core/src/plate/assemble.ts'
import { recommendedMeshSize } from '../packages/core/src/plate/mesh-size.ts'
import { plateModes } from '../packages/core/src/plate/modes.ts'
import { readPlan } from '../packages/plan/src/read-plan.ts'

const readAttachment = (name: string) => ({ ok: true as const, text: readFileSync(`examples/${name}`, 'utf8') })
const read = readPlan({ text: readFileSync('examples/demo.fincan.json', 'utf8'), readAttachment })
if (!read.ok || read.value.design.kind !== 'can') throw new Error('the demo is refused')
const design: CanDesign = read.value.design
const outline = finPolygon(design.fins.outline)
const plate: FinPlate = finPlate(design, curedPlies(design))
const density = 1

interface Kept {
  readonly model: PlateModel
  readonly modes: number
  readonly boxes: number
}

/** Flutter speeds in air of 1 kg/m³: the doublet lattice at Mach 0.8, the surface with thickness at Mach 1.5, m/s. */
function speeds({ model, modes: kept, boxes }: Kept): [number, number] {
  const { omega, shapes } = plateModes(model, kept)
  const { X, T } = model.layout.nodes
  const input = { outline, mesh: { X, T, perTriangle: 6 as const }, shapes: shapes.map(({ w }) => w) }
  const halfThickness = (x: number, y: number): number => plate.at(x, y).laminate.h / 2
  const methods: readonly (readonly [AerodynamicMethod, number])[] = [
    [doubletLatticeMethod({ ...input, air: subsonicAir(outline, boxes) }), 0.8],
    [supersonicSurfaceMethod({ ...input, halfThickness, air: supersonicAir(outline, boxes) }), 1.5],
  ]
  const [low, high] = methods.map(([method, mach]) => {
    const { flutter, divergence } = solvePk({
      omegas: omega,
      structuralDamping: 0,
      density,
      forces: method.forces(mach),
    })
    const found = flutter.kind === 'flutter' ? flutter.V : Number.POSITIVE_INFINITY
    return Math.min(found, divergence.kind === 'divergence' ? divergence.V : Number.POSITIVE_INFINITY)
  })
  return [low, high]
}

function table(title: string, rows: readonly (readonly [string, readonly number[]])[], heads: readonly string[]): void {
  const last = rows[rows.length - 1][1]
  console.log(`\n| ${title} | ${heads.join(' | ')} |\n| --- | ${heads.map(() => '---:').join(' | ')} |`)
  for (const [name, values] of rows) {
    const cells = values.map((value, i) => `${value.toFixed(1)} (${(100 * (value / last[i] - 1)).toFixed(2)} %)`)
    console.log(`| ${name} | ${cells.join(' | ')} |`)
  }
}

const speedHeads = ['lattice, Mach 0.8, m/s', 'surface, Mach 1.5, m/s']
const hertz = (model: PlateModel): number[] => plateModes(model, 4).omega.map((omega) => omega / (2 * Math.PI))

const usual = recommendedMeshSize(outline)
const meshes = [2, 1.41, 1, 0.71, 0.5, 0.25].map((factor) => {
  const mesh = meshOutline({ outline, size: usual * factor })
  const { supports } = plate.model.layout
  return {
    factor,
    model: assemblePlate({ mesh, supports, sectionAt: ({ x, y }) => plateSection(plate.at(x, y).laminate) }),
  }
})

table(
  'triangles',
  meshes.map(({ factor, model }) => [
    `${model.layout.mesh.T.length / 3}${factor === 1 ? ' (used)' : ''}`,
    hertz(model),
  ]),
  ['mode 1, Hz', 'mode 2, Hz', 'mode 3, Hz', 'mode 4, Hz'],
)
table(
  'boxes',
  [20, 40, 80, 160, 320].map((boxes) => [
    `${boxes}${boxes === flutterBoxes ? ' (used)' : ''}`,
    speeds({ model: plate.model, modes: 8, boxes }),
  ]),
  speedHeads,
)
table(
  'modes kept',
  [2, 3, 4, 6, 8, 12].map((modes) => [
    `${modes}${modes === 8 ? ' (used)' : ''}`,
    speeds({ model: plate.model, modes, boxes: flutterBoxes }),
  ]),
  speedHeads,
)
