/**
 * The plate's element: a triangle with straight sides, deflection quadratic, rotations quadratic with a bubble, transverse
 * shear tied, in-plane displacements quadratic. It does not lock as the plate becomes thin.
 *
 *   w = Σ Nᵢ wᵢ      φ = Σ Nᵢ φᵢ + b φ₇      u = Σ Nᵢ uᵢ      i = 1 … 6,   b = 27 λ₁ λ₂ λ₃
 *   γ = ∇w + R φ
 *   stiffness ∫ εᵀ A ε + εᵀ B κ + κᵀ B ε + κᵀ D κ + γᵀ S γ      mass ∫ m (w² + u² + v²) + I (φx² + φy²)
 *
 * R ties the shear (tied-shear.ts). The bubble's two unknowns are eliminated within the element; its mass is left out. Source: Bathe, Brezzi & Cho, The MITC7 and MITC9 plate bending elements, Computers & Structures 32 (1989)
 * 797–814 (recalled; the tests measure its orders of convergence).
 *
 * Nodes: corners 0 1 2, then the middles of sides 0–1, 1–2, 2–0. Unknowns a node: w, φx, φy and, when coupled, u, v.
 */
import { packed } from '../numeric/sparse.ts'
import type { PlateSection } from './section.ts'
import { integrationPoints, type ReferencePoint } from './tied-shear.ts'

export const nodesPerElement = 6
const bubble = 6

/** Derivatives of x, y by r, s, and the other way round; `det` is twice the triangle's area. */
export interface TriangleMap {
  readonly xr: number
  readonly yr: number
  readonly xs: number
  readonly ys: number
  readonly rx: number
  readonly ry: number
  readonly sx: number
  readonly sy: number
  readonly det: number
}

export function triangleMap(X: Float64Array, a: number, b: number, c: number): TriangleMap {
  const [xr, yr] = [X[2 * b] - X[2 * a], X[2 * b + 1] - X[2 * a + 1]]
  const [xs, ys] = [X[2 * c] - X[2 * a], X[2 * c + 1] - X[2 * a + 1]]
  const det = xr * ys - yr * xs
  return { xr, yr, xs, ys, rx: ys / det, ry: -xs / det, sx: -yr / det, sy: xr / det, det }
}

/** Rows of the strain matrix: κxx κyy κxy γxz γyz, then εxx εyy εxy when coupled. */
export const strainRows = (coupled: boolean): number => (coupled ? 8 : 5)

/** Columns of the strain matrix: the nodes' unknowns, then the bubble's φx, φy. */
export const strainColumns = (coupled: boolean): number => nodesPerElement * (coupled ? 5 : 3) + 2

/** Strain matrix at a point, row-major, into `B`: strains from unknowns. */
export function strainMatrix(B: Float64Array, point: ReferencePoint, map: TriangleMap, coupled: boolean): void {
  const perNode = coupled ? 5 : 3
  const columns = strainColumns(coupled)
  const { xr, yr, xs, ys, rx, ry, sx, sy } = map
  B.fill(0)
  for (let i = 0; i <= bubble; i++) {
    const Nx = point.Nr[i] * rx + point.Ns[i] * sx
    const Ny = point.Nr[i] * ry + point.Ns[i] * sy
    const x = i === bubble ? columns - 2 : i * perNode + 1 // column of φx; φy follows
    B[x] = Nx
    B[columns + x + 1] = Ny
    B[2 * columns + x] = Ny
    B[2 * columns + x + 1] = Nx
    const [rr, rs, sr, ss] = point.tiedShear[i]
    const [rFromX, sFromX] = [rr * xr + sr * xs, rs * xr + ss * xs]
    const [rFromY, sFromY] = [rr * yr + sr * ys, rs * yr + ss * ys]
    B[3 * columns + x] = rx * rFromX + sx * sFromX
    B[3 * columns + x + 1] = rx * rFromY + sx * sFromY
    B[4 * columns + x] = ry * rFromX + sy * sFromX
    B[4 * columns + x + 1] = ry * rFromY + sy * sFromY
    if (i === bubble) continue
    B[3 * columns + x - 1] = Nx
    B[4 * columns + x - 1] = Ny
    if (!coupled) continue
    B[5 * columns + x + 2] = Nx
    B[6 * columns + x + 3] = Ny
    B[7 * columns + x + 2] = Ny
    B[7 * columns + x + 3] = Nx
  }
}

/** Section stiffness over the rows of the strain matrix, row-major, into `C`. */
export function sectionMatrix(C: Float64Array, { A, B, D, S }: PlateSection, coupled: boolean): void {
  const rows = strainRows(coupled)
  C.fill(0)
  for (let i = 0; i < 3; i++) {
    for (let j = 0; j < 3; j++) {
      C[i * rows + j] = D[3 * i + j]
      if (!coupled) continue
      C[i * rows + 5 + j] = B[3 * i + j]
      C[(5 + j) * rows + i] = B[3 * i + j]
      C[(5 + i) * rows + 5 + j] = A[3 * i + j]
    }
  }
  for (let i = 0; i < 2; i++) for (let j = 0; j < 2; j++) C[(3 + i) * rows + 3 + j] = S[2 * i + j]
}

/** Work arrays of one kind of element, and its stiffness with the bubble still in, packed by columns (i ≤ j). */
export interface ElementScratch {
  readonly coupled: boolean
  readonly B: Float64Array
  readonly C: Float64Array
  readonly CB: Float64Array
  readonly K: Float64Array
  readonly mass: Float64Array
}

export function elementScratch(coupled: boolean): ElementScratch {
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  return {
    coupled,
    B: new Float64Array(rows * columns),
    C: new Float64Array(rows * rows),
    CB: new Float64Array(rows * columns),
    K: new Float64Array(packed(columns)),
    mass: new Float64Array(2 * packed(nodesPerElement)),
  }
}

/** Stiffness into `scratch.K`, bubble eliminated: of its entries those of the nodes' unknowns are valid. */
export function elementStiffness(
  scratch: ElementScratch,
  map: TriangleMap,
  sectionAt: (point: number) => PlateSection,
): void {
  fullStiffness(scratch, map, sectionAt)
  eliminateBubble(scratch.K, strainColumns(scratch.coupled))
}

function fullStiffness(
  { coupled, B, C, CB, K }: ElementScratch,
  map: TriangleMap,
  sectionAt: (point: number) => PlateSection,
): void {
  const [rows, columns] = [strainRows(coupled), strainColumns(coupled)]
  K.fill(0)
  let last: PlateSection | null = null
  for (const [q, point] of integrationPoints.entries()) {
    const section = sectionAt(q)
    if (section !== last) sectionMatrix(C, section, coupled)
    last = section
    strainMatrix(B, point, map, coupled)
    const weight = point.weight * map.det
    CB.fill(0)
    for (let i = 0; i < rows; i++) {
      for (let k = 0; k < rows; k++) {
        const c = weight * C[i * rows + k]
        if (c !== 0) for (let j = 0; j < columns; j++) CB[i * columns + j] += c * B[k * columns + j]
      }
    }
    for (let i = 0; i < rows; i++) {
      for (let j = 0, p = 0; j < columns; j++) {
        const cb = CB[i * columns + j]
        if (cb === 0) p += j + 1
        else for (let k = 0; k <= j; k++) K[p++] += cb * B[i * columns + k]
      }
    }
  }
}

/** Eliminates the last two unknowns, the last first: K ← K − k kᵀ / d. */
function eliminateBubble(K: Float64Array, columns: number): void {
  for (let last = columns - 1; last >= columns - 2; last--) {
    const column = packed(last)
    const d = K[column + last]
    for (let j = 0, p = 0; j < last; j++) {
      const factor = K[column + j] / d
      for (let k = 0; k <= j; k++) K[p++] -= factor * K[column + k]
    }
  }
}

/** The bubble's φx, φy that go with the nodes' unknowns `a` when no load acts on it. */
export function bubbleRotation(
  scratch: ElementScratch,
  map: TriangleMap,
  sectionAt: (point: number) => PlateSection,
  a: ArrayLike<number>,
): [number, number] {
  const { K, coupled } = scratch
  fullStiffness(scratch, map, sectionAt)
  const columns = strainColumns(coupled)
  const [x, y] = [packed(columns - 2), packed(columns - 1)]
  let [fx, fy] = [0, 0]
  for (let i = 0; i < columns - 2; i++) {
    fx -= K[x + i] * a[i]
    fy -= K[y + i] * a[i]
  }
  const [xx, xy, yy] = [K[x + columns - 2], K[y + columns - 2], K[y + columns - 1]]
  const det = xx * yy - xy * xy
  return [(yy * fx - xy * fy) / det, (xx * fy - xy * fx) / det]
}

/** ∫ m Nᵢ Nⱼ and ∫ I Nᵢ Nⱼ, packed by columns (i ≤ j), one after the other into `scratch.mass`. */
export function elementMass(
  { mass }: ElementScratch,
  map: TriangleMap,
  sectionAt: (point: number) => PlateSection,
): void {
  mass.fill(0)
  const entries = packed(nodesPerElement)
  for (const [q, { N, weight }] of integrationPoints.entries()) {
    const { massPerArea, rotaryInertia } = sectionAt(q)
    const [m, I] = [massPerArea * weight * map.det, rotaryInertia * weight * map.det]
    for (let j = 0, p = 0; j < nodesPerElement; j++) {
      for (let i = 0; i <= j; i++, p++) {
        mass[p] += m * N[i] * N[j]
        mass[entries + p] += I * N[i] * N[j]
      }
    }
  }
}
