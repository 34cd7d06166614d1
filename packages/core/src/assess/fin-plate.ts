/**
 * The fin as a plate: its outline meshed, its laminate at every point without fillets, clamped along the root at the body's surface.
 *
 * The reference plane is the core's mid-plane. How its can holds it: held-fin.ts.
 */
import { coreThickness } from '../geometry/edge-profile.ts'
import { finSides } from '../geometry/fin-outline.ts'
import type { Mesh } from '../geometry/mesh.ts'
import { meshOutline } from '../geometry/outline-mesh.ts'
import type { Point } from '../geometry/point.ts'
import { area } from '../geometry/polygon.ts'
import { finLaminate, skin } from '../laminate/fin-laminate.ts'
import type { Laminate } from '../laminate/laminate.ts'
import { type BuiltLayer, sheetLayer } from '../laminate/layer.ts'
import { type FinCoverage, finCoverage } from '../pattern/coverage.ts'
import { assemblePlate, type PlateModel } from '../plate/assemble.ts'
import { recommendedMeshSize } from '../plate/mesh-size.ts'
import type { PlateSection } from '../plate/section.ts'
import type { CanDesign } from './design.ts'
import { sameOutline } from './fin-air.ts'
import { bayPlies, onFace, type SkinPly } from './skins.ts'

export interface FinPoint {
  readonly laminate: Laminate
  /** Places of the plies in the list of skins. */
  readonly present: readonly number[]
  /** Plies of one face present here, core outward. */
  readonly plies: readonly SkinPly[]
  readonly core: number
}

export interface FinPlate {
  readonly outline: readonly Point[]
  readonly mesh: Mesh
  /** Of the outline. */
  readonly segments: number
  /** Assembled when first asked for. */
  readonly model: PlateModel
  readonly at: (x: number, y: number) => FinPoint
  /** Of the outline's segments, the one along the body. */
  readonly rootSegment: number
  /** Of one finished fin, both skins, fillets apart. */
  readonly mass: number
  /** Which of the two kinds of fin this is, where alternate bays are mirrored. */
  readonly opposite: boolean
}

/** Core thickness is taken to the nearest of these steps, so that points on a bevel share laminates; 0.3 % of a bevel's rise. One is the least. */
const coreStep = 1e-5

/** `opposite`: the fins whose next face carries the mirrored bay, where alternate bays are mirrored. */
export function finPlate(design: CanDesign, skins: readonly SkinPly[], { opposite = false } = {}): FinPlate {
  const { fins } = design
  const sides = finSides(fins.outline)
  const outline = sides.map(({ a }) => a)
  const mesh = finMesh(outline)
  const face = finFace(design, skins)
  const at = pointReader(design, skins, { face, opposite })
  const supports = sides.map(({ name }) => (name === 'root' ? ('clamped' as const) : ('free' as const)))
  let model: PlateModel | undefined
  const assembled = (): PlateModel => {
    const known = last?.mesh === mesh ? last.model : undefined
    const sectionAt = ({ x, y }: { x: number; y: number }) => plateSection(at(x, y).laminate)
    const made = assemblePlate({ mesh, supports, sectionAt, ...(known === undefined ? {} : { like: known }) })
    last = { outline, mesh, model: made }
    return made
  }
  const rootSegment = sides.findIndex(({ name }) => name === 'root')
  const mass = finMass(design, skins, { face, mesh })
  return {
    ...{ outline, mesh, at, rootSegment, mass, opposite, segments: supports.length },
    get model() {
      model ??= assembled()
      return model
    },
  }
}

let last: (Pick<FinPlate, 'outline' | 'mesh'> & { readonly model?: PlateModel }) | null = null

/** The mesh of the outline asked for last is kept, and with it the plate's layout: they do not change while plies do, and air forces are kept for them. */
function finMesh(outline: readonly Point[]): Mesh {
  if (last === null || !sameOutline(last.outline, outline))
    last = { outline, mesh: meshOutline({ outline, size: recommendedMeshSize(outline) }) }
  return last.mesh
}

interface FinFace {
  readonly coverage: FinCoverage
  readonly core: (at: readonly [number, number]) => number
}

function finFace({ fins }: CanDesign, skins: readonly SkinPly[]): FinFace {
  const { outline, edges, core } = fins
  return {
    coverage: finCoverage({ outline, edges, plies: skins.map((ply) => ply.design) }),
    core: coreThickness({ outline, thickness: core.thickness, edges }),
  }
}

/** Triangles of the mesh are cut this often along each side for the core's mass, which bends at the bevel lines. */
const massCuts = 6

/** Skins by the exact area of every ply, the core by its thickness at the middles of small triangles. */
function finMass(
  { fins }: CanDesign,
  skins: readonly SkinPly[],
  { face, mesh: { X, T } }: { face: FinFace; mesh: Mesh },
) {
  const skin = face.coverage.plies.reduce((sum, { index, regions }) => {
    const covered = regions.reduce((total, region) => total + area(region), 0)
    const faces = skins[index].design.cover === 'bay' ? 2 : 1
    return sum + faces * covered * skins[index].cured.arealMass
  }, 0)
  let core = 0
  for (let e = 0; e < T.length; e += 3) {
    const [a, b, c] = [2 * T[e], 2 * T[e + 1], 2 * T[e + 2]]
    const [ux, uy, vx, vy] = [X[b] - X[a], X[b + 1] - X[a + 1], X[c] - X[a], X[c + 1] - X[a + 1]]
    let sum = 0
    for (let i = 0; i < massCuts; i++) {
      for (let j = 0; j < massCuts - i; j++) {
        for (const third of i + j < massCuts - 1 ? [1 / 3, 2 / 3] : [1 / 3]) {
          const [r, s] = [(i + third) / massCuts, (j + third) / massCuts]
          sum += face.core([X[a] + r * ux + s * vx, X[a + 1] + r * uy + s * vy])
        }
      }
    }
    core += (((ux * vy - uy * vx) / 2) * sum) / massCuts ** 2
  }
  return skin + core * fins.core.material.density.value
}

const sections = new WeakMap<Laminate, PlateSection>()

/** One object a laminate, so that the plate can tell that nothing changed. */
export function plateSection(laminate: Laminate): PlateSection {
  const known = sections.get(laminate)
  if (known !== undefined) return known
  const { A, B, D, H, inertia } = laminate
  const section = { A, B, D, S: H, massPerArea: inertia.m0, rotaryInertia: inertia.m2 }
  sections.set(laminate, section)
  return section
}

function pointReader(
  design: CanDesign,
  skins: readonly SkinPly[],
  { face, opposite }: { readonly face: FinFace; readonly opposite: boolean },
): FinPlate['at'] {
  const { coverage, core } = face
  const known = new Map<string, FinPoint>()
  const made = (x: number, y: number): FinPoint => {
    const present = coverage.pliesAt([x, y])
    const steps = Math.max(1, Math.round(core([x, y]) / coreStep))
    const key = `${present.join(' ')} ${steps}`
    const found = known.get(key)
    if (found !== undefined) return found
    const plies = present.map((index) => skins[index])
    const point = {
      plies,
      present,
      core: steps * coreStep,
      laminate: laminateOf(design, plies, { t: steps * coreStep, opposite }),
    }
    known.set(key, point)
    return point
  }
  // Every model of the fin asks at the same places.
  const places = new Map<number, Map<number, FinPoint>>()
  return (x, y) => {
    const column = places.get(x) ?? new Map<number, FinPoint>()
    places.set(x, column)
    const found = column.get(y) ?? made(x, y)
    column.set(y, found)
    return found
  }
}

export function laminateOf(
  { fins, layup }: CanDesign,
  plies: readonly SkinPly[],
  {
    t,
    opposite,
    fillet = null,
  }: { readonly t: number; readonly opposite: boolean; readonly fillet?: BuiltLayer | null },
): Laminate {
  const under = fillet === null ? [] : [fillet]
  // Fin 1: its next face comes from bay 1, its previous face from the last bay, whose number is even when bays alternate.
  const mirrored = layup.mirrorAlternateBays
  return finLaminate({
    core: coreLayer(fins.core, t),
    nextFace: [...under, ...skin('next', bayPlies(onFace('next', plies)), { mirrored: mirrored && opposite })],
    previousFace: [
      ...under,
      ...skin('previous', bayPlies(onFace('previous', plies)), { mirrored: mirrored && !opposite }),
    ],
  })
}

const coreLayer = ({ material, grain }: CanDesign['fins']['core'], t: number): BuiltLayer =>
  sheetLayer(material, { theta: grain, t, name: 'core' })
