/**
 * Air forces kept on shapes, so that those of modes that change a little need no new solution.
 *
 *   z ≈ Σ_i c_i ψ_i        ψ orthonormal over the nodes of a mesh        F(z) = Σ_i c_i F(ψ_i)
 *
 * F, the force on each box, is linear in the shape. What the kept shapes cannot make of a mode is taken up as one more of them unless it
 * is a smaller share of the mode's length than `leftOut`; the forces of a new shape are solved for when a Mach number and frequency
 * first ask for them. A kept shape has its own sampling on the boxes, so nothing else is approximated.
 */
import type { ModeOnLattice } from '../air/subsonic/generalized-forces.ts'
import { type ComplexVector, complexVector } from '../numeric/complex-matrix.ts'
import { addTimes, dot, length } from '../numeric/vector.ts'

/** Share of a mode's length over the nodes that the kept shapes need not make. */
const leftOut = 5e-4

/** Forgotten and begun again beyond so many. */
const mostShapes = 64

export interface KeptShapes {
  /** On the boxes; only ever added to. */
  readonly onBoxes: readonly ModeOnLattice[]
  /** Shares of the kept shapes in a mode given at the nodes; those that were added later have none. */
  readonly shares: (z: ArrayLike<number>) => Float64Array
}

/** Kept shapes of one mesh; a new object after too many. */
export function keptShapes(onBoxes: (z: ArrayLike<number>) => ModeOnLattice): () => KeptShapes {
  let latest = empty(onBoxes)
  return () => {
    if (latest.onBoxes.length > mostShapes) latest = empty(onBoxes)
    return latest
  }
}

function empty(sampled: (z: ArrayLike<number>) => ModeOnLattice): KeptShapes {
  const basis: Float64Array[] = []
  const onBoxes: ModeOnLattice[] = []
  const shares = (z: ArrayLike<number>): Float64Array => {
    const rest = Float64Array.from(z)
    const whole = length(rest)
    const found = new Float64Array(basis.length + 1)
    // Twice, for rounding.
    for (let round = 0; round < 2; round++) {
      basis.forEach((psi, i) => {
        const share = dot(psi, rest)
        found[i] += share
        addTimes(rest, -share, psi)
      })
    }
    const left = length(rest)
    if (!(left > leftOut * whole)) return found.subarray(0, basis.length)
    const psi = rest.map((v) => v / left)
    found[basis.length] = left
    basis.push(psi)
    onBoxes.push(sampled(psi))
    return found
  }
  return { onBoxes, shares }
}

/** Forces on the boxes at one Mach number, by kept shapes and frequency. */
export type KeptForces = (shapes: KeptShapes, k: number, shares: readonly Float64Array[]) => ComplexVector[]

/** `solve`: forces on the boxes of some shapes at a frequency. */
export function keptForces(
  solve: (modes: readonly ModeOnLattice[], k: number) => readonly ComplexVector[],
): KeptForces {
  const kept = new WeakMap<KeptShapes, Map<number, ComplexVector[]>>()
  return (shapes, k, shares) => {
    const byFrequency = kept.get(shapes) ?? new Map<number, ComplexVector[]>()
    kept.set(shapes, byFrequency)
    const forces = byFrequency.get(k) ?? []
    byFrequency.set(k, forces)
    const wanted = Math.max(...shares.map((c) => c.length))
    if (wanted > forces.length) forces.push(...solve(shapes.onBoxes.slice(forces.length, wanted), k))
    return shares.map((c) => combined(forces, c))
  }
}

function addTwo(sum: Float64Array, c: number, a: Float64Array, d: number, b: Float64Array): void {
  for (let box = 0; box < sum.length; box++) sum[box] += c * a[box] + d * b[box]
}

function combined(forces: readonly ComplexVector[], shares: Float64Array): ComplexVector {
  const sum = complexVector(forces[0].re.length)
  // Two shapes at a time: half as often to the sum and back.
  for (let i = 0; i < shares.length; i += 2) {
    const last = Math.min(i + 1, shares.length - 1)
    addTwo(sum.re, shares[i], forces[i].re, last === i ? 0 : shares[last], forces[last].re)
    addTwo(sum.im, shares[i], forces[i].im, last === i ? 0 : shares[last], forces[last].im)
  }
  return sum
}
