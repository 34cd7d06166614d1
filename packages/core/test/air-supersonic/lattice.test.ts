import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/air/subsonic/strips.ts'
import { sourceLattice, sourceLatticeSize, tipInset } from '../../src/air/supersonic/lattice.ts'
import { supersonicFlow } from '../../src/air/supersonic/solution.ts'

const fin: readonly Point[] = [[0, 0], [0.3, 0], [0.3, 0.15], [0.15, 0.15]] // biome-ignore format: corners
const notched: readonly Point[] = [[0, 0], [1, 0], [1.2, 0.6], [1, 0.6], [0.8, 0.2], [0.5, 0.2], [0.6, 0.6], [0.3, 0.6]] // biome-ignore format: corners

describe('source lattice', () => {
  test('covers the fin to the inset of its last strip', () => {
    const lattice = sourceLattice(fin, { chordwise: 12, spanwise: 10 })
    const width = 0.15 / (10 + tipInset)
    const left = tipInset * width * (0.15 + 0.5 * tipInset * width)
    expect(lattice.area.reduce((sum, A) => sum + A, 0)).toBeCloseTo(0.15 * (0.3 + 0.15) * 0.5 - left, 10)
    expect(lattice.strips.length).toBe(10)
    expect(lattice.stripStart[1]).toBe(12)
  })

  test('panels tile the centre line of every piece', () => {
    for (const outline of [fin, notched]) {
      const { panels, strips } = sourceLattice(outline, { chordwise: 14, spanwise: 12 })
      strips.forEach(({ pieces }, s) => {
        for (const piece of pieces) {
          const lead = (piece.leadIn + piece.leadOut) / 2
          const trail = (piece.trailIn + piece.trailOut) / 2
          const own = panels.filter(({ strip, from, to }) => strip === s && from >= lead && to <= trail)
          expect(own[0].from).toBe(lead)
          expect(own[own.length - 1].to).toBe(trail)
          for (let p = 1; p < own.length; p++) expect(own[p].from).toBe(own[p - 1].to)
          for (const { from, to } of own) expect(to).toBeGreaterThan(from)
        }
      })
    }
  })

  test('normalwash is asked on the fin only', () => {
    const { receiveX, y, stripOf, strips } = sourceLattice(notched, { chordwise: 14, spanwise: 12 })
    receiveX.forEach((x, box) => {
      const { pieces } = strips[stripOf[box]]
      expect(y[box]).toBe(strips[stripOf[box]].middle)
      const inside = pieces.some(
        (p) => x >= (p.leadIn + p.leadOut) / 2 - 1e-12 && x <= (p.trailIn + p.trailOut) / 2 + 1e-12,
      )
      expect(inside).toBe(true)
    })
  })

  test('the default size comes near the boxes asked for', () => {
    for (const outline of [
      fin,
      notched,
      [
        [0, 0],
        [1, 0],
        [1, 0.1],
      ] as Point[],
    ]) {
      // biome-ignore format: corners
      for (const boxes of [60, 150, 400]) {
        const { area } = sourceLattice(outline, sourceLatticeSize(outline, boxes))
        const onFin = area.filter((A) => A > 0).length
        expect(onFin / boxes).toBeGreaterThan(0.75)
        expect(onFin / boxes).toBeLessThan(1.4)
      }
    }
  })

  test('subsonic flow is refused', () => {
    const lattice = sourceLattice(fin, { chordwise: 6, spanwise: 6 })
    expect(() => supersonicFlow(lattice, 1)).toThrow('supersonic surface at Mach 1')
    expect(() => supersonicFlow(lattice, Number.NaN)).toThrow('supersonic surface')
  })
})
