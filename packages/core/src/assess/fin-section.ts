/** The finished fin: area, mass, thickness, and the laminate of every region. */
import { finPolygon, rootLength, tipMiddle } from '../geometry/fin-outline.ts'
import { area as polygonArea } from '../geometry/polygon.ts'
import type { Mat3 } from '../numeric/mat3.ts'
import type { FinSection, Matrix3 } from './assessment.ts'
import type { CanDesign } from './design.ts'
import { type FinPlate, laminateOf } from './fin-plate.ts'
import { curedPlies, plyFigures, type SkinPly } from './skins.ts'

export function finSection(design: CanDesign, plate: FinPlate): FinSection {
  const { outline, core } = design.fins
  return {
    area_m2: polygonArea(finPolygon(outline)),
    mass_kg: plate.mass,
    thickness_m: {
      root: plate.at(rootLength(outline) / 2, 0).laminate.h,
      tip: plate.at(...tipMiddle(outline)).laminate.h,
    },
    laminates: regions(plate).map((plies) => {
      const { h, A, B, D, inertia } = laminateOf(design, plies, { t: core.thickness, opposite: plate.opposite })
      return {
        region: regionName(plies),
        plies: plies.length,
        thickness_m: h,
        bendingStiffness_Nm: matrixRows(D),
        couplingStiffness_N: matrixRows(B),
        extensionalStiffness_N_m: matrixRows(A),
        arealMass_kg_m2: inertia.m0,
      }
    }),
    plies: plyFigures(curedPlies(design)),
  }
}

/** Every set of plies found on the face, the fullest first. */
function regions({ mesh: { X, T }, at }: FinPlate): readonly (readonly SkinPly[])[] {
  const found = new Map<string, readonly SkinPly[]>()
  for (let e = 0; e < T.length; e += 3) {
    const [a, b, c] = [2 * T[e], 2 * T[e + 1], 2 * T[e + 2]]
    const { plies } = at((X[a] + X[b] + X[c]) / 3, (X[a + 1] + X[b + 1] + X[c + 1]) / 3)
    found.set(regionName(plies), plies)
  }
  return [...found.values()].sort((p, q) => q.length - p.length)
}

const regionName = (plies: readonly SkinPly[]): string =>
  plies.length === 0 ? 'bare core' : `${plies.map(({ design }) => design.id).join(' ')} on the full core`

export function matrixRows(m: Mat3): Matrix3 {
  return [
    [m[0], m[1], m[2]],
    [m[3], m[4], m[5]],
    [m[6], m[7], m[8]],
  ]
}
