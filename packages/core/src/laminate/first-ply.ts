/**
 * First-ply failure: the ply, face, criterion and mode that fail first when the strains given grow in proportion.
 *
 * Every layer with strengths is judged at its two faces, which bound the stress within it. Layers without strengths (veils)
 * are passed over.
 */
import type { LaminateStrain } from './compliance.ts'
import type { Criterion, FailureMode } from './failure/criterion.ts'
import type { BuiltLayer } from './layer.ts'
import { plyStresses } from './ply-stress.ts'

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

interface Judged {
  readonly layers: readonly BuiltLayer[]
  /** Height of the reference plane above the bottom face, m. */
  readonly reference: number
}

/** The most critical point, or null when no layer has strengths. */
export function firstPlyFailure(section: Judged, state: LaminateStrain, criterion: Criterion): PlyFailure | null {
  let first: PlyFailure | null = null
  for (const [position, { bottom, top }] of plyStresses(section, state).entries()) {
    const { name, strengths, lamina } = section.layers[position]
    if (strengths === null) continue
    for (const [face, { ply, z }] of [['bottom', bottom] as const, ['top', top] as const]) {
      const { index, mode } = criterion.evaluate({ stress: ply, strengths, lamina })
      if (first === null || index > first.index)
        first = { index, mode, criterion: criterion.name, layer: name, position, face, z }
    }
  }
  return first
}
