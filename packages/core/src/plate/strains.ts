/**
 * Strains of a plate inside its triangles: in the reference plane, curvatures, transverse shear.
 *
 * Evaluated at three points a triangle, (1/6, 1/6), (2/3, 1/6), (1/6, 2/3), where the derivatives of quadratic displacements
 * are more accurate than elsewhere. Barlow, Optimal stress locations in finite element models, Int. J. Num. Meth. Eng. 10
 * (1976) 243–251, for the idea (recalled).
 */
import { elementMap, type PlateModel, sectionsOf } from './assemble.ts'
import type { NodalField } from './nodal-field.ts'
import { referencePoint } from './tied-shear.ts'
import {
  bubbleRotation,
  elementScratch,
  nodesPerElement,
  strainColumns,
  strainMatrix,
  strainRows,
} from './triangle-mitc7.ts'

export interface PlateStrain {
  readonly x: number
  readonly y: number
  /** Triangle of the mesh. */
  readonly element: number
  /** Over (xx, yy, xy) in the reference plane. */
  readonly membrane: readonly [number, number, number]
  /** Over (xx, yy, xy), 1/m. */
  readonly curvature: readonly [number, number, number]
  /** Over (xz, yz). */
  readonly shear: readonly [number, number]
}

const strainPoints = [
  [1 / 6, 1 / 6],
  [2 / 3, 1 / 6],
  [1 / 6, 2 / 3],
].map(([r, s]) => referencePoint(r, s))

/** Three a triangle, triangle after triangle. */
export function elementStrains(model: PlateModel, field: NodalField): PlateStrain[] {
  const { mesh, nodes, coupled, perNode } = model.layout
  const { X, T } = mesh
  const scratch = elementScratch(coupled)
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  const found: PlateStrain[] = []
  const B = new Float64Array(rows * columns)
  const components = [field.w, field.phiX, field.phiY, field.u, field.v]
  for (let element = 0; element < T.length / 3; element++) {
    const map = elementMap(mesh, element)
    const a = new Float64Array(columns)
    for (let i = 0; i < columns - 2; i++) {
      const node = nodes.T[element * nodesPerElement + Math.floor(i / perNode)]
      a[i] = components[i % perNode][node]
    }
    a.set(bubbleRotation(scratch, map, sectionsOf(model, element), a), columns - 2)
    const corner = 2 * T[3 * element]
    for (const point of strainPoints) {
      strainMatrix(B, point, map, coupled)
      const strain = Array.from({ length: rows }, (_, i) => {
        let sum = 0
        for (let j = 0; j < columns; j++) sum += B[i * columns + j] * a[j]
        return sum
      })
      const [kxx, kyy, kxy, gxz, gyz, exx = 0, eyy = 0, exy = 0] = strain
      found.push({
        x: X[corner] + point.r * map.xr + point.s * map.xs,
        y: X[corner + 1] + point.r * map.yr + point.s * map.ys,
        element,
        membrane: [exx, eyy, exy],
        curvature: [kxx, kyy, kxy],
        shear: [gxz, gyz],
      })
    }
  }
  return found
}

/**
 * Strains of `elementStrains` carried on in a straight line to the corners of each triangle, where the greatest stress at a
 * clamped edge is: three a triangle, in the order of its nodes. Neighbours differ by the mesh's error. At the ends of a clamped
 * root thin-plate theory has no finite value, and finer meshes give larger ones.
 */
export function cornerStrains(strains: readonly PlateStrain[]): PlateStrain[] {
  return strains.map((own, i) => {
    const three = [0, 1, 2].map((k) => strains[i - (i % 3) + k])
    const carried = (value: (strain: PlateStrain) => number): number =>
      2 * value(own) - (value(three[0]) + value(three[1]) + value(three[2])) / 3
    const list = <T>(get: (strain: PlateStrain) => readonly number[]): T =>
      get(own).map((_, k) => carried((strain) => get(strain)[k])) as T
    return {
      x: carried(({ x }) => x),
      y: carried(({ y }) => y),
      element: own.element,
      membrane: list<PlateStrain['membrane']>(({ membrane }) => membrane),
      curvature: list<PlateStrain['curvature']>(({ curvature }) => curvature),
      shear: list<PlateStrain['shear']>(({ shear }) => shear),
    }
  })
}
