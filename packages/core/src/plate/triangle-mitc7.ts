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
  /** Derivatives of the functions at a point. */
  readonly at: Float64Array
  readonly K: Float64Array
  readonly mass: Float64Array
}

export function elementScratch(coupled: boolean): ElementScratch {
  return {
    coupled,
    at: new Float64Array(6 * (bubble + 1)),
    K: new Float64Array(packed(strainColumns(coupled))),
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
  { coupled, K, at }: ElementScratch,
  map: TriangleMap,
  sectionAt: (point: number) => PlateSection,
): void {
  K.fill(0)
  for (let q = 0; q < integrationPoints.length; q++) {
    const point = integrationPoints[q]
    derivativesAt(at, point, map)
    addBending(K, at, sectionAt(q), { coupled, weight: point.weight * map.det })
  }
}

/** Of each function at a point: its derivatives by x and y, and its tied shear, (xz, yz) of φx then of φy: 6 numbers a function. */
function derivativesAt(at: Float64Array, point: ReferencePoint, { xr, yr, xs, ys, rx, ry, sx, sy }: TriangleMap): void {
  for (let i = 0, a = 0; i <= bubble; i++, a += 6) {
    at[a] = point.Nr[i] * rx + point.Ns[i] * sx
    at[a + 1] = point.Nr[i] * ry + point.Ns[i] * sy
    const tied = point.tiedShear[i]
    const rFromX = tied[0] * xr + tied[2] * xs
    const sFromX = tied[1] * xr + tied[3] * xs
    const rFromY = tied[0] * yr + tied[2] * ys
    const sFromY = tied[1] * yr + tied[3] * ys
    at[a + 2] = rx * rFromX + sx * sFromX
    at[a + 3] = ry * rFromX + sy * sFromX
    at[a + 4] = rx * rFromY + sx * sFromY
    at[a + 5] = ry * rFromY + sy * sFromY
  }
}

/**
 * Adds weight · strainᵀ C strain to K, packed. The strain matrix is mostly zeros: curvature and stretching have the columns (Nx, 0, Ny) and
 * (0, Ny, Nx) a function, so only what is not zero is multiplied. `test/plate` compares it with the product of whole matrices.
 */
function addBending(
  K: Float64Array,
  at: Float64Array,
  { A, B, D, S }: PlateSection,
  { coupled, weight }: { readonly coupled: boolean; readonly weight: number },
): void {
  const perNode = coupled ? 5 : 3
  for (let j = 0, c = 0; j <= bubble; j++, c += 6) {
    const x = weight * at[c]
    const y = weight * at[c + 1]
    const wx = S[0] * x + S[1] * y
    const wy = S[2] * x + S[3] * y
    const px = weight * (S[0] * at[c + 2] + S[1] * at[c + 3])
    const py = weight * (S[2] * at[c + 2] + S[3] * at[c + 3])
    const qx = weight * (S[0] * at[c + 4] + S[1] * at[c + 5])
    const qy = weight * (S[2] * at[c + 4] + S[3] * at[c + 5])
    const dx0 = D[0] * x + D[2] * y
    const dx1 = D[3] * x + D[5] * y
    const dx2 = D[6] * x + D[8] * y
    const dy0 = D[1] * y + D[2] * x
    const dy1 = D[4] * y + D[5] * x
    const dy2 = D[7] * y + D[8] * x
    const phi = j === bubble ? bubble * perNode : j * perNode + 1
    const columnW = packed(phi - 1)
    const columnX = packed(phi)
    const columnY = packed(phi + 1)
    for (let i = 0, r = 0; i <= j; i++, r += 6) {
      const Nx = at[r]
      const Ny = at[r + 1]
      const fx = at[r + 2]
      const fy = at[r + 3]
      const gx = at[r + 4]
      const gy = at[r + 5]
      const row = i === bubble ? bubble * perNode : i * perNode + 1
      K[columnX + row] += Nx * dx0 + Ny * dx2 + fx * px + fy * py
      K[columnY + row] += Nx * dy0 + Ny * dy2 + fx * qx + fy * qy
      K[columnY + row + 1] += Ny * dy1 + Nx * dy2 + gx * qx + gy * qy
      if (i < j) K[columnX + row + 1] += Ny * dx1 + Nx * dx2 + gx * px + gy * py
      if (i === bubble) continue
      K[columnX + row - 1] += Nx * px + Ny * py
      K[columnY + row - 1] += Nx * qx + Ny * qy
      if (j === bubble) continue
      K[columnW + row - 1] += Nx * wx + Ny * wy
      if (i === j) continue
      K[columnW + row] += fx * wx + fy * wy
      K[columnW + row + 1] += gx * wx + gy * wy
    }
    if (coupled) addStretching(K, at, { A, B, x, y, j })
  }
}

interface StretchingColumn {
  readonly A: PlateSection['A']
  readonly B: PlateSection['B']
  /** Weighted derivatives of function j. */
  readonly x: number
  readonly y: number
  readonly j: number
}

/** Stretching and its coupling with bending, of the columns of function j. */
function addStretching(K: Float64Array, at: Float64Array, { A, B, x, y, j }: StretchingColumn): void {
  const ax0 = A[0] * x + A[2] * y
  const ax1 = A[3] * x + A[5] * y
  const ax2 = A[6] * x + A[8] * y
  const ay0 = A[1] * y + A[2] * x
  const ay1 = A[4] * y + A[5] * x
  const ay2 = A[7] * y + A[8] * x
  const bx0 = B[0] * x + B[2] * y
  const bx1 = B[3] * x + B[5] * y
  const bx2 = B[6] * x + B[8] * y
  const by0 = B[1] * y + B[2] * x
  const by1 = B[4] * y + B[5] * x
  const by2 = B[7] * y + B[8] * x
  const phi = j === bubble ? 5 * bubble : 5 * j + 1
  const columnX = packed(phi)
  const columnY = packed(phi + 1)
  const columnU = packed(phi + 2)
  const columnV = packed(phi + 3)
  for (let i = 0, r = 0; i <= j; i++, r += 6) {
    const Nx = at[r]
    const Ny = at[r + 1]
    const row = i === bubble ? 5 * bubble : 5 * i + 1
    const xx = Nx * bx0 + Ny * bx2
    const yx = Ny * bx1 + Nx * bx2
    const xy = Nx * by0 + Ny * by2
    const yy = Ny * by1 + Nx * by2
    if (i < bubble && i < j) {
      K[columnX + row + 2] += xx
      K[columnX + row + 3] += yx
      K[columnY + row + 2] += xy
      K[columnY + row + 3] += yy
    }
    if (j === bubble) continue
    K[columnU + row] += xx
    K[columnU + row + 1] += yx
    K[columnV + row] += xy
    K[columnV + row + 1] += yy
    K[columnU + row + 2] += Nx * ax0 + Ny * ax2
    K[columnV + row + 2] += Nx * ay0 + Ny * ay2
    K[columnV + row + 3] += Ny * ay1 + Nx * ay2
    if (i < j) K[columnU + row + 3] += Ny * ax1 + Nx * ax2
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
