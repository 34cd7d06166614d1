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
import { invariant } from '../issue.ts'
import type { Laminate } from '../laminate/laminate.ts'
import { assemblePlate, type PlateModel, resprung } from '../plate/assemble.ts'
import { type PlateModes, plateModes } from '../plate/modes.ts'
import { neighbourModes, type ShapedModes } from '../plate/ritz.ts'
import type { Support } from '../plate/supports.ts'
import type { CanDesign } from './design.ts'
import { type FinPlate, type FinPoint, finPlate, laminateOf, plateSection } from './fin-plate.ts'
import type { FinRoot } from './fin-root.ts'
import { curedPlies, type SkinPly } from './skins.ts'

/** Modes that carry the flutter solution. */
export const flutterModes = 8

/** Steps from the fin held as is likely to the others: on the examples each of the first four frequencies is then within 0.2 %. */
const nearSteps = { soft: 2, likely: 1, stiff: 1 } as const

/** Fillets are taken to the nearest of these steps of thickness, so that points share laminates. */
const filletStep = 5e-5

export interface HeldFin {
  readonly model: PlateModel
  /** Fillets in. */
  readonly laminateAt: (x: number, y: number) => Laminate
}

/** How the root is held: by the joint's springs in one of their three cases, or by a clamp and without fillets. */
export type Hold = 'soft' | 'likely' | 'stiff' | 'clamped'

export interface HeldFins {
  /** `resin`: share of the resin's modulus that heat has left. Springs need a joint that could be computed. */
  readonly fin: (hold: Hold, resin?: number) => HeldFin
  readonly modes: (hold: Hold, resin?: number) => PlateModes
  /** From the modes of the cold fin held as is likely, without factors of their own; those modes themselves for that fin. */
  readonly nearModes: (hold: Hold, resin?: number) => ShapedModes
}

/** The latest of a mesh, whose layout the next one uses again. */
const models = new WeakMap<Mesh, PlateModel>()

/** Every state of one fin, each made once. */
export function heldFins(design: CanDesign, plate: FinPlate, { section, hold: joint }: FinRoot): HeldFins {
  const laminates = kept((resin: number) =>
    laminateReader(design, { plate, skins: curedPlies(design, resin), section: section.section }),
  )
  const made = kept((hold: Hold) =>
    kept((resin: number): HeldFin => {
      if (hold === 'clamped') return clampedFin(design, plate, resin)
      invariant(joint !== null, `a root held ${hold} whose joint was computed`)
      const { spring } = joint[hold]
      if (hold === 'likely') return springFin(plate, { laminateAt: laminates(resin), spring })
      const { model, laminateAt } = made('likely')(resin)
      return { model: resprung(model, rootSprings(plate, spring)), laminateAt }
    }),
  )
  const modes = kept((hold: Hold) => kept((resin: number) => plateModes(made(hold)(resin).model, flutterModes)))
  const nearModes = kept((hold: Hold) =>
    kept((resin: number): ShapedModes => {
      if (hold === 'clamped') return modes(hold)(resin)
      const known = { model: made('likely')(1).model, modes: modes('likely')(1) }
      return hold === 'likely' && resin === 1
        ? known.modes
        : neighbourModes(known, made(hold)(resin).model, nearSteps[hold])
    }),
  )
  return {
    fin: (hold, resin = 1) => made(hold)(resin),
    modes: (hold, resin = 1) => modes(hold)(resin),
    nearModes: (hold, resin = 1) => nearModes(hold)(resin),
  }
}

function kept<K, T>(make: (key: K) => T): (key: K) => T {
  const known = new Map<K, T>()
  return (key) => {
    const found = known.get(key) ?? make(key)
    known.set(key, found)
    return found
  }
}

function clampedFin(design: CanDesign, plate: FinPlate, resin: number): HeldFin {
  const { model, at } = resin === 1 ? plate : finPlate(design, curedPlies(design, resin), { opposite: plate.opposite })
  return { model, laminateAt: (x, y) => at(x, y).laminate }
}

function springFin(
  plate: FinPlate,
  { laminateAt, spring }: { readonly laminateAt: HeldFin['laminateAt']; readonly spring: RootSpring },
): HeldFin {
  const { mesh } = plate
  const known = models.get(mesh)
  const model = assemblePlate({
    mesh,
    supports: rootSprings(plate, spring),
    sectionAt: ({ x, y }) => plateSection(laminateAt(x, y)),
    ...(known === undefined ? {} : { like: known }),
  })
  models.set(mesh, model)
  return { model, laminateAt }
}

const rootSprings = ({ segments, rootSegment }: FinPlate, spring: RootSpring): Support[] =>
  Array.from({ length: segments }, (_, i) => (i === rootSegment ? spring : 'free'))

interface Reading {
  readonly plate: FinPlate
  /** As they were listed for the plate, at any temperature. */
  readonly skins: readonly SkinPly[]
  readonly section: BaySection
}

function laminateReader(design: CanDesign, { plate, skins, section }: Reading): HeldFin['laminateAt'] {
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
