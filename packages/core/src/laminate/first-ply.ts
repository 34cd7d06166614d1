/**
 * First-ply failure: the ply, face, criterion and mode that fail first when the strains given grow in proportion.
 *
 * Every layer with strengths is judged at its two faces, which bound the stress within it. Layers without strengths (veils)
 * are passed over.
 */
import type { LaminateStrain } from './compliance.ts'
import type { Criterion, FailureMode } from './failure/criterion.ts'
import type { BuiltLayer } from './layer.ts'
import { type FaceStress, plyStresses } from './ply-stress.ts'

export interface PlyFailure {
  /** Load over failure load; fails at 1. */
  readonly index: number
  readonly mode: FailureMode
  readonly criterion: string
  /** Name of the layer, and its place from the bottom. */
  readonly layer: string
  readonly position: number
  readonly face: 'bottom' | 'top'
  /** Height above the reference plane, m. */
  readonly z: number
}

export interface JudgedSection {
  readonly layers: readonly BuiltLayer[]
  /** Height of the reference plane above the bottom face, m. */
  readonly reference: number
}

/** The most critical point of the laminate, or null when no layer has strengths. */
export function firstPlyFailure(
  section: JudgedSection,
  state: LaminateStrain,
  criterion: Criterion,
): PlyFailure | null {
  return plyFailures(section, state, criterion).reduce<PlyFailure | null>(
    (first, failure) => (first === null || failure.index > first.index ? failure : first),
    null,
  )
}

/** The more critical face of every layer with strengths, bottom layer first. */
export function plyFailures(section: JudgedSection, state: LaminateStrain, criterion: Criterion): PlyFailure[] {
  return plyStresses(section, state).flatMap(({ bottom, top }, position) => {
    const { name, strengths, lamina } = section.layers[position]
    if (strengths === null) return []
    const at = (face: 'bottom' | 'top', { ply, z }: FaceStress): PlyFailure => {
      const { index, mode } = criterion.evaluate({ stress: ply, strengths, lamina })
      return { index, mode, criterion: criterion.name, layer: name, position, face, z }
    }
    const below = at('bottom', bottom)
    const above = at('top', top)
    return above.index > below.index ? above : below
  })
}
