/**
 * The fin of the benchmarks: swept trapezoid, core with bevelled edges, five woven plies a side that step back from the free
 * edges. Invented; its numbers are typical of a hand-laid glass fin.
 */
import type { Point } from '@finwright/core/geometry/point.ts'
import { distanceToSegment } from '@finwright/core/geometry/point.ts'
import type { PlateSection, SectionPoint } from '@finwright/core/plate/section.ts'

/** Root 300 mm, tip 120 mm, span 110 mm, tip leading edge 150 mm behind the root's. Segment 0 is the root. */
export const outline: Point[] = [
  [0, 0],
  [0.3, 0],
  [0.27, 0.11],
  [0.15, 0.11],
]

export const supports = ['clamped', 'free', 'free', 'free'] as const

const core = { thickness: 3.2e-3, land: 0.8e-3, bevel: 0.012, E: 18e9, nu: 0.13, rho: 1850 }
const ply = { thickness: 0.25e-3, count: 5, stepBack: 0.02, E: 22e9, nu: 0.12, G: 4e9, rho: 1800 }

/** Plane-stress stiffness over (xx, yy, xy), as [Q11, Q12, Q66] of cloth that is alike along warp and weft. */
type Cloth = readonly [number, number, number]

const along: Cloth = [ply.E / (1 - ply.nu ** 2), (ply.nu * ply.E) / (1 - ply.nu ** 2), ply.G]
/** The same cloth at 45°. */
const bias: Cloth = [
  (along[0] + along[1]) / 2 + along[2],
  (along[0] + along[1]) / 2 - along[2],
  (along[0] - along[1]) / 2,
]
const coreCloth: Cloth = [
  core.E / (1 - core.nu ** 2),
  (core.nu * core.E) / (1 - core.nu ** 2),
  core.E / (2 * (1 + core.nu)),
]

/** `skew` turns the outermost ply of one face into a lone bias ply, so that bending and stretching couple. */
export function finSection(skew: boolean): (point: SectionPoint) => PlateSection {
  return ({ x, y }) => {
    const edge = Math.min(...[1, 2, 3].map((i) => distanceToSegment([x, y], outline[i], outline[(i + 1) % 4])))
    const h = core.land + (core.thickness - core.land) * Math.min(1, edge / core.bevel)
    const plies = Math.min(ply.count, 1 + Math.floor(edge / ply.stepBack))
    const layers = [{ z0: -h / 2, z1: h / 2, cloth: coreCloth, rho: core.rho }]
    for (let k = 0; k < plies; k++) {
      const z0 = h / 2 + k * ply.thickness
      const z1 = z0 + ply.thickness
      const cloth = k % 2 === 0 ? bias : along
      layers.push({ z0, z1, cloth, rho: ply.rho })
      layers.push({ z0: -z1, z1: -z0, cloth: skew && k === 0 ? along : cloth, rho: ply.rho })
    }
    return stacked(layers)
  }
}

function stacked(layers: readonly { z0: number; z1: number; cloth: Cloth; rho: number }[]): PlateSection {
  const [A, B, D] = [new Float64Array(9), new Float64Array(9), new Float64Array(9)]
  let [S, massPerArea, rotaryInertia] = [0, 0, 0]
  for (const { z0, z1, cloth, rho } of layers) {
    const [Q11, Q12, Q66] = cloth
    const Q = [Q11, Q12, 0, Q12, Q11, 0, 0, 0, Q66]
    for (let i = 0; i < 9; i++) {
      A[i] += Q[i] * (z1 - z0)
      B[i] += (Q[i] * (z1 ** 2 - z0 ** 2)) / 2
      D[i] += (Q[i] * (z1 ** 3 - z0 ** 3)) / 3
    }
    S += (5 / 6) * 3.5e9 * (z1 - z0)
    massPerArea += rho * (z1 - z0)
    rotaryInertia += (rho * (z1 ** 3 - z0 ** 3)) / 3
  }
  return { A, B, D, S: [S, 0, 0, S], massPerArea, rotaryInertia }
}
