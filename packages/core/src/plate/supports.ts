/**
 * What the supports of an outline hold at each node.
 *
 * Directions are those of the outline's edge: `along` it, counter-clockwise, and `across` it. Rotations are those of the
 * normal in that direction, so that on a clamped edge of a thin plate `slopeAlong` is minus ∂w/∂s and `slopeAcross` minus
 * ∂w/∂n. A simple support holds the deflection and with it the slope along the edge (the "hard" simple support of a
 * shear-deformable plate), and pins the edge in the plate's own plane.
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

export type Support = 'free' | 'simple' | 'clamped' | Held

const named: { readonly [name in 'free' | 'simple' | 'clamped']: Held } = {
  free: { deflection: false, slopeAlong: false, slopeAcross: false, along: false, across: false },
  simple: { deflection: true, slopeAlong: true, slopeAcross: false, along: true, across: true },
  clamped: { deflection: true, slopeAlong: true, slopeAcross: true, along: true, across: true },
}

export const heldBy = (support: Support): Held => (typeof support === 'string' ? named[support] : support)

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
