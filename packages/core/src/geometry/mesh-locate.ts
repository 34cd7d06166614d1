/**
 * Which triangle of a mesh a point lies in, and where in it: natural coordinates r, s with
 * p = p₀ + r (p₁ − p₀) + s (p₂ − p₀).
 *
 * Triangles are kept by the cells of a square grid that their bounding boxes touch.
 */
import type { Mesh } from './mesh.ts'

export interface Location {
  readonly element: number
  readonly r: number
  readonly s: number
}

/** A point outside by this share of a triangle is still taken as on its side: rounding of points of the outline. */
const slack = 1e-9

/** The returned function answers null for a point outside the mesh. */
export function meshLocator({ X, T }: Mesh): (x: number, y: number) => Location | null {
  const grid = makeGrid(X, T.length / 3)
  const { column, row, columns } = grid
  const cells: number[][] = Array.from({ length: columns * grid.rows }, () => [])
  for (let e = 0; e < T.length / 3; e++) {
    const xs = [0, 1, 2].map((k) => X[2 * T[3 * e + k]])
    const ys = [0, 1, 2].map((k) => X[2 * T[3 * e + k] + 1])
    for (let i = row(Math.min(...ys)); i <= row(Math.max(...ys)); i++) {
      for (let j = column(Math.min(...xs)); j <= column(Math.max(...xs)); j++) cells[i * columns + j].push(e)
    }
  }
  return (x, y) => {
    let best: Location | null = null
    let most = -slack
    for (const element of cells[row(y) * columns + column(x)]) {
      const [a, b, c] = [2 * T[3 * element], 2 * T[3 * element + 1], 2 * T[3 * element + 2]]
      const [xr, yr, xs, ys] = [X[b] - X[a], X[b + 1] - X[a + 1], X[c] - X[a], X[c + 1] - X[a + 1]]
      const det = xr * ys - yr * xs
      const r = ((x - X[a]) * ys - (y - X[a + 1]) * xs) / det
      const s = (xr * (y - X[a + 1]) - yr * (x - X[a])) / det
      const inside = Math.min(r, s, 1 - r - s)
      if (inside >= most) [best, most] = [{ element, r, s }, inside]
    }
    return best
  }
}

function makeGrid(X: Float64Array, triangles: number) {
  let [left, right, bottom, top] = [X[0], X[0], X[1], X[1]]
  for (let i = 0; i < X.length; i += 2) {
    left = Math.min(left, X[i])
    right = Math.max(right, X[i])
    bottom = Math.min(bottom, X[i + 1])
    top = Math.max(top, X[i + 1])
  }
  // Cells of about the size of a triangle.
  const cell = Math.sqrt((2 * (right - left) * (top - bottom)) / triangles)
  const columns = Math.max(1, Math.ceil((right - left) / cell))
  const rows = Math.max(1, Math.ceil((top - bottom) / cell))
  const held = (value: number, most: number): number => Math.min(most - 1, Math.max(0, Math.floor(value)))
  return {
    columns,
    rows,
    column: (x: number): number => held((x - left) / cell, columns),
    row: (y: number): number => held((y - bottom) / cell, rows),
  }
}
