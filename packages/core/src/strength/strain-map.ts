/**
 * Strains of a plate as fixed weighted sums of the nodes' displacements, so that many loads cost little.
 *
 *   ε(corner) = E a        E = 2 B(own point) − mean of B over the three        B = B_nodes − B_bubble K_bb⁻¹ K_ba
 *
 * The same numbers as `cornerStrains(elementStrains(…))` of plate/strains.ts: taken at the three points of a triangle where they are
 * most accurate and carried on in a straight line to its corners. The rotations' bubble is eliminated as in the element.
 *
 * At a node the mean over the triangles that meet there counts, by their areas; in the middle of a side the mean of its ends. Where the
 * section changes within a triangle (a fillet, a ply's edge) one triangle alone reads too much and its neighbour too little:
 * docs/methods/strength.md has figures of both.
 */
import { elementMap, type PlateModel, sectionsOf } from '../plate/assemble.ts'
import type { NodalField } from '../plate/nodal-field.ts'
import { integrationPoints, referencePoint } from '../plate/tied-shear.ts'
import {
  nodesPerElement,
  sectionMatrix,
  strainColumns,
  strainMatrix,
  strainRows,
  type TriangleMap,
} from '../plate/triangle-mitc7.ts'

/** Numbers a corner: εxx, εyy, εxy in the reference plane, then κxx, κyy, κxy. */
export const perCorner = 6

export interface StrainMap {
  readonly triangles: number
  /** 18 numbers a triangle: its three corners in the order of its nodes, `perCorner` each. */
  readonly atCorners: (field: NodalField) => Float64Array
  /** `perCorner` numbers a node of the quadratic mesh, from those at the corners. */
  readonly atNodes: (corners: Float64Array) => Float64Array
}

const strainPoints = [
  [1 / 6, 1 / 6],
  [2 / 3, 1 / 6],
  [1 / 6, 2 / 3],
].map(([r, s]) => referencePoint(r, s))

export function strainMap(model: PlateModel): StrainMap {
  const { mesh, nodes, coupled, perNode } = model.layout
  const triangles = mesh.T.length / 3
  const columns = nodesPerElement * perNode
  const rows = coupled ? 6 : 3
  const size = 3 * rows * columns
  const E = new Float64Array(triangles * size)
  const work = workArrays(coupled)
  for (let e = 0; e < triangles; e++) {
    const map = elementMap(mesh, e)
    bubbleRows(work, map, sectionsOf(model, e))
    cornerRows(E, e * size, work, map)
  }
  const atCorners = (field: NodalField): Float64Array => {
    const strains = new Float64Array(3 * perCorner * triangles)
    const a = new Float64Array(columns)
    const components = [field.w, field.phiX, field.phiY, field.u, field.v]
    for (let e = 0, at = 0; e < triangles; e++) {
      for (let i = 0, j = 0; i < nodesPerElement; i++) {
        const node = nodes.T[e * nodesPerElement + i]
        for (let k = 0; k < perNode; k++) a[j++] = components[k][node]
      }
      for (let corner = 0; corner < 3; corner++) {
        const to = perCorner * (3 * e + corner)
        for (let row = 0; row < rows; row++) {
          let sum = 0
          for (let j = 0; j < columns; j++) sum += E[at++] * a[j]
          strains[to + ((row + 3) % perCorner)] = sum
        }
      }
    }
    return strains
  }
  return { triangles, atCorners, atNodes: nodeMeans(model) }
}

function nodeMeans({ layout: { mesh, nodes } }: PlateModel): StrainMap['atNodes'] {
  const { T } = mesh
  const [corners, count] = [mesh.X.length / 2, nodes.X.length / 2]
  const share = new Float64Array(T.length)
  const total = new Float64Array(corners)
  T.forEach((node, i) => {
    share[i] = elementMap(mesh, Math.floor(i / 3)).det
    total[node] += share[i]
  })
  for (let i = 0; i < T.length; i++) share[i] /= total[T[i]]
  return (strains) => {
    const means = new Float64Array(perCorner * count)
    for (let i = 0; i < T.length; i++) {
      const to = perCorner * T[i]
      for (let j = 0; j < perCorner; j++) means[to + j] += share[i] * strains[perCorner * i + j]
    }
    for (let e = 0; e < nodes.T.length; e += nodesPerElement) {
      for (let k = 0; k < 3; k++) {
        const [a, b] = [perCorner * nodes.T[e + k], perCorner * nodes.T[e + ((k + 1) % 3)]]
        const middle = perCorner * nodes.T[e + 3 + k]
        for (let j = 0; j < perCorner; j++) means[middle + j] = (means[a + j] + means[b + j]) / 2
      }
    }
    return means
  }
}

interface Work {
  readonly coupled: boolean
  readonly B: Float64Array
  readonly C: Float64Array
  /** Rotation of the bubble, φx and φy, from the nodes' unknowns: 2 rows of `columns − 2`. */
  readonly bubble: Float64Array
  /** Strain rows of the three points with the bubble eliminated. */
  readonly points: Float64Array
}

function workArrays(coupled: boolean): Work {
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  return {
    coupled,
    B: new Float64Array(rows * columns),
    C: new Float64Array(rows * rows),
    bubble: new Float64Array(2 * columns),
    points: new Float64Array(3 * rows * columns),
  }
}

/** −K_bb⁻¹ K_ba of one triangle. */
function bubbleRows({ coupled, B, C, bubble }: Work, map: TriangleMap, sectionAt: ReturnType<typeof sectionsOf>): void {
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  const free = columns - 2
  bubble.fill(0)
  let last: ReturnType<typeof sectionAt> | null = null
  for (let q = 0; q < integrationPoints.length; q++) {
    const point = integrationPoints[q]
    const section = sectionAt(q)
    if (section !== last) sectionMatrix(C, section, coupled)
    last = section
    strainMatrix(B, point, map, coupled)
    for (let b = 0; b < 2; b++) {
      for (let i = 0; i < rows; i++) {
        let stress = 0
        for (let k = 0; k < rows; k++) stress += C[k * rows + i] * B[k * columns + free + b]
        if (stress === 0) continue
        stress *= point.weight
        for (let j = 0; j < columns; j++) bubble[b * columns + j] += stress * B[i * columns + j]
      }
    }
  }
  const [xx, xy, yy] = [bubble[free], bubble[free + 1], bubble[columns + free + 1]]
  const det = xx * yy - xy * xy
  for (let j = 0; j < free; j++) {
    const [fx, fy] = [bubble[j], bubble[columns + j]]
    bubble[j] = -(yy * fx - xy * fy) / det
    bubble[columns + j] = -(xx * fy - xy * fx) / det
  }
}

/** Rows of curvature (and membrane strain) at the three corners into E. */
function cornerRows(E: Float64Array, start: number, work: Work, map: TriangleMap): void {
  const { coupled, B, bubble, points } = work
  const columns = strainColumns(coupled)
  const free = columns - 2
  const rows = coupled ? [0, 1, 2, 5, 6, 7] : [0, 1, 2]
  const block = rows.length * free
  for (let p = 0; p < 3; p++) {
    strainMatrix(B, strainPoints[p], map, coupled)
    for (let r = 0, to = p * block; r < rows.length; r++) {
      const row = rows[r] * columns
      const [bx, by] = [B[row + free], B[row + free + 1]]
      for (let j = 0; j < free; j++) points[to++] = B[row + j] + bx * bubble[j] + by * bubble[columns + j]
    }
  }
  for (let i = 0; i < block; i++) {
    const [p, q, r] = [points[i], points[block + i], points[2 * block + i]]
    const mean = (p + q + r) / 3
    E[start + i] = 2 * p - mean
    E[start + block + i] = 2 * q - mean
    E[start + 2 * block + i] = 2 * r - mean
  }
}
