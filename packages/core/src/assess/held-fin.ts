/**
 * The fin as its can holds it: fillets in its section, and along its root the springs of joint and tube wall in place of a clamp.
 *
 * The fin's own points (fin-plate.ts) are bare of fillets: they are what the air sees and what is weighed. Here the adhesive of the
 * fillets lies between core and skin near the root; skins may be those of any temperature.
 */
import { filletLayer, filletThickness } from '../bond/fillet-layer.ts'
import type { RootSpring } from '../bond/joint/root-hold.ts'
import type { BaySection } from '../bond/section.ts'
import type { Mesh } from '../geometry/mesh.ts'
import type { Laminate } from '../laminate/laminate.ts'
import { assemblePlate, type PlateModel } from '../plate/assemble.ts'
import type { CanDesign } from './design.ts'
import { type FinPlate, type FinPoint, laminateOf, plateSection } from './fin-plate.ts'
import type { SkinPly } from './skins.ts'

/** Fillets are taken to the nearest of these steps of thickness, so that points share laminates. */
const filletStep = 5e-5

export interface HeldFin {
  readonly model: PlateModel
  /** Fillets in. */
  readonly laminateAt: (x: number, y: number) => Laminate
}

export interface Holding {
  readonly plate: FinPlate
  /** As they were listed for the plate, at any temperature. */
  readonly skins: readonly SkinPly[]
  readonly section: BaySection
  readonly spring: RootSpring
}

/** The latest of a mesh, whose layout the next one uses again. */
const models = new WeakMap<Mesh, PlateModel>()

export function heldFin(design: CanDesign, { plate, skins, section, spring }: Holding): HeldFin {
  const laminateAt = laminateReader(design, { plate, skins, section })
  const { mesh, rootSegment, model: bare } = plate
  const known = models.get(mesh)
  const model = assemblePlate({
    mesh,
    supports: bare.layout.supports.map((_, i) => (i === rootSegment ? spring : 'free')),
    sectionAt: ({ x, y }) => plateSection(laminateAt(x, y)),
    ...(known === undefined ? {} : { like: known }),
  })
  models.set(mesh, model)
  return { model, laminateAt }
}

function laminateReader(
  design: CanDesign,
  { plate, skins, section }: Pick<Holding, 'plate' | 'skins' | 'section'>,
): HeldFin['laminateAt'] {
  const { E, G, density } = design.fins.fillet.adhesive
  const adhesive = { E: E.value, G: G.value, density: density.value }
  const known = new Map<FinPoint, Map<number, Laminate>>()
  const knownAt = (point: FinPoint): Map<number, Laminate> => {
    const laminates = known.get(point) ?? new Map<number, Laminate>()
    known.set(point, laminates)
    return laminates
  }
  return (x, y) => {
    const point = plate.at(x, y)
    const laminates = knownAt(point)
    const steps = Math.round(filletThickness(section, y) / filletStep)
    const found = laminates.get(steps)
    if (found !== undefined) return found
    const plies = point.present.map((index) => skins[index])
    const fillet = steps === 0 ? null : filletLayer(adhesive, steps * filletStep)
    const made = laminateOf(design, plies, { t: point.core, opposite: plate.opposite, fillet })
    laminates.set(steps, made)
    return made
  }
}
