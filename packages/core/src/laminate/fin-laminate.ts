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
  return plies.map(({ id, ply: { lamina, t, density, strengths }, angle }) => ({
    name: `${id} ${face} face`,
    theta: skinTheta(face, mirrored ? -angle : angle),
    lamina,
    t,
    density,
    strengths,
  }))
}

export function finLaminate({ core, nextFace, previousFace }: FinSection): Laminate {
  const below = nextFace.toReversed()
  const layers = [...below, ...(core === null ? [] : [core]), ...previousFace]
  const reference = below.reduce((z, { t }) => z + t, 0) + (core?.t ?? 0) / 2
  return laminate(layers, reference)
}
