/** Patch tests: what a distorted element must do exactly. */
import fc from 'fast-check'
import { expect, test } from 'vitest'
import {
  addStiffness,
  type ElementRule,
  gradients,
  quadrilateral,
  triangle,
} from '../../src/bond/joint/plane-element.ts'
import { packed } from '../../src/numeric/sparse.ts'

const C = [9, 2, 0.5, 2, 5, -0.3, 0.5, -0.3, 1.5]
const corners = { 8: [0, 0, 1, 0, 1, 1, 0, 1], 6: [0, 0, 1, 0, 0, 1] } as const

/** Straight sides, middles in the middle, corners moved at will. */
function coordinates(nodes: 6 | 8, moved: readonly number[]): Float64Array {
  const n = nodes / 2
  const corner = corners[nodes].map((x, k) => x + moved[k])
  const X = new Float64Array(2 * nodes)
  X.set(corner)
  for (let k = 0; k < n; k++)
    for (let c = 0; c < 2; c++) X[2 * (n + k) + c] = (corner[2 * k + c] + corner[2 * ((k + 1) % n) + c]) / 2
  return X
}

function stiffness(rule: ElementRule, X: Float64Array) {
  const K = new Float64Array(packed(2 * rule.nodes))
  const dN = new Float64Array(16)
  let area = 0
  for (let k = 0; k < rule.points.length; k++) {
    const w = gradients(rule, k, X, dN)
    area += w
    addStiffness(K, rule.nodes, { dN, C, w })
  }
  const times = (u: ArrayLike<number>): number[] =>
    Array.from({ length: 2 * rule.nodes }, (_, i) => {
      let sum = 0
      for (let j = 0; j < 2 * rule.nodes; j++) sum += K[i <= j ? packed(j) + i : packed(i) + j] * u[j]
      return sum
    })
  return { times, area }
}

const shift = fc.array(fc.double({ min: -0.2, max: 0.2, noNaN: true }), { minLength: 8, maxLength: 8 })
const field = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 4, maxLength: 4 })

test.each([
  ['quadrilateral', quadrilateral, 8],
  ['triangle', triangle, 6],
] as const)('%s: a linear field stores ½ εᵀ C ε per area, rigid motions nothing', (_, rule, nodes) => {
  fc.assert(
    fc.property(shift, field, (moved, [a, b, c, d]) => {
      const X = coordinates(nodes, moved)
      const { times, area } = stiffness(rule, X)
      const u = Float64Array.from(X, (_, k) => {
        const [p, q] = [X[k & ~1], X[(k & ~1) + 1]]
        return k % 2 === 0 ? a * p + b * q + 0.7 : c * p + d * q - 0.2
      })
      const strain = [a, d, b + c]
      const stress = [0, 1, 2].map((i) => strain.reduce((sum, e, j) => sum + C[3 * i + j] * e, 0))
      const energy = strain.reduce((sum, e, k) => sum + e * stress[k], 0) * area
      const work = times(u).reduce((sum, f, k) => sum + f * u[k], 0)
      expect(Math.abs(work - energy)).toBeLessThan(1e-12)
      const turned = Float64Array.from(X, (_, k) => (k % 2 === 0 ? -X[k + 1] : X[k - 1]))
      for (const force of times(turned)) expect(Math.abs(force)).toBeLessThan(1e-12)
    }),
  )
})
