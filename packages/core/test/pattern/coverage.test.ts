import { describe, expect, test } from 'vitest'
import { area } from '../../src/geometry/polygon.ts'
import { finCoverage } from '../../src/pattern/coverage.ts'
import { demo, stepped, tipStepsOnly } from './demo.ts'

const { outline, edges } = demo.fins

describe('plies on the face', () => {
  const coverage = finCoverage({ outline, edges, plies: stepped })

  test('all of them in the middle of the root, fewer towards the edges, in the order they are laid', () => {
    expect(coverage.pliesAt([0.18, 0.01])).toEqual([0, 1, 2, 3, 4, 5])
    expect(coverage.pliesAt([0.2, 0.105])).toEqual([4, 5])
    expect(coverage.pliesAt([0.2, 0.07])).toEqual([2, 3, 4, 5])
    expect(coverage.pliesAt([0.2, 0.12])).toEqual([])
  })

  test('peel ply is not there', () => {
    expect(coverage.plies.map(({ id }) => id)).toEqual(['P1', 'P2', 'P3', 'P4', 'P5', 'V1'])
  })

  test('full plies cover the whole fin', () => {
    const fin = ((0.3 + 0.12) / 2) * 0.11
    expect(area(coverage.plies[4]!.regions[0]!)).toBeCloseTo(fin, 15)
    expect(area(coverage.plies[0]!.regions[0]!)).toBeLessThan(0.4 * fin)
  })

  test('lines for the mesh: one run a stepped ply, and the bevels', () => {
    const stepLines = coverage.lines.filter(({ kind }) => kind === 'step')
    expect(stepLines.map(({ plies }) => plies)).toEqual([['P1'], ['P2'], ['P3'], ['P4']])
    expect(stepLines.every(({ points }) => points.length === 4)).toBe(true)
    const bevels = coverage.lines.filter(({ kind }) => kind === 'bevel')
    expect(bevels.map(({ points }) => points.length)).toEqual([2, 2])
  })
})

test('plies that end on the same line share it', () => {
  const twice = tipStepsOnly.map((ply) => ({ ...ply, stepBack: tipStepsOnly[0]!.stepBack }))
  const { lines } = finCoverage({ outline, edges, plies: twice })
  expect(lines.filter(({ kind }) => kind === 'step')).toMatchObject([{ plies: ['P1', 'P2', 'P3', 'P4', 'P5', 'V1'] }])
})
