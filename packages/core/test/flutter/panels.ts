/** Plates with exact modes for flutter tests: meshes of triangles and sine shapes of unit modal mass. */
import type { Mesh } from '../../src/geometry/mesh.ts'

/** a along x, b along y, each cell cut in two with alternating diagonals. */
export function rectangle(a: number, b: number, nx: number, ny: number): Mesh {
  const X: number[] = []
  const T: number[] = []
  for (let j = 0; j <= ny; j++) for (let i = 0; i <= nx; i++) X.push((a * i) / nx, (b * j) / ny)
  const node = (i: number, j: number): number => j * (nx + 1) + i
  for (let j = 0; j < ny; j++) {
    for (let i = 0; i < nx; i++) {
      const [p, q, r, s] = [node(i, j), node(i + 1, j), node(i + 1, j + 1), node(i, j + 1)]
      if ((i + j) % 2 === 0) T.push(p, q, r, p, r, s)
      else T.push(p, q, s, q, r, s)
    }
  }
  return { X: Float64Array.from(X), T: Int32Array.from(T), boundary: [] }
}

export interface Panel {
  readonly a: number
  readonly b: number
  /** Bending stiffness, and mass per area. */
  readonly D: number
  readonly mass: number
}

/** Simply supported on all edges: m half waves along the flow, one across. Frequency rising with m. */
export function sineMode({ a, b, D, mass }: Panel, m: number): { omega: number; w: (x: number, y: number) => number } {
  const omega = Math.PI ** 2 * ((m / a) ** 2 + (1 / b) ** 2) * Math.sqrt(D / mass)
  const size = 2 / Math.sqrt(mass * a * b)
  return { omega, w: (x, y) => size * Math.sin((m * Math.PI * x) / a) * Math.sin((Math.PI * y) / b) }
}

/** The same for an infinitely wide panel, over a strip of width b. */
export function wideSineMode(
  { a, b, D, mass }: Panel,
  m: number,
): { omega: number; w: (x: number, y: number) => number } {
  const omega = ((m * Math.PI) / a) ** 2 * Math.sqrt(D / mass)
  const size = Math.sqrt(2 / (mass * a * b))
  return { omega, w: (x) => size * Math.sin((m * Math.PI * x) / a) }
}

export function sampled({ X }: Mesh, w: (x: number, y: number) => number): Float64Array {
  return Float64Array.from({ length: X.length / 2 }, (_, i) => w(X[2 * i], X[2 * i + 1]))
}
