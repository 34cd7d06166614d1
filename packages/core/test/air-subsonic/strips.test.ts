import { describe, expect, test } from 'vitest'
import { finLattice, finLatticeSize } from '../../src/air/subsonic/lattice.ts'
import { finStrips, type Point } from '../../src/air/subsonic/strips.ts'

const trapezoid: Point[] = [
  [0, 0],
  [0.3, 0],
  [0.3, 0.15],
  [0.15, 0.15],
]

const areaOf = (outline: readonly Point[], count: number, inset = 0) =>
  finStrips(outline, count, inset).reduce(
    (sum, { yIn, yOut, pieces }) =>
      sum + pieces.reduce((s, p) => s + ((p.trailIn + p.trailOut - p.leadIn - p.leadOut) / 2) * (yOut - yIn), 0),
    0,
  )

describe('strips', () => {
  test('fill a trapezoid exactly, whichever way round it is drawn', () => {
    expect(areaOf(trapezoid, 7)).toBeCloseTo(0.03375, 12)
    expect(areaOf([...trapezoid].reverse(), 7)).toBeCloseTo(0.03375, 12)
  })

  test('the last strip ends a quarter of its width inside the tip', () => {
    const strips = finStrips(trapezoid, 8)
    const width = strips[0].yOut - strips[0].yIn
    expect(strips.length).toBe(8)
    expect(0.15 - strips[7].yOut).toBeCloseTo(width / 4, 12)
  })

  test('neighbours share their ends to the last bit', () => {
    const strips = finStrips(trapezoid, 9)
    for (let s = 1; s < strips.length; s++) {
      expect(strips[s].yIn).toBeCloseTo(strips[s - 1].yOut, 14)
      expect(strips[s].pieces[0].leadIn).toBeCloseTo(strips[s - 1].pieces[0].leadOut, 14)
    }
  })

  test('a strake: strips end where the leading edge bends', () => {
    const strake: Point[] = [
      [0, 0],
      [0.4, 0],
      [0.4, 0.16],
      [0.3, 0.16],
      [0.2, 0.05],
    ]
    expect(finStrips(strake, 10, 0).some(({ yOut }) => Math.abs(yOut - 0.05) < 1e-12)).toBe(true)
    expect(areaOf(strake, 10)).toBeCloseTo(0.02 * 0 + areaByShoelace(strake), 12)
  })

  test('a step in the leading edge along the flow is met from both sides', () => {
    const stepped: Point[] = [
      [0, 0],
      [0.4, 0],
      [0.4, 0.1],
      [0.2, 0.1],
      [0.2, 0.04],
      [0, 0.04],
    ]
    expect(areaOf(stepped, 9)).toBeCloseTo(areaByShoelace(stepped), 12)
  })

  test('a notch gives two pieces in a strip, with their own boxes', () => {
    const notched: Point[] = [
      [0, 0],
      [0.4, 0],
      [0.4, 0.1],
      [0.3, 0.1],
      [0.3, 0.05],
      [0.2, 0.05],
      [0.2, 0.1],
      [0, 0.1],
    ]
    expect(areaOf(notched, 8)).toBeCloseTo(areaByShoelace(notched), 12)
    const outer = finStrips(notched, 8).filter(({ yIn }) => yIn > 0.049)
    expect(outer.length).toBeGreaterThan(2)
    expect(outer.every(({ pieces }) => pieces.length === 2)).toBe(true)
    const lattice = finLattice(notched, { chordwise: 9, spanwise: 8, tipInset: 0 })
    expect(lattice.area.reduce((a, b) => a + b)).toBeCloseTo(areaByShoelace(notched), 12)
  })

  test('a many-sided ellipse is not cut at its corners, and keeps its area to second order', () => {
    const ellipse: Point[] = Array.from({ length: 181 }, (_, i) => {
      const t = (i * Math.PI) / 180
      return [-0.1 * Math.cos(t), 0.15 * Math.sin(t)]
    })
    expect(finStrips(ellipse, 8).length).toBe(8)
    const [coarse, fine] = [8, 16].map((n) => Math.abs(areaOf(ellipse, n) - areaByShoelace(ellipse)))
    expect(coarse / fine).toBeGreaterThan(2.5)
  })

  test('what lies below the body surface is not part of the fin', () => {
    const tabbed: Point[] = [...trapezoid.slice(0, 1), [0.05, -0.03], [0.25, -0.03], ...trapezoid.slice(1)]
    expect(areaOf(tabbed, 7)).toBeCloseTo(0.03375, 12)
  })
})

test('the size chosen for a fin holds about the boxes asked for, near square', () => {
  for (const outline of [
    trapezoid,
    trapezoid.map(([x, y]): Point => [x, 4 * y]),
    trapezoid.map(([x, y]): Point => [x, y / 3]),
  ]) {
    const size = finLatticeSize(outline, 120)
    const { count } = finLattice(outline, size)
    expect(count).toBeGreaterThan(95)
    expect(count).toBeLessThan(150)
  }
})

function areaByShoelace(outline: readonly Point[]): number {
  let sum = 0
  outline.forEach(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    sum += x0 * y1 - x1 * y0
  })
  return Math.abs(sum / 2)
}
