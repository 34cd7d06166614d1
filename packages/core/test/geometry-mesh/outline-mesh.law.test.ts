import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { type Mesh, triangleCount } from '../../src/geometry/mesh.ts'
import { meshOutline } from '../../src/geometry/outline-mesh.ts'
import type { Point } from '../../src/geometry/point.ts'

/** Shoelace, written out. */
function polygonArea(outline: readonly Point[]): number {
  let twice = 0
  outline.forEach(([x, y], i) => {
    const [u, v] = outline[(i + 1) % outline.length]
    twice += (x - outline[0][0]) * (v - outline[0][1]) - (u - outline[0][0]) * (y - outline[0][1])
  })
  return twice / 2
}

function corners({ X, T }: Mesh, t: number): Point[] {
  return [0, 1, 2].map((k): Point => [X[2 * T[3 * t + k]], X[2 * T[3 * t + k] + 1]])
}

function smallestAngle(points: readonly Point[]): number {
  return Math.min(
    ...points.map((p, i) => {
      const [q, r] = [points[(i + 1) % 3], points[(i + 2) % 3]]
      const [ux, uy, vx, vy] = [q[0] - p[0], q[1] - p[1], r[0] - p[0], r[1] - p[1]]
      return Math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)
    }),
  )
}

const degrees = (angle: number): number => (angle * 180) / Math.PI

/** Everything a mesh must be, whatever the outline: what is wrong with this one. */
function faults(outline: readonly Point[], mesh: Mesh): string[] {
  const { X, T, boundary } = mesh
  const n = X.length / 2
  const found: string[] = []
  let sum = 0
  const sides = new Set<number>()
  for (let t = 0; t < triangleCount(mesh); t++) {
    const area = polygonArea(corners(mesh, t))
    if (!(area > 0)) found.push(`triangle ${t} has area ${area}`)
    sum += area
    for (let k = 0; k < 3; k++) {
      const side = T[3 * t + k] * n + T[3 * t + ((k + 1) % 3)]
      if (sides.has(side)) found.push(`side ${k} of triangle ${t} belongs to two triangles`)
      sides.add(side)
    }
  }
  const area = polygonArea(outline)
  if (!(Math.abs(sum - area) <= 1e-12 * area)) found.push(`area ${sum}, outline ${area}`)
  // A side without a partner is on the boundary, and the list of boundary edges holds exactly those.
  const open = [...sides].filter((side) => !sides.has((side % n) * n + Math.floor(side / n)))
  const listed = new Set(boundary.map(({ a, b }) => a * n + b))
  if (open.length !== boundary.length || !open.every((side) => listed.has(side))) found.push('boundary edges differ')
  // One closed loop whose edges lie on their segments.
  const size = Math.max(...outline.flat().map(Math.abs))
  boundary.forEach(({ a, b, segment }, i) => {
    if (boundary[(i + 1) % boundary.length].a !== b) found.push(`boundary is open after edge ${i}`)
    const [from, to] = [outline[segment], outline[(segment + 1) % outline.length]]
    for (const node of [a, b]) {
      const off = (to[0] - from[0]) * (X[2 * node + 1] - from[1]) - (to[1] - from[1]) * (X[2 * node] - from[0])
      if (!(Math.abs(off) <= 1e-12 * size * size)) found.push(`node ${node} lies off segment ${segment}`)
    }
  })
  // Euler: no node is left out and there is no hole.
  if (triangleCount(mesh) !== 2 * n - boundary.length - 2) found.push('triangles, nodes and edges do not add up')
  return found
}

const named: Record<string, { outline: Point[]; size: number; leastAngle: number }> = {
  square: {
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
      [0, 1],
    ],
    size: 0.1,
    leastAngle: 30,
  },
  'swept trapezoid': {
    outline: [
      [0, 0],
      [0.3, 0],
      [0.27, 0.11],
      [0.15, 0.11],
    ],
    size: 0.012,
    leastAngle: 25,
  },
  'right triangle, tip collapsed to a point': {
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
    ],
    size: 0.08,
    leastAngle: 25,
  },
  'tip collapsed to two equal points': {
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
      [1, 1],
    ],
    size: 0.08,
    leastAngle: 25,
  },
  'tip collapsed but for rounding': {
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
      [1 - 1e-14, 1],
    ],
    size: 0.08,
    leastAngle: 25,
  },
  'tip a tenth of a millimetre wide': {
    outline: [
      [0, 0],
      [0.3, 0],
      [0.2, 0.1],
      [0.1999, 0.1],
    ],
    size: 0.012,
    leastAngle: 12,
  },
  'notched corner': {
    outline: [
      [0, 0],
      [0.3, 0],
      [0.3, 0.1],
      [0.25, 0.1],
      [0.25, 0.07],
      [0.15, 0.07],
      [0.1, 0.1],
    ],
    size: 0.012,
    leastAngle: 20,
  },
  'slot one millimetre wide': {
    outline: [
      [0, 0],
      [0.3, 0],
      [0.3, 0.1],
      [0.201, 0.1],
      [0.201, 0.03],
      [0.2, 0.03],
      [0.2, 0.1],
      [0.1, 0.1],
    ],
    size: 0.012,
    leastAngle: 15,
  },
  strake: {
    outline: [
      [0, 0],
      [0.5, 0],
      [0.5, 0.1],
      [0.4, 0.1],
      [0.3, 0.02],
    ],
    size: 0.012,
    leastAngle: 3.5,
  },
  'half ellipse of forty corners': {
    outline: Array.from(
      { length: 41 },
      (_, i): Point => [0.15 + 0.15 * Math.cos((i * Math.PI) / 40), 0.1 * Math.sin((i * Math.PI) / 40)],
    ),
    size: 0.012,
    leastAngle: 25,
  },
}

describe('outlines by name', () => {
  test.each(Object.entries(named))('%s', (_, { outline, size, leastAngle }) => {
    const mesh = meshOutline({ outline, size })
    expect(faults(outline, mesh)).toEqual([])
    const least = Math.min(...Array.from({ length: triangleCount(mesh) }, (_, t) => smallestAngle(corners(mesh, t))))
    expect(degrees(least)).toBeGreaterThan(leastAngle)
    const longest = Math.max(
      ...Array.from({ length: triangleCount(mesh) }, (_, t) => {
        const [p, q, r] = corners(mesh, t)
        return Math.max(Math.hypot(p[0] - q[0], p[1] - q[1]), Math.hypot(q[0] - r[0], q[1] - r[1]))
      }),
    )
    expect(longest).toBeLessThan(1.8 * size)
  })
})

/** Corners at growing angles around the origin, radii at will: simple, often far from convex. */
const star = fc
  .array(fc.record({ step: fc.integer({ min: 1, max: 20 }), radius: fc.integer({ min: 5, max: 100 }) }), {
    minLength: 4,
    maxLength: 14,
  })
  .map((parts) => {
    const total = parts.reduce((sum, { step }) => sum + step, 0)
    let turned = 0
    return parts.map(({ step, radius }): Point => {
      turned += step
      const angle = (2 * Math.PI * turned) / total
      return [radius * Math.cos(angle), radius * Math.sin(angle)]
    })
  })
  .filter((outline) =>
    outline.every((p, i) => {
      const q = outline[(i + 1) % outline.length]
      return p[0] * q[1] - p[1] * q[0] > 0
    }),
  )

/** Points of a grid joined in the order given, crossings undone by reversing the part between them. */
const untangled = fc
  .uniqueArray(fc.tuple(fc.integer({ min: 0, max: 12 }), fc.integer({ min: 0, max: 12 })), {
    minLength: 4,
    maxLength: 9,
    selector: ([x, y]) => 100 * x + y,
  })
  .map(untangle)
  .filter((outline): outline is Point[] => outline !== null)

function untangle(points: readonly Point[]): Point[] | null {
  const path = [...points]
  const n = path.length
  const side = (a: Point, b: Point, c: Point) =>
    Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]))
  for (let round = 0; round < 200; round++) {
    let crossed = false
    for (let i = 0; i < n && !crossed; i++) {
      for (let j = i + 2; j < n && !crossed; j++) {
        if (i === 0 && j === n - 1) continue
        const [a, b, c, d] = [path[i], path[i + 1], path[j], path[(j + 1) % n]]
        if (side(a, b, c) * side(a, b, d) > 0 || side(c, d, a) * side(c, d, b) > 0) continue
        const product = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)]
        if (product.some((s) => s === 0)) return null
        path.splice(i + 1, j - i, ...path.slice(i + 1, j + 1).reverse())
        crossed = true
      }
    }
    if (crossed) continue
    if (path.some((p, i) => side(path[(i + n - 1) % n], p, path[(i + 1) % n]) === 0)) return null
    return polygonArea(path) > 0 ? path : path.reverse()
  }
  return null
}

test('500 random star-shaped outlines', () => {
  fc.assert(
    fc.property(star, fc.integer({ min: 8, max: 60 }), (outline, size) => {
      expect(faults(outline, meshOutline({ outline, size }))).toEqual([])
    }),
    { numRuns: 500, seed: 1 },
  )
})

test('500 random simple outlines', () => {
  fc.assert(
    fc.property(untangled, fc.integer({ min: 5, max: 40 }), (outline, tenths) => {
      expect(faults(outline, meshOutline({ outline, size: tenths / 10 }))).toEqual([])
    }),
    { numRuns: 500, seed: 2 },
  )
})

test('the same input gives the same mesh', () => {
  const { outline, size } = named['swept trapezoid']
  expect(meshOutline({ outline, size })).toEqual(meshOutline({ outline, size }))
})

test('a clockwise outline is refused', () => {
  expect(() =>
    meshOutline({
      outline: [
        [0, 0],
        [0, 1],
        [1, 0],
      ],
      size: 0.1,
    }),
  ).toThrow(/counter-clockwise/)
})
