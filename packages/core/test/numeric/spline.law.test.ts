import { expect, test } from 'vitest'
import { evenSpline } from '../../src/numeric/spline.ts'

const even = (x: number): Float64Array => Float64Array.of(Math.cos(2 * x), 1 / (1 + x * x))
const splined = (points: number, end = 2) => {
  const xs = Array.from({ length: points }, (_, i) => (end * i) / (points - 1))
  return { xs, f: evenSpline(xs, xs.map(even)) }
}
const error = (points: number, to: number): number => {
  const { f } = splined(points)
  let worst = 0
  for (let x = 0; x <= to; x += 0.001) {
    const [y, exact] = [f(x, new Float64Array(2)), even(x)]
    worst = Math.max(worst, Math.abs(y[0] - exact[0]), Math.abs(y[1] - exact[1]))
  }
  return worst
}

test('goes through its points and is held beyond them', () => {
  const { xs, f } = splined(7)
  for (const x of xs) {
    const y = f(x, new Float64Array(2))
    expect(y[0]).toBeCloseTo(even(x)[0], 14)
    expect(y[1]).toBeCloseTo(even(x)[1], 14)
  }
  expect([...f(9, new Float64Array(2))]).toEqual([...even(2)])
})

test('fourth order where the end is far: the slope at nought is that of an even function', () => {
  const errors = [11, 21, 41].map((points) => error(points, 1))
  expect(errors[2]).toBeLessThan(1e-5)
  expect(Math.log2(errors[0] / errors[1])).toBeGreaterThan(3.5)
  expect(Math.log2(errors[1] / errors[2])).toBeGreaterThan(3.5)
})

test('one point is a constant; two points from above nought a straight line', () => {
  const constant = evenSpline([0.3], [Float64Array.of(4)])
  expect([0, 0.3, 5].map((x) => constant(x, new Float64Array(1))[0])).toEqual([4, 4, 4])
  const line = evenSpline([1, 3], [Float64Array.of(2), Float64Array.of(6)])
  expect(line(2.5, new Float64Array(1))[0]).toBeCloseTo(5, 14)
})
