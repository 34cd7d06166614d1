/**
 * The net of rigid yarns on a sphere against the equation that every such net obeys, solved on its own: with u and v along the
 * yarns, omega the angle between them and K the surface's curvature,
 *
 *   ∂²omega / ∂u ∂v = −K sin omega,   omega = π/2 along both first yarns
 */
import { describe, expect, test } from 'vitest'
import type { Place, Surface } from '../../src/pattern/built/built-bay.ts'
import { yarnNet } from '../../src/pattern/built/yarn-net.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'trellis-shear'
const rho = 0.1

/** Along the equator by a, then north by s. */
const sphere: Surface = {
  at: (a, s): Place => [
    rho * Math.cos(s / rho) * Math.sin(a / rho),
    rho * Math.sin(s / rho),
    rho * Math.cos(s / rho) * Math.cos(a / rho),
  ],
}

/** Goursat's problem on a square grid of `n` steps to the side u = v = reach, by the trapezoidal rule; omega at the corner. */
function yarnAngle(reach: number, n: number): number {
  const h = reach / n / rho
  let row = Array.from({ length: n + 1 }, () => Math.PI / 2)
  for (let i = 1; i <= n; i++) {
    const next = [Math.PI / 2]
    for (let j = 1; j <= n; j++) {
      const [sw, w, s] = [row[j - 1]!, next[j - 1]!, row[j]!]
      let corner = w + s - sw
      for (let k = 0; k < 4; k++)
        corner = w + s - sw - (h * h * (Math.sin(sw) + Math.sin(w) + Math.sin(s) + Math.sin(corner))) / 4
      next.push(corner)
    }
    row = next
  }
  return row[n]!
}

/** Shear in the cell whose middle lies `reach` along both yarns. */
function netShear(reach: number, step: number, angle: number, rootOf: Surface = sphere): number {
  const [c, s] = [Math.cos(angle), Math.sin(angle)]
  const at = [reach * (s + c), reach * (c - s)] as const
  const near = (p: readonly [number, number]) => Math.hypot(p[0] - at[0], p[1] - at[1]) < 0.45 * step
  const net = yarnNet({ bay: rootOf, start: 0, angle, step, reach: 1.5 * reach, wanted: near })
  return (net.cells[0]!.shear * 180) / Math.PI
}

// Worked out apart from the code, by the midpoint rule with 800 steps; 400 give the same five digits (source.md).
const rows = [
  { share: 0.25, printed: '3.580' },
  { share: 0.5, printed: '14.274' },
  { share: 0.75, printed: '31.675' },
]

describe('a net laid on a sphere', () => {
  test.each(rows)('shears at $share of the radius along both yarns', ({ share, printed }) => {
    const exact = 90 - (yarnAngle(share * rho, 1600) * 180) / Math.PI
    expect(agrees(exact, published(printed))).toBe(true)
    for (const angle of [0, Math.PI / 4, 0.3]) {
      const computed = Math.abs(netShear(share * rho, (share * rho) / 24.5, angle))
      const quantity = `shear ${share} R along both yarns of a sphere, warp at ${((angle * 180) / Math.PI).toFixed(0)}°, °`
      expectPublished({
        source,
        quantity,
        printed,
        computed,
        methodError: 0.004,
        why: 'steps of a fiftieth of the radius',
      })
    }
  })

  test('closes in on it with the square of the step', () => {
    const exact = 90 - (yarnAngle(0.6 * rho, 1600) * 180) / Math.PI
    const errors = [8.5, 17.5].map((n) => Math.abs(Math.abs(netShear(0.6 * rho, (0.6 * rho) / n, 0)) - exact))
    expect(errors[1]!).toBeLessThan(errors[0]! / 3)
  })

  test('has teeth: a radius of a tenth more is noticed', () => {
    const flatter: Surface = { at: (a, s) => sphere.at(a / 1.1, s / 1.1).map((v) => 1.1 * v) as unknown as Place }
    expect(agrees(Math.abs(netShear(0.05, 0.05 / 24.5, 0, flatter)), published('14.274'), 0.004)).toBe(false)
  })
})
