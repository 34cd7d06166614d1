import { expect, test } from 'vitest'
import { coreThickness, type EdgeProfile, shapedWidths } from '../../src/geometry/edge-profile.ts'
import type { FinOutline } from '../../src/geometry/fin-outline.ts'

const outline: FinOutline = {
  points: [
    [0, 0],
    [0, 0.1],
    [0.2, 0.1],
    [0.2, 0],
  ],
  edges: ['leading', 'tip', 'trailing'],
}
const bevel: EdgeProfile = { kind: 'bevel', width: 0.012, land: 0.0008 }
const round: EdgeProfile = { kind: 'round', width: 0.01, land: 0.0005 }
const square: EdgeProfile = { kind: 'square', width: 0, land: 0 }
const at = coreThickness({ outline, thickness: 0.0032, edges: { leading: bevel, tip: square, trailing: round } })

test('land at the edge, full thickness from the width inward, straight between', () => {
  expect(at([0, 0.05])).toBeCloseTo(0.0008, 15)
  expect(at([0.006, 0.05])).toBeCloseTo(0.002, 15)
  expect(at([0.012, 0.05])).toBeCloseTo(0.0032, 15)
  expect(at([0.1, 0.099])).toBe(0.0032)
})

test('a rounded edge is a quarter of an ellipse', () => {
  expect(at([0.2, 0.05])).toBeCloseTo(0.0005, 15)
  expect(at([0.195, 0.05])).toBeCloseTo(0.0005 + 0.0027 * Math.sqrt(0.75), 12)
})

test('a bevel runs on straight past a sharp corner', () => {
  const swept = coreThickness({
    outline: {
      ...outline,
      points: [
        [0, 0],
        [0.15, 0.11],
        [0.27, 0.11],
        [0.3, 0],
      ],
    },
    thickness: 0.0032,
    edges: { leading: bevel, tip: square, trailing: square },
  })
  // On the tip edge, 10 mm aft of the corner: square to the leading edge's line it is 10 · 110/186.01 mm deep.
  const depth = (0.01 * 110) / Math.hypot(150, 110)
  expect(swept([0.16, 0.11])).toBeCloseTo(0.0008 + (0.0024 * depth) / 0.012, 12)
})

test('two bevels meet in a mitre: the thinner counts', () => {
  const both = coreThickness({ outline, thickness: 0.0032, edges: { leading: bevel, tip: bevel, trailing: square } })
  expect(both([0.003, 0.094])).toBeCloseTo(0.0008 + 0.0024 * 0.25, 12)
  expect(shapedWidths({ leading: bevel, tip: square, trailing: round })).toEqual({
    leading: 0.012,
    tip: 0,
    trailing: 0.01,
  })
})
