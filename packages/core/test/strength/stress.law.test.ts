/** Strains as fixed sums, plies judged by rows: the same numbers as the plain versions in plate/ and laminate/. */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { maximumStress } from '../../src/laminate/failure/maximum-stress.ts'
import { tsaiWu } from '../../src/laminate/failure/tsai-wu.ts'
import { laminate } from '../../src/laminate/laminate.ts'
import type { BuiltLayer } from '../../src/laminate/layer.ts'
import { plyStresses } from '../../src/laminate/ply-stress.ts'
import { fourfoldMesh } from '../../src/plate/quadratic-mesh.ts'
import { plateStatic } from '../../src/plate/static.ts'
import { cornerStrains, elementStrains } from '../../src/plate/strains.ts'
import { judged, worstByStress, worstByTsaiWu } from '../../src/strength/ply-judge.ts'
import { strainMap } from '../../src/strength/strain-map.ts'
import { indexMap, judgedNodes, worstOfTriangles, worstSpot } from '../../src/strength/stress-map.ts'
import { balanced, laminateReader, lopsided, plateOf } from './fin.ts'

describe.each([
  ['balanced', balanced, false],
  ['bends as it stretches', lopsided, true],
] as const)('%s', (_, layUp, coupled) => {
  const laminateAt = laminateReader(layUp)
  const model = plateOf(laminateAt)
  const solved = plateStatic(model, { pressure: (x, y) => 1e4 * (1 + x - 2 * y) })
  if (solved.kind !== 'solved') throw new Error(solved.kind)
  const map = strainMap(model)
  const strains = map.atCorners(solved.field)
  const plain = cornerStrains(elementStrains(model, solved.field))

  test('strains at the corners are those of the plate', () => {
    expect(model.layout.coupled).toBe(coupled)
    const most = [0, 1].map((half) =>
      Math.max(...plain.flatMap(({ membrane, curvature }) => [membrane, curvature][half].map(Math.abs))),
    )
    expect(most[0] > 0).toBe(coupled)
    plain.forEach(({ membrane, curvature }, corner) => {
      for (let j = 0; j < 3; j++) {
        expect(Math.abs(strains[6 * corner + j] - membrane[j])).toBeLessThanOrEqual(1e-9 * most[0])
        expect(Math.abs(strains[6 * corner + 3 + j] - curvature[j])).toBeLessThanOrEqual(1e-9 * most[1])
      }
    })
  })

  const nodes = judgedNodes(model.layout, laminateAt)

  test('the greatest index of the map is the worst spot', () => {
    const means = map.atNodes(strains)
    const indices = indexMap(nodes, means)
    const drawn = fourfoldMesh(model.layout.nodes).T
    expect(indices.length).toBe(drawn.length / 3)
    const spot = worstSpot(nodes, means)
    expect(Math.max(...indices)).toBe(spot.index)
    indices.forEach((index, e) => {
      if (drawn.subarray(3 * e, 3 * e + 3).includes(spot.node)) expect(index).toBe(spot.index)
    })
    const strain = Array.from(means.subarray(6 * spot.node, 6 * spot.node + 6))
    expect(spot.index).toBeCloseTo(bruteForce(nodes.laminates[spot.node].laminate, strain).stress, 12)
    const inner = worstSpot(nodes, means, undefined, (_, y) => y > 0.1)
    expect(inner.index).toBeLessThan(spot.index)
    expect(model.layout.nodes.X[2 * inner.node + 1]).toBeGreaterThan(0.1)
  })

  test('triangles judged one by one give what plain judging of the corners finds', () => {
    const atCorners = plain.map(
      ({ membrane, curvature }, corner) =>
        bruteForce(nodes.laminates[model.layout.mesh.T[corner]].laminate, [...membrane, ...curvature]).stress,
    )
    const most = Math.max(...atCorners)
    expect(worstOfTriangles(nodes, strains) / most).toBeCloseTo(1, 9)
  })
})

test('a strain that is the same in all triangles is its own mean; one that differs lies between', () => {
  const laminateAt = laminateReader(balanced)
  const model = plateOf(laminateAt)
  const map = strainMap(model)
  const same = Float64Array.from({ length: 18 * map.triangles }, (_, i) => [1, -2, 3, 0.5, 7, -4][i % 6])
  map.atNodes(same).forEach((value, i) => {
    expect(value).toBeCloseTo([1, -2, 3, 0.5, 7, -4][i % 6], 12)
  })
  const varied = Float64Array.from(same, (_, i) => Math.sin(i))
  const { T } = model.layout.mesh
  const means = map.atNodes(varied)
  for (const node of [0, 5, 20]) {
    const own = Array.from(T.keys()).filter((i) => T[i] === node)
    for (let j = 0; j < 6; j++) {
      const values = own.map((i) => varied[6 * i + j])
      expect(means[6 * node + j]).toBeGreaterThanOrEqual(Math.min(...values) - 1e-12)
      expect(means[6 * node + j]).toBeLessThanOrEqual(Math.max(...values) + 1e-12)
    }
  }
})

/** Every layer, both faces, both signs, by the criteria as they are. */
function bruteForce(own: ReturnType<typeof laminate>, strain: readonly number[]) {
  let [stress, interaction] = [0, 0]
  for (const sign of [1, -1]) {
    const signed = strain.map((value) => sign * value)
    const found = plyStresses(own, { strain: signed.slice(0, 3), curvature: signed.slice(3) })
    found.forEach(({ bottom, top }, i) => {
      const { strengths, lamina } = own.layers[i]
      if (strengths === null) return
      for (const { ply } of [bottom, top]) {
        stress = Math.max(stress, maximumStress.evaluate({ stress: ply, strengths, lamina }).index)
        interaction = Math.max(interaction, tsaiWu.evaluate({ stress: ply, strengths, lamina }).index)
      }
    })
  }
  return { stress, interaction }
}

describe('plies judged by rows', () => {
  const pressure = (min: number, max: number) => fc.double({ min, max, noNaN: true })
  const materials = fc.record({
    lamina: fc.record({
      ...{ E1: pressure(5e9, 150e9), E2: pressure(5e9, 20e9), G12: pressure(1e9, 8e9), nu12: pressure(0, 0.3) },
      ...{ G13: fc.constant(3e9), G23: fc.constant(3e9) },
    }),
    strengths: fc.record({
      ...{ Xt: pressure(50e6, 2e9), Xc: pressure(50e6, 2e9), Yt: pressure(20e6, 400e6) },
      ...{ Yc: pressure(20e6, 400e6), S: pressure(10e6, 100e6) },
    }),
  })
  const anyLaminate = fc
    .tuple(
      fc.tuple(materials, materials),
      fc.array(
        fc.record({
          material: fc.integer({ min: 0, max: 2 }),
          theta: fc.constantFrom(0, Math.PI / 4, -Math.PI / 4, Math.PI / 2, 0.3),
          t: pressure(1e-4, 3e-3),
        }),
        { minLength: 1, maxLength: 7 },
      ),
    )
    .map(([pair, stack]) =>
      laminate(
        stack.map(({ material, theta, t }, i): BuiltLayer => {
          // The third is a veil: not judged.
          const { lamina, strengths } = pair[Math.min(material, 1)]
          return { name: `${i}`, theta, t, lamina, density: 1800, strengths: material === 2 ? null : strengths }
        }),
      ),
    )
  const anyStrain = fc.tuple(...Array.from({ length: 6 }, () => pressure(-1, 1)))

  test('give the index of every layer, face and sign judged one by one', () => {
    fc.assert(
      fc.property(anyLaminate, anyStrain, (own, [a, b, c, d, e, f]) => {
        const strain = [a, b, c].map((v) => 2e-3 * v).concat([d, e, f])
        const plain = bruteForce(own, strain)
        const worst = { index: -1, face: -1 }
        const rows = judged(own)
        if (rows.faces === 0) {
          expect(plain.stress).toBe(0)
          return
        }
        const values = Float64Array.from(strain)
        const close = (found: number, wanted: number) => {
          expect(Math.abs(found - wanted)).toBeLessThanOrEqual(1e-9 * (wanted + 1e-6))
        }
        close(worstByStress(rows, values, 0, worst).index, plain.stress)
        close(worstByTsaiWu(rows, values, 0, worst).index, plain.interaction)
      }),
      { numRuns: 300 },
    )
  })
})
