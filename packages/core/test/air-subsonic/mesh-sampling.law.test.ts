import { describe, expect, test } from 'vitest'
import { type FieldMesh, meshSampling, weightedSums } from '../../src/air/subsonic/mesh-sampling.ts'

/** A unit square sheared by 0.4, n × n cells of two triangles, nodes moved about by a fixed pattern. */
function sheared(n: number, slot = false): FieldMesh {
  const at = (i: number, j: number) => j * (n + 1) + i
  const X = new Float64Array(2 * (n + 1) ** 2)
  for (let j = 0; j <= n; j++) {
    for (let i = 0; i <= n; i++) {
      const inside = i > 0 && i < n && j > 0 && j < n ? 0.25 / n : 0
      X[2 * at(i, j)] = i / n + 0.4 * (j / n) + inside * Math.sin(3 * i + 5 * j)
      X[2 * at(i, j) + 1] = j / n + inside * Math.cos(7 * i + 2 * j)
    }
  }
  const T: number[] = []
  for (let j = 0; j < n; j++) {
    for (let i = 0; i < n; i++) {
      // The slot: the middle column of cells is missing in the upper half.
      if (slot && i === Math.floor(n / 2) && 2 * j >= n) continue
      T.push(at(i, j), at(i + 1, j), at(i + 1, j + 1), at(i, j), at(i + 1, j + 1), at(i, j + 1))
    }
  }
  return { X, T: Int32Array.from(T), perTriangle: 3 }
}

const values = ({ X }: FieldMesh, f: (x: number, y: number) => number) =>
  Float64Array.from({ length: X.length / 2 }, (_, i) => f(X[2 * i], X[2 * i + 1]))

const points = Array.from({ length: 60 }, (_, p) => {
  const y = (p * 0.618) % 1
  return { x: ((p * 0.377) % 1) + 0.4 * y, y }
})
const xs = points.map(({ x }) => x)
const ys = points.map(({ y }) => y)

describe('sampling of a mesh', () => {
  test('cubics and their slopes come back exactly, outside the mesh too', () => {
    const mesh = sheared(6)
    const f = (x: number, y: number) => 1 + 2 * x - y + 3 * x * y - x * x * y + 0.5 * y ** 3 + x ** 3
    const slope = (x: number, y: number) => 2 + 3 * y - 2 * x * y + 3 * x * x
    const [px, py] = [
      [...xs, -0.02, 1.43, 0.5],
      [...ys, 0.3, 1.01, -0.01],
    ]
    const sampling = meshSampling(mesh, px, py)
    const z = values(mesh, f)
    weightedSums(sampling, sampling.value, z).forEach((v, p) => {
      expect(v).toBeCloseTo(f(px[p], py[p]), 9)
    })
    weightedSums(sampling, sampling.slope, z).forEach((v, p) => {
      expect(v).toBeCloseTo(slope(px[p], py[p]), 8)
    })
  })

  test('a wave converges: at least order 3.5 for the value, 2.5 for the slope', () => {
    const f = (x: number, y: number) => Math.sin(3 * x + 1) * Math.cos(2 * y)
    const slope = (x: number, y: number) => 3 * Math.cos(3 * x + 1) * Math.cos(2 * y)
    const errors = [10, 20].map((n) => {
      const mesh = sheared(n)
      const sampling = meshSampling(mesh, xs, ys)
      const z = values(mesh, f)
      const worst = (weights: Float64Array, exact: (x: number, y: number) => number) =>
        weightedSums(sampling, weights, z).reduce((w, v, p) => Math.max(w, Math.abs(v - exact(xs[p], ys[p]))), 0)
      return [worst(sampling.value, f), worst(sampling.slope, slope)]
    })
    expect(Math.log2(errors[0][0] / errors[1][0])).toBeGreaterThan(3.5)
    expect(Math.log2(errors[0][1] / errors[1][1])).toBeGreaterThan(2.5)
    expect(errors[1][1]).toBeLessThan(8e-3)
  })

  test('does not look across a slot', () => {
    const mesh = sheared(10, true)
    // 1 on the left tongue, 0 on the right, joined smoothly in the lower half
    const side = (x: number, y: number) => (x - 0.4 * y < 0.55 ? 1 : 0)
    const z = values(mesh, (x, y) => (y > 0.45 ? side(x, y) : 0.5))
    const sampling = meshSampling(mesh, [0.45 + 0.36, 0.63 + 0.36], [0.9, 0.9])
    const [left, right] = weightedSums(sampling, sampling.value, z)
    expect(left).toBeCloseTo(1, 6)
    expect(right).toBeCloseTo(0, 6)
  })

  test('two triangles carry no more than a plane', () => {
    const mesh: FieldMesh = {
      X: Float64Array.of(0, 0, 1, 0, 1, 1, 0, 1),
      T: Int32Array.of(0, 1, 2, 0, 2, 3),
      perTriangle: 3,
    }
    const sampling = meshSampling(mesh, [0.3], [0.6])
    const z = values(mesh, (x, y) => 2 + 3 * x - y)
    expect(weightedSums(sampling, sampling.value, z)[0]).toBeCloseTo(2.3, 12)
    expect(weightedSums(sampling, sampling.slope, z)[0]).toBeCloseTo(3, 12)
  })
})
