import { expect, test } from 'vitest'
import type { LineTraction } from '../../src/bond/joint/tee-lines.ts'
import { windowMeans } from '../../src/bond/joint/window-mean.ts'

const g = 1 / Math.sqrt(3)

/** A line of sides with the given ends whose tractions are f and g of the running length. */
function line(
  ends: readonly number[],
  normal: (s: number) => number,
  along: (s: number) => number = () => 0,
): LineTraction {
  const length = Float64Array.from(ends.slice(1), (end, n) => end - ends[n])
  const at = ends.slice(1).flatMap((end, n) => [-g, g].map((x) => (ends[n] + end) / 2 + (x * (end - ends[n])) / 2))
  const none = new Float64Array(4 * length.length)
  return {
    length,
    normal: Float64Array.from(at, normal),
    along: Float64Array.from(at, along),
    place: none,
    force: none,
  }
}

test('means of a linear traction are its values in the middle of the windows', () => {
  const { normal, along } = windowMeans(
    line(
      [0, 0.3, 1, 2.5, 3],
      (s) => 5 - s,
      (s) => 2 * s,
    ),
    0.8,
  )
  // windows start at 0, 0.15, 0.3, 0.65, 1, 1.75 and end at 3
  const middles = [2.2, 0, 0.15, 0.3, 0.65, 1, 1.75].map((s) => s + 0.4)
  expect([...normal]).toHaveLength(7)
  middles.forEach((s, k) => {
    expect(normal[k]).toBeCloseTo(5 - s, 12)
    expect(along[k]).toBeCloseTo(2 * s, 12)
  })
})

test('a line shorter than the length is one window', () => {
  const { normal } = windowMeans(
    line([0, 0.2, 0.5], (s) => 1 + s),
    1,
  )
  expect([...normal]).toHaveLength(1)
  expect(normal[0]).toBeCloseTo(1.25, 12)
})

test('the mean of a singular traction converges where its greatest value does not', () => {
  const power = (s: number) => s ** -0.4 // integrable, like stress at a re-entrant corner
  const graded = (n: number) => Array.from({ length: n + 1 }, (_, k) => (k === 0 ? 0 : 0.5 ** (n - k)))
  const [coarse, fine] = [8, 16].map((n) => line(graded(n), power))
  expect(Math.max(...fine.normal) / Math.max(...coarse.normal)).toBeGreaterThan(5)
  expect(windowMeans(fine, 1).normal[0]).toBeCloseTo(1 / 0.6, 2)
  expect(windowMeans(coarse, 1).normal[0]).toBeCloseTo(1 / 0.6, 1)
})
