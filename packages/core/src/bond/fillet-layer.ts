/**
 * The fillet as part of the fin's section: adhesive between core and skin on each face, from the root line to the fillet's top.
 *
 *   e(y) = r − √(r² − (xc − R − y)²)      0 ≤ y ≤ xc − R, else 0
 *
 * y is measured from the body's surface on the fin's mid-plane, R, r, xc as in section.ts. Exact geometry of the fillet's circle.
 */
import type { Lamina } from '../laminate/lamina.ts'
import type { BuiltLayer } from '../laminate/layer.ts'
import type { BaySection } from './section.ts'

/** Thickness of adhesive on one face at height y above the body, m. */
export function filletThickness({ R, r, xc }: Pick<BaySection, 'R' | 'r' | 'xc'>, y: number): number {
  const below = xc - R - y
  return below <= 0 ? 0 : r - Math.sqrt(Math.max(0, r ** 2 - Math.min(below, r) ** 2))
}

export interface FilletAdhesive {
  readonly E: number
  readonly G: number
  readonly density: number
}

/** Adhesive of that thickness as a layer of the fin's laminate, first of its face's skin. Not judged with the plies. */
export function filletLayer(adhesive: FilletAdhesive, t: number): BuiltLayer {
  const { E, G, density } = adhesive
  const lamina = laminae.get(adhesive) ?? { E1: E, E2: E, G12: G, nu12: E / (2 * G) - 1, G13: G, G23: G }
  laminae.set(adhesive, lamina)
  return { name: 'fillet', theta: 0, t, lamina, density, strengths: null }
}

/** The same object for the same adhesive, so that what is kept of a lamina is found again. */
const laminae = new WeakMap<FilletAdhesive, Lamina>()
