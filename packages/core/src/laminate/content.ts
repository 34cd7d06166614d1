/**
 * What a ply holds: fibre, resin and voids by volume, from masses and densities.
 *
 *   Vf = (1 − Vv) / (1 + (ρf/ρm) (1/Wf − 1))      Vm likewise      Wf, Wm: by mass, without voids
 *   t  = FAW / (ρf Vf)                            FAW: dry cloth, kg/m²
 *
 * Sources: Chamis, NASA TM-83320 (1983), for the fractions with voids; the same relation without voids, and t, is ASTM D3171
 * Test Method II. Voids from a measured density: ASTM D2734, Vv = (Td − Md) / Td with 1/Td = Wm/ρm + Wf/ρf.
 */

export interface Densities {
  /** kg/m³. */
  readonly fibre: number
  readonly matrix: number
}

export interface Content {
  /** Volume fractions, 0-1; with the voids they add up to 1. */
  readonly fibre: number
  readonly matrix: number
}

/** Volume fractions from the fibre's share of the mass and the voids' share of the volume. */
export function contentByMass(density: Densities, { fibreMass, voids }: { fibreMass: number; voids: number }): Content {
  const matrixMass = 1 - fibreMass
  return {
    fibre: (1 - voids) / (1 + (density.fibre / density.matrix) * (1 / fibreMass - 1)),
    matrix: (1 - voids) / (1 + (density.matrix / density.fibre) * (1 / matrixMass - 1)),
  }
}

/** Thickness of a cured ply, m, from the dry cloth's areal mass. */
export const plyThickness = (arealMass: number, fibreDensity: number, fibreFraction: number): number =>
  arealMass / (fibreDensity * fibreFraction)

/** Density of a laminate with this content, kg/m³. */
export const laminateDensity = (density: Densities, { fibre, matrix }: Content): number =>
  density.fibre * fibre + density.matrix * matrix

/** Voids by volume from a measured density, kg/m³, and the fibre's share of the mass. */
export function voidFraction(
  density: Densities,
  { fibreMass, measured }: { fibreMass: number; measured: number },
): number {
  const theoretical = 1 / ((1 - fibreMass) / density.matrix + fibreMass / density.fibre)
  return (theoretical - measured) / theoretical
}
