/**
 * The triangle side at which a fin's first modes are converged well within one per cent: an eighth of the square root of its
 * area, about 150 triangles. docs/methods/plate.md has the study behind it.
 */
import type { Point } from '../geometry/point.ts'
import { area } from '../geometry/polygon.ts'

export const recommendedMeshSize = (outline: readonly Point[]): number => Math.sqrt(area(outline)) / 8
