/**
 * Last-ply failure by total discount: under a load that grows in proportion, each ply that fails loses all its stiffness
 * and the rest carry on. The answer is the sequence, and the largest factor the laminate ever carries.
 *
 * A discounted ply keeps RESIDUE of its moduli so that the matrices stay regular. Total discount is harsh: a cracked ply
 * still carries load along its fibres. Source: Kaw, Mechanics of Composite Materials, 2nd ed. (2006), ch. 5 (recalled).
 */
import { type LaminateLoad, laminateCompliance, strainUnder } from './compliance.ts'
import type { Criterion } from './failure/criterion.ts'
import { type PlyFailure, plyFailures } from './first-ply.ts'
import type { Lamina } from './lamina.ts'
import { type BuiltLayer, totalThickness } from './layer.ts'
import { laminateStiffness } from './stiffness.ts'

export interface PlyByPly {
  /** In the order they fail, with the load factor at which each does; plies that fail together share it. */
  readonly failures: readonly (PlyFailure & { readonly factor: number })[]
  readonly firstPlyFactor: number
  readonly lastPlyFactor: number
}

/** Small beside any layer that is left, large beside the rounding of the matrices. */
const RESIDUE = 1e-6
/** Plies whose indices differ by less fail together: two faces of a symmetric laminate differ by rounding only. */
const TOGETHER = 1e-9

/** Null when no layer has strengths, or the load stresses none. */
export function lastPlyFailure(
  layers: readonly BuiltLayer[],
  load: LaminateLoad,
  criterion: Criterion,
): PlyByPly | null {
  const reference = totalThickness(layers) / 2
  const failures: (PlyFailure & { factor: number })[] = []
  let left = layers
  while (true) {
    const section = { layers: left, reference }
    const state = strainUnder(laminateCompliance(laminateStiffness(section)), load)
    const indices = plyFailures(section, state, criterion)
    const most = Math.max(0, ...indices.map(({ index }) => index))
    if (most === 0) break
    const failed = indices.filter(({ index }) => index >= most * (1 - TOGETHER))
    failures.push(...failed.map((failure) => ({ ...failure, factor: 1 / failure.index })))
    left = left.map((layer, i) => (failed.some(({ position }) => position === i) ? discounted(layer) : layer))
  }
  if (failures.length === 0) return null
  const factors = failures.map(({ factor }) => factor)
  return { failures, firstPlyFactor: factors[0], lastPlyFactor: Math.max(...factors) }
}

const discounted = (layer: BuiltLayer): BuiltLayer => ({ ...layer, lamina: softened(layer.lamina), strengths: null })

const softened = ({ E1, E2, G12, nu12, G13, G23 }: Lamina): Lamina => ({
  E1: E1 * RESIDUE,
  E2: E2 * RESIDUE,
  G12: G12 * RESIDUE,
  nu12,
  G13: G13 * RESIDUE,
  G23: G23 * RESIDUE,
})
