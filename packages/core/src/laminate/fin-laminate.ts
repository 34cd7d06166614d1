/**
 * The laminate of a fin at one point: a core of local thickness with the skins of two bays on its two faces.
 *
 * Fin axes: x aft along the root, y outboard, z normal, +z the previous face. A ply's angle a runs from +Y towards +X on the
 * bay map, seen from outside. So on the previous face (the fin is the next fin of that bay) the warp lies at +a from +y
 * towards +x, and on the next face at −a; theta runs from +x towards +y:
 *
 *   previous face   θ = π/2 − a        next face   θ = π/2 + a
 *
 * The reference plane is the core's mid-plane, so that zones with different plies meet on one plane.
 */
import { type Laminate, laminate } from './laminate.ts'
import type { BuiltLayer } from './layer.ts'
import type { CuredPly } from './ply.ts'

export type Face = 'next' | 'previous'

/** A cured ply of a bay's schedule. */
export interface BayPly {
  readonly id: string
  readonly ply: CuredPly
  /** Of the warp, from +Y towards +X on the bay map, rad. */
  readonly angle: number
}

export interface FinSection {
  /** As thick as it is at this point, its theta the grain's. Null where the core has run out. */
  readonly core: BuiltLayer | null
  /** Core outward. */
  readonly nextFace: readonly BuiltLayer[]
  readonly previousFace: readonly BuiltLayer[]
}

/** theta in fin axes of a warp at `angle` on the bay map, on the given face of a fin, rad. */
export const skinTheta = (face: Face, angle: number): number => Math.PI / 2 + (face === 'next' ? angle : -angle)

/** One face's skin, core outward. `mirrored` for a bay that carries the negative of every angle. */
export function skin(face: Face, plies: readonly BayPly[], { mirrored = false } = {}): BuiltLayer[] {
  return plies.map((ply) => {
    const known = layers.get(ply) ?? new Map<string, BuiltLayer>()
    layers.set(ply, known)
    const key = mirrored ? `${face}, mirrored` : face
    const found = known.get(key) ?? skinLayer(face, ply, mirrored)
    known.set(key, found)
    return found
  })
}

/** A fin asks for the same few layers at each of its points. */
const layers = new WeakMap<BayPly, Map<string, BuiltLayer>>()

const skinLayer = (face: Face, { id, ply, angle }: BayPly, mirrored: boolean): BuiltLayer => {
  const { lamina, t, density, strengths } = ply
  return {
    name: `${id} ${face} face`,
    theta: skinTheta(face, mirrored ? -angle : angle),
    lamina,
    t,
    density,
    strengths,
  }
}

export function finLaminate({ core, nextFace, previousFace }: FinSection): Laminate {
  const below = nextFace.toReversed()
  const all = [...below, ...(core === null ? [] : [core]), ...previousFace]
  const reference = below.reduce((z, { t }) => z + t, 0) + (core?.t ?? 0) / 2
  return laminate(all, reference)
}
