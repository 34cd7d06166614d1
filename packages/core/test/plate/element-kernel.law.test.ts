/** The element's stiffness, which multiplies only what is not zero, against the product of whole matrices. */
import { expect, test } from 'vitest'
import { packed } from '../../src/numeric/sparse.ts'
import type { PlateSection } from '../../src/plate/section.ts'
import { integrationPoints } from '../../src/plate/tied-shear.ts'
import {
  elementScratch,
  elementStiffness,
  sectionMatrix,
  strainColumns,
  strainMatrix,
  strainRows,
  triangleMap,
} from '../../src/plate/triangle-mitc7.ts'

const map = triangleMap(Float64Array.of(0.1, -0.2, 1.3, 0.15, 0.4, 0.9), 0, 1, 2)
const symmetric = (a: number, b: number, c: number, d: number, e: number, f: number) =>
  Float64Array.of(a, b, c, b, d, e, c, e, f)

/** Full in every entry, another at every point. */
const sectionAt = (q: number): PlateSection => ({
  A: symmetric(9 + q, 2, 0.7, 8, -0.4, 3),
  B: symmetric(0.5, 0.2 - q / 9, 0.3, -0.6, 0.15, 0.25),
  D: symmetric(3, 0.8, 0.2 + q / 20, 2.5, -0.3, 1),
  S: Float64Array.of(4, 0.6, 0.6, 5 + q),
  massPerArea: 1,
  rotaryInertia: 1,
})

test.each([false, true])('coupled %s', (coupled) => {
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  const [strain, C] = [new Float64Array(rows * columns), new Float64Array(rows * rows)]
  const whole = Array.from({ length: columns }, () => new Float64Array(columns))
  integrationPoints.forEach((point, q) => {
    strainMatrix(strain, point, map, coupled)
    sectionMatrix(C, sectionAt(q), coupled)
    for (let i = 0; i < columns; i++)
      for (let j = 0; j < columns; j++)
        for (let r = 0; r < rows; r++)
          for (let s = 0; s < rows; s++)
            whole[i][j] += point.weight * map.det * strain[r * columns + i] * C[r * rows + s] * strain[s * columns + j]
  })
  // The bubble's two unknowns, the last, carry no load.
  for (let last = columns - 1; last >= columns - 2; last--)
    for (let i = 0; i < last; i++)
      for (let j = 0; j < last; j++) whole[i][j] -= (whole[i][last] * whole[last][j]) / whole[last][last]
  const scratch = elementScratch(coupled)
  elementStiffness(scratch, map, sectionAt)
  const largest = Math.max(...whole.flatMap((row) => Array.from(row, Math.abs)))
  for (let j = 0; j < columns - 2; j++)
    for (let i = 0; i <= j; i++) expect(Math.abs(scratch.K[packed(j) + i] - whole[i][j])).toBeLessThan(1e-12 * largest)
})
