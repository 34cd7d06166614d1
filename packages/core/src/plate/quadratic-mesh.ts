/**
 * The mesh of triangles with a node added in the middle of every side: 6 nodes a triangle, corners first, then the middles of
 * sides 0–1, 1–2, 2–0. The mesh's own nodes keep their numbers.
 */
import type { Mesh } from '../geometry/mesh.ts'

export interface QuadraticMesh {
  /** Interleaved x, y; 2 per node. */
  readonly X: Float64Array
  /** 6 nodes per triangle. */
  readonly T: Int32Array
  /** Sides on the outline, counter-clockwise: start, middle, end. */
  readonly sides: readonly { readonly nodes: readonly [number, number, number]; readonly segment: number }[]
}

const kept = new WeakMap<Mesh, QuadraticMesh>()

/** The same object for the same mesh. */
export function quadraticMesh(mesh: Mesh): QuadraticMesh {
  const found = kept.get(mesh) ?? withMiddles(mesh)
  kept.set(mesh, found)
  return found
}

function withMiddles({ X, T, boundary }: Mesh): QuadraticMesh {
  const corners = X.length / 2
  const middles = new Map<number, number>()
  const added: number[] = []
  const middle = (a: number, b: number): number => {
    const key = Math.min(a, b) * corners + Math.max(a, b)
    const known = middles.get(key)
    if (known !== undefined) return known
    const node = corners + middles.size
    middles.set(key, node)
    added.push((X[2 * a] + X[2 * b]) / 2, (X[2 * a + 1] + X[2 * b + 1]) / 2)
    return node
  }
  const T6 = new Int32Array(2 * T.length)
  for (let e = 0; e < T.length; e += 3) {
    const [a, b, c] = [T[e], T[e + 1], T[e + 2]]
    T6.set([a, b, c, middle(a, b), middle(b, c), middle(c, a)], 2 * e)
  }
  return {
    X: Float64Array.from([...X, ...added]),
    T: T6,
    sides: boundary.map(({ a, b, segment }) => ({ nodes: [a, middle(a, b), b] as const, segment })),
  }
}

/**
 * The same nodes as a mesh of corner nodes only: each triangle in four. For drawing, and for whoever wants fields straight in
 * each triangle: a field's value at node i of the quadratic mesh is its value at node i here.
 */
export function fourfoldMesh({ X, T, sides }: QuadraticMesh): Mesh {
  const T3 = new Int32Array(2 * T.length)
  for (let e = 0; e < T.length; e += 6) {
    const [a, b, c, ab, bc, ca] = T.subarray(e, e + 6)
    T3.set([a, ab, ca, b, bc, ab, c, ca, bc, ab, bc, ca], 2 * e)
  }
  const boundary = sides.flatMap(({ nodes: [a, middle, b], segment }) => [
    { a, b: middle, segment },
    { a: middle, b, segment },
  ])
  return { X, T: T3, boundary }
}
