/**
 * What the supports of an outline hold at each node.
 *
 * Directions are those of the outline's edge: `along` it, counter-clockwise, and `across` it. Rotations are those of the
 * normal in that direction, so that on a clamped edge of a thin plate `slopeAlong` is minus ∂w/∂s and `slopeAcross` minus
 * ∂w/∂n. A simple support holds the deflection and with it the slope along the edge (the "hard" simple support of a
 * shear-deformable plate), and pins the edge in the plate's own plane. An elastic support holds by springs (elastic-edge.ts).
 */
import { invariant } from '../issue.ts'
import type { QuadraticMesh } from './quadratic-mesh.ts'

export interface Held {
  readonly deflection: boolean
  readonly slopeAlong: boolean
  readonly slopeAcross: boolean
  readonly along: boolean
  readonly across: boolean
}

/**
 * Springs along an edge, per length of it. What the plate puts on the edge, a force V along +z and a moment M about the edge
 * that goes with a deflection growing into the plate, is
 *
 *   V = deflection · w + coupling · θ      N/m        M = coupling · w + rotation · θ      N·m/m
 *   moment across the edge = twist · (φs + ∂w/∂s)     N·m/m
 *
 * θ = −φn is the turn of the normal about the edge (∂w/∂n into the plate where the plate is thin), φs that of the normal along
 * it: `twist` holds normals against leaning over along an edge that bends; infinity is not allowed, a large number will do.
 */
export interface ElasticSupport {
  /** N/m² */
  readonly deflection: number
  /** N/m */
  readonly coupling: number
  /** N */
  readonly rotation: number
  /** N; 0 for none. */
  readonly twist: number
  /** In the plate's own plane; felt only where bending and stretching are coupled. */
  readonly inPlane: 'held' | 'free'
}

export type Support = 'free' | 'simple' | 'clamped' | Held | ElasticSupport

const named: { readonly [name in 'free' | 'simple' | 'clamped']: Held } = {
  free: { deflection: false, slopeAlong: false, slopeAcross: false, along: false, across: false },
  simple: { deflection: true, slopeAlong: true, slopeAcross: false, along: true, across: true },
  clamped: { deflection: true, slopeAlong: true, slopeAcross: true, along: true, across: true },
}

export const isElastic = (support: Support): support is ElasticSupport =>
  typeof support === 'object' && typeof support.deflection === 'number'

/** What is held rigidly; springs hold nothing rigidly. */
export function heldBy(support: Support): Held {
  if (typeof support === 'string') return named[support]
  if (!isElastic(support)) return support
  const held = support.inPlane === 'held'
  return { ...named.free, along: held, across: held }
}

/** Whether the edge can carry a force normal to the plate: a root. */
export const bears = (support: Support): boolean =>
  isElastic(support) ? support.deflection > 0 : heldBy(support).deflection

/** Whether two supports hold the same components rigidly and both by springs or neither: the same unknowns. */
export function sameUnknowns(p: Support, q: Support): boolean {
  if (p === q) return true
  if (isElastic(p) !== isElastic(q)) return false
  const [a, b] = [heldBy(p), heldBy(q)]
  return (
    a.deflection === b.deflection &&
    a.slopeAlong === b.slopeAlong &&
    a.slopeAcross === b.slopeAcross &&
    a.along === b.along &&
    a.across === b.across
  )
}

/** A pair of components held in no, one or both directions; `angle` turns x to the first, held, direction. */
interface HeldPair {
  readonly count: 0 | 1 | 2
  readonly angle: number
}

export interface NodeSupport {
  readonly deflection: boolean
  readonly rotation: HeldPair
  readonly inPlane: HeldPair
}

const nothing: HeldPair = { count: 0, angle: 0 }
export const unsupported: NodeSupport = { deflection: false, rotation: nothing, inPlane: nothing }

/** Two edge directions closer than this (rad) are one: a straight edge cut in pieces. */
const sameDirection = 1e-6

/** Support of every node; nodes inside are `unsupported`. `supports`: one a segment of the outline. */
export function nodeSupports({ X, sides }: QuadraticMesh, supports: readonly Support[]): NodeSupport[] {
  const found: NodeSupport[] = new Array(X.length / 2).fill(unsupported)
  for (const { nodes, segment } of sides) {
    invariant(segment < supports.length, `no support given for segment ${segment} of the outline`)
    const held = heldBy(supports[segment])
    const [a, , b] = nodes
    const angle = Math.atan2(X[2 * b + 1] - X[2 * a + 1], X[2 * b] - X[2 * a])
    const edge: NodeSupport = {
      deflection: held.deflection,
      rotation: pair(angle, held.slopeAlong, held.slopeAcross),
      inPlane: pair(angle, held.along, held.across),
    }
    for (const node of nodes) found[node] = both(found[node], edge)
  }
  return found
}

function pair(angle: number, along: boolean, across: boolean): HeldPair {
  if (along && across) return { count: 2, angle: 0 }
  if (!along && !across) return nothing
  return { count: 1, angle: along ? angle : angle + Math.PI / 2 }
}

function both(p: NodeSupport, q: NodeSupport): NodeSupport {
  return {
    deflection: p.deflection || q.deflection,
    rotation: bothPairs(p.rotation, q.rotation),
    inPlane: bothPairs(p.inPlane, q.inPlane),
  }
}

function bothPairs(p: HeldPair, q: HeldPair): HeldPair {
  if (p.count !== 1 || q.count !== 1) return p.count >= q.count ? p : q
  return Math.abs(Math.sin(p.angle - q.angle)) < sameDirection ? p : { count: 2, angle: 0 }
}
