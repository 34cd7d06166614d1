import { expect, test } from 'vitest'
import { meshLocator } from '../../src/geometry/mesh-locate.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'

const outline: Point[] = [
  [0, 0],
  [0.3, 0],
  [0.3, 0.1],
  [0.25, 0.1],
  [0.25, 0.05],
  [0.15, 0.05],
  [0.1, 0.1],
]
const mesh = meshOutline({ outline, size: 0.02 })
const locate = meshLocator(mesh)

/** x, y from a location. */
function back({ element, r, s }: { element: number; r: number; s: number }): Point {
  const [a, b, c] = [0, 1, 2].map((k): Point => {
    const node = mesh.T[3 * element + k]
    return [mesh.X[2 * node], mesh.X[2 * node + 1]]
  })
  return [a[0] + r * (b[0] - a[0]) + s * (c[0] - a[0]), a[1] + r * (b[1] - a[1]) + s * (c[1] - a[1])]
}

test('points inside are found, and found where they are; points outside are not', () => {
  let [inside, outside] = [0, 0]
  for (let i = 0; i <= 60; i++) {
    for (let j = 0; j <= 24; j++) {
      const [x, y] = [-0.015 + (0.33 * i) / 60, -0.01 + (0.12 * j) / 24]
      const place = locate(x, y)
      const notch = x > 0.15 && x < 0.25 && y > 0.05
      const cut = y > 0.05 && x < 0.15 && y - 0.05 > 0.15 - x
      const front = x < y
      const belongs = x > 0 && x < 0.3 && y > 0 && y < 0.1 && !notch && !cut && !front
      const near = [x, y, 0.3 - x, 0.1 - y, x - y, 0.2 - x - y].some((d) => Math.abs(d) < 1e-9)
      if (near) continue
      expect(place !== null, `(${x}, ${y})`).toBe(belongs)
      if (place === null) outside++
      else {
        inside++
        const [u, v] = back(place)
        expect(Math.hypot(u - x, v - y)).toBeLessThan(1e-12)
        expect(Math.min(place.r, place.s, 1 - place.r - place.s)).toBeGreaterThanOrEqual(-1e-9)
      }
    }
  }
  expect(inside).toBeGreaterThan(400)
  expect(outside).toBeGreaterThan(400)
})

test('every node and every middle of an outline edge is found', () => {
  for (let i = 0; i < mesh.X.length; i += 2) expect(locate(mesh.X[i], mesh.X[i + 1])).not.toBeNull()
  for (const { a, b } of mesh.boundary) {
    expect(locate((mesh.X[2 * a] + mesh.X[2 * b]) / 2, (mesh.X[2 * a + 1] + mesh.X[2 * b + 1]) / 2)).not.toBeNull()
  }
})
