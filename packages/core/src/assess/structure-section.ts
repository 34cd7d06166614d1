/** How the fin bends and rings: its modes, and a point load at the tip. */
import type { Mesh } from '../geometry/mesh.ts'
import type { Issue } from '../issue.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { recommendedMeshSize } from '../plate/mesh-size.ts'
import { modeNamer } from '../plate/mode-kind.ts'
import type { PlateModes } from '../plate/modes.ts'
import { fourfoldMesh } from '../plate/quadratic-mesh.ts'
import { refinementError } from '../plate/refinement.ts'
import type { PlateSection, SectionPoint } from '../plate/section.ts'
import { plateSolver } from '../plate/static.ts'
import type { Point, StructureSection } from './assessment.ts'
import { holdInWords } from './fin-flutter.ts'
import type { FinRoot } from './fin-root.ts'
import type { Section } from './flown.ts'
import type { HeldFins, Hold } from './held-fin.ts'

/** Modes shown. */
const shownModes = 6

export interface PointLoad {
  readonly at: Point
  readonly force: number
  /** Of the outline's segments, the one whose moment is reported; −1 for none. */
  readonly rootSegment: number
}

export interface StructureInput {
  readonly model: PlateModel
  readonly modes: PlateModes
  readonly load: PointLoad | null
  /** Of the model, for the estimate of its mesh's error. */
  readonly outline: readonly Point[]
  readonly sectionAt: (point: SectionPoint) => PlateSection
}

/** Of a mesh, kept as long as the mesh itself lives. */
const companions = new WeakMap<Mesh, PlateModel>()

/** The plate as it is modelled; a fin's `root` is added by its own section. */
export function structureSection({
  model,
  modes,
  load,
  outline,
  sectionAt,
}: StructureInput): Section<StructureSection> {
  const { nodes, mesh } = model.layout
  const kind = modeNamer(model)
  const drawn = fourfoldMesh(nodes)
  const value: StructureSection = {
    modes: modes.omega.slice(0, shownModes).map((omega, i) => ({
      frequency_Hz: omega / (2 * Math.PI),
      kind: kind(modes.shapes[i]).name,
    })),
    tipLoad: load === null ? null : tipLoad(model, load),
    root: null,
    mesh: {
      nodes: nodes.X.length / 2,
      triangles: mesh.T.length / 3,
      frequencyError: frequencyError({ model, modes, outline, sectionAt }),
    },
    shapes: {
      nodes_m: Array.from({ length: drawn.X.length / 2 }, (_, i) => [
        rounded(drawn.X[2 * i]),
        rounded(drawn.X[2 * i + 1]),
      ]),
      triangles: Array.from({ length: drawn.T.length / 3 }, (_, e) => [
        drawn.T[3 * e],
        drawn.T[3 * e + 1],
        drawn.T[3 * e + 2],
      ]),
      deflection: modes.shapes.slice(0, shownModes).map(({ w }) => normalised(w)),
    },
  }
  return { value, warnings: modes.missed > 0 ? [missedModes(modes.missed)] : [] }
}

function frequencyError({ model, modes, outline, sectionAt }: Omit<StructureInput, 'load'>): readonly number[] | null {
  const { mesh } = model.layout
  const omega = modes.omega.slice(0, shownModes)
  if (omega.length === 0 || !model.layout.heldInSpace) return null
  const known = companions.get(mesh)
  const { omega: error, companion } = refinementError({
    ...{ outline, size: recommendedMeshSize(outline), sectionAt, model, omega },
    ...(known === undefined ? {} : { companion: known }),
  })
  companions.set(mesh, companion)
  return error
}

function tipLoad(model: PlateModel, { at, force, rootSegment }: PointLoad): StructureSection['tipLoad'] {
  const solved = plateSolver(model)({ forces: [{ at, force }] })
  if (solved.kind === 'not-held') return { force_N: force, deflection_m: null, rootMoment_Nm: null }
  const { nodes } = model.layout
  let nearest = 0
  const away = (i: number): number => Math.hypot(nodes.X[2 * i] - at[0], nodes.X[2 * i + 1] - at[1])
  for (let i = 1; i < nodes.X.length / 2; i++) if (away(i) < away(nearest)) nearest = i
  const root = solved.segments.find(({ segment }) => segment === rootSegment)
  return {
    force_N: force,
    deflection_m: solved.field.w[nearest],
    rootMoment_Nm: root === undefined ? null : Math.abs(root.momentAlong),
  }
}

/** What holds the root, and the fin's first modes with it. */
export function rootFigures({ hold }: FinRoot, fins: HeldFins, used: Hold): StructureSection['root'] {
  if (hold === null) return null
  const { flexibility, basis } = hold.likely
  const { omega, shapes } = fins.modes('likely')
  const kind = modeNamer(fins.fin('likely').model)
  const shown = shapes.slice(0, shownModes)
  return {
    rotation_rad_per_N: flexibility.MM,
    deflection_m2_per_N: flexibility.VV,
    basis: `${basis}. ${hold.words} Flutter: ${holdInWords(used)}.`,
    modes_Hz: omega.slice(0, shownModes).map((one) => one / (2 * Math.PI)),
    kinds: shown.map((shape) => kind(shape).name),
    deflection: shown.map(({ w }) => normalised(w)),
  }
}

/** Largest deflection 1, four decimals: for drawing only. */
function normalised(w: Float64Array): number[] {
  const largest = w.reduce((most, value) => (Math.abs(value) > Math.abs(most) ? value : most), 0)
  return Array.from(w, (value) => Math.round((value / largest) * 1e4) / 1e4)
}

/** To a micrometre: for drawing only. */
const rounded = (length: number): number => Math.round(length * 1e6) / 1e6

const missedModes = (missed: number): Issue => ({
  code: 'structure/modes-missed',
  path: 'structure.modes',
  value: missed,
  message: `${missed} natural mode${missed === 1 ? ' is' : 's are'} known to lie below the last one found and ${missed === 1 ? 'was' : 'were'} not found.`,
  hint: 'Frequencies shown are right, but the list has a gap; do not rely on the flutter margin.',
})
