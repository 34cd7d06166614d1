/**
 * Chordwise and spanwise directions of a plate held along a root: y′ square to the root into the plate, x′ along the root.
 *
 * The root is the longest segment of the outline that is held in deflection, rigidly or by springs. A chord at y′ = η is the plate's extent along x′
 * there, from the first to the last crossing of the outline.
 */
import type { Mesh } from '../geometry/mesh.ts'
import type { PlateLayout } from './layout.ts'
import { bears } from './supports.ts'

export interface Chord {
  readonly from: number
  readonly to: number
}

export interface SpanAxes {
  /** Greatest y′. */
  readonly span: number
  /** Null where the plate has no chord. */
  readonly chordAt: (eta: number) => Chord | null
  readonly toPlate: (xi: number, eta: number) => [number, number]
}

/** Null when no segment is held. */
export function spanAxes({ mesh, supports }: PlateLayout): SpanAxes | null {
  const root = longestHeldSegment(mesh, supports.map(bears))
  if (root === null) return null
  const { x0, y0, tx, ty } = root
  const { X, boundary } = mesh
  const xi = (node: number): number => (X[2 * node] - x0) * tx + (X[2 * node + 1] - y0) * ty
  const eta = (node: number): number => (X[2 * node + 1] - y0) * tx - (X[2 * node] - x0) * ty
  const chordAt = (at: number): Chord | null => {
    const crossings: number[] = []
    for (const { a, b } of boundary) {
      const [p, q] = [eta(a) - at, eta(b) - at]
      if (p * q > 0 || p === q) continue
      crossings.push(xi(a) + (p / (p - q)) * (xi(b) - xi(a)))
    }
    return crossings.length < 2 ? null : { from: Math.min(...crossings), to: Math.max(...crossings) }
  }
  return {
    span: boundary.reduce((most, { a }) => Math.max(most, eta(a)), 0),
    chordAt,
    toPlate: (u, v) => [x0 + u * tx - v * ty, y0 + u * ty + v * tx],
  }
}

function longestHeldSegment({ X, boundary }: Mesh, held: readonly boolean[]) {
  const ends = new Map<number, { a: number; b: number }>()
  for (const { a, b, segment } of boundary) {
    if (held[segment]) ends.set(segment, { a: ends.get(segment)?.a ?? a, b })
  }
  let best: { x0: number; y0: number; tx: number; ty: number; length: number } | null = null
  for (const { a, b } of ends.values()) {
    const [dx, dy] = [X[2 * b] - X[2 * a], X[2 * b + 1] - X[2 * a + 1]]
    const length = Math.hypot(dx, dy)
    if (best !== null && length <= best.length * (1 + 1e-9)) continue
    best = { x0: X[2 * a], y0: X[2 * a + 1], tx: dx / length, ty: dy / length, length }
  }
  return best
}
