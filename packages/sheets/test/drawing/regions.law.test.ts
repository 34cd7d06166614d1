import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { XY } from '../../src/drawing/drawing.ts'
import { cellsAbove, contour, outlineOf, regionBeyond, withoutHoles } from '../../src/drawing/regions.ts'

/** A square of 10 by 10 in n × n cells of two triangles. */
function square(n: number): { nodes: XY[]; triangles: [number, number, number][] } {
  const nodes = Array.from(
    { length: (n + 1) ** 2 },
    (_, i): XY => [((i % (n + 1)) / n) * 10, (Math.floor(i / (n + 1)) / n) * 10],
  )
  const triangles = Array.from({ length: n * n }, (_, c): [number, number, number][] => {
    const a = Math.floor(c / n) * (n + 1) + (c % n)
    return [
      [a, a + 1, a + n + 2],
      [a, a + n + 2, a + n + 1],
    ]
  }).flat()
  return { nodes, triangles }
}

const areaOf = (loops: readonly (readonly XY[])[]): number =>
  loops.reduce(
    (sum, loop) =>
      sum +
      loop.reduce((own, [x0, y0], i) => {
        const [x1, y1] = loop[(i + 1) % loop.length]
        return own + (x0 * y1 - x1 * y0) / 2
      }, 0),
    0,
  )

const mesh = square(9)

test('the outline of a mesh is one loop of its area', () => {
  const loops = outlineOf(mesh)
  expect(loops).toHaveLength(1)
  expect(areaOf(loops)).toBeCloseTo(100, 9)
})

describe('of any field', () => {
  const fields = fc.array(fc.double({ min: -1, max: 1, noNaN: true }), { minLength: 100, maxLength: 100 })
  test('what lies above a level and what lies below it make the whole', () => {
    fc.assert(
      fc.property(fields, fc.double({ min: -0.9, max: 0.9, noNaN: true }), (values, level) => {
        const field = { ...mesh, values }
        const above = areaOf(regionBeyond(field, level))
        const below = areaOf(regionBeyond(field, level, 'below'))
        expect(above + below).toBeCloseTo(100, 6)
      }),
      { numRuns: 60 },
    )
  })
  test('without holes it fills the same area, each loop by itself', () => {
    fc.assert(
      fc.property(fields, (values) => {
        const loops = regionBeyond({ ...mesh, values }, 0)
        expect(areaOf(withoutHoles(loops))).toBeCloseTo(areaOf(loops), 6)
      }),
      { numRuns: 60 },
    )
  })
  test('the triangles above a level make up their own area', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 162, maxLength: 162 }),
        (values) => {
          const count = values.filter((value) => value >= 0.5).length
          expect(areaOf(cellsAbove(mesh, values, 0.5))).toBeCloseTo((100 * count) / 162, 6)
        },
      ),
      { numRuns: 60 },
    )
  })
})

test('a ring is an outline with a hole; cut open it is one path', () => {
  const values = mesh.nodes.map(([x, y]) => 4 - Math.abs(Math.hypot(x - 5, y - 5) - 3.5) * 4)
  const loops = regionBeyond({ ...mesh, values }, 0)
  expect(loops).toHaveLength(2)
  expect(withoutHoles(loops)).toHaveLength(1)
})

test('a line of level lies where a straight field meets it, from edge to edge, as one line', () => {
  const values = mesh.nodes.map(([x, y]) => x + 0.3 * y)
  const lines = contour({ ...mesh, values }, 5.05)
  expect(lines).toHaveLength(1)
  for (const [x, y] of lines[0]) expect(x + 0.3 * y).toBeCloseTo(5.05, 9)
  const Y = lines[0].map(([, y]) => y)
  expect([Math.min(...Y), Math.max(...Y)]).toEqual([0, 10])
})

test('where a field hardly differs from the level no line is drawn', () => {
  const values = mesh.nodes.map(([x]) => 1e-3 * (x - 5.05))
  expect(contour({ ...mesh, values }, 0)).toHaveLength(1)
  expect(contour({ ...mesh, values }, 0, 0.02)).toHaveLength(0)
})
