/**
 * Sheets to cut cores from, and tube walls. Pa, kg/m³. Axis 1 is lengthwise of the sheet (along the grain of the face
 * veneer, along the tube), 2 across it. Printed units: 1 ksi = 6.894757 MPa, 1 Msi = 6.894757 GPa.
 *
 * Where a source gives a range, the soft end is taken: a soft fin flutters earlier. Metals stand with their yield
 * strengths, because a fin that has taken a set is lost.
 */
import type { Property, SheetMaterial, Strengths } from './material.ts'
import { estimate, practice, read, recalled } from './property.ts'

const NEMA = 'NEMA LI 1 grades G10 and FR4, minimum values as printed in three public comparison charts'
const FR4 = "measured values of an FR4 sheet (ASTM D638, D790), a sheet supplier's public data page"
const G10_SHEAR =
  'in-plane shear modulus of G10 spans 4 to 8 GPa in memory (cryogenic G-10CR literature, Kasen et al., NBS 1980)'
const G10_S =
  'the printed 131 MPa is through-thickness punching; woven glass/epoxy in plane, 97 MPa in Daniel & Ishai table A.4 ' +
  '(recalled), lowered'
const WOVEN_G3 =
  'transverse shear of woven glass/epoxy at 0.50 fibre by the method of docs/methods/laminate.md, rounded down'

/** In-plane compression is printed once, edgewise: taken for both directions. */
const g10Strengths = (Xt: Property, Yt: Property, S: number): Strengths => ({
  Xt,
  Xc: read(241e6, `${NEMA}: compression edgewise 35 ksi`),
  Yt,
  Yc: read(241e6, `${NEMA}: compression edgewise 35 ksi`),
  S: practice(S, G10_S),
})

const g10: SheetMaterial = {
  id: 'g10',
  name: 'G10/FR4, minimum',
  density: read(1820, `${NEMA}: specific gravity 1.80 to 1.85`),
  E1: read(18.6e9, `${NEMA}: flexural modulus lengthwise 2.7 Msi`),
  E2: read(15.2e9, `${NEMA}: flexural modulus crosswise 2.2 Msi`),
  G12: practice(4.0e9, `${G10_SHEAR}; lower end`),
  nu12: practice(0.14, 'woven glass/epoxy 0.12 to 0.16'),
  G13: estimate(2.4e9, WOVEN_G3),
  G23: estimate(2.4e9, WOVEN_G3),
  strengths: g10Strengths(
    read(276e6, `${NEMA}: tension lengthwise 40 ksi`),
    read(241e6, `${NEMA}: tension crosswise 35 ksi`),
    60e6,
  ),
}

const g10Typical: SheetMaterial = {
  ...g10,
  id: 'g10-typical',
  name: 'G10/FR4, typical',
  density: read(1800, FR4),
  E1: read(24.3e9, `${FR4}: bending modulus lengthwise`),
  E2: read(20.0e9, `${FR4}: bending modulus crosswise`),
  G12: practice(5.5e9, `${G10_SHEAR}; middle`),
  strengths: g10Strengths(read(300e6, `${FR4}: tension lengthwise`), read(270e6, `${FR4}: tension crosswise`), 75e6),
}

const PLYWOOD = 'Handbook of Finnish Plywood (Finnish Forest Industries Federation, 2002), birch'
const birch: SheetMaterial = {
  id: 'birch-plywood',
  name: 'Birch plywood',
  density: recalled(680, `${PLYWOOD}: mean density`),
  E1: recalled(8.5e9, `${PLYWOOD}: bending along the face grain, thin sheets 9 to 11 GPa, thick 8.5; lower end`),
  E2: recalled(4.7e9, `${PLYWOOD}: bending across the face grain, 6.5 mm; a 3-ply sheet is much softer across`),
  G12: recalled(0.62e9, `${PLYWOOD}: mean panel shear modulus`),
  nu12: practice(0.05, 'cross-laminated veneers; little influence'),
  G13: recalled(0.169e9, `${PLYWOOD}: planar (rolling) shear along the face grain`),
  G23: recalled(0.123e9, `${PLYWOOD}: planar (rolling) shear across the face grain`),
  strengths: {
    Xt: recalled(37e6, `${PLYWOOD}: characteristic tension along`),
    Xc: recalled(26e6, `${PLYWOOD}: characteristic compression along`),
    Yt: recalled(29e6, `${PLYWOOD}: characteristic tension across`),
    Yc: recalled(20e6, `${PLYWOOD}: characteristic compression across`),
    S: recalled(9.5e6, `${PLYWOOD}: characteristic panel shear`),
  },
}

interface Metal {
  readonly id: string
  readonly name: string
  readonly source: string
  readonly density: number
  readonly E: number
  /** Yield in tension and compression, along and across. */
  readonly Ft: readonly [number, number]
  readonly Fc: readonly [number, number]
}

/** The printed G is up to 2 % above E / 2(1 + nu); the sheet is kept isotropic with the softer of the two. */
const metal = ({ id, name, source, density, E, Ft, Fc }: Metal): SheetMaterial => ({
  id,
  name,
  density: read(density, source),
  E1: read(E, source),
  E2: read(E, source),
  G12: isotropicShear(E, source),
  nu12: read(NU_ALUMINIUM, source),
  G13: isotropicShear(E, source),
  G23: isotropicShear(E, source),
  strengths: {
    Xt: read(Ft[0], `${source}: tensile yield, lengthwise`),
    Xc: read(Fc[0], `${source}: compressive yield, lengthwise`),
    Yt: read(Ft[1], `${source}: tensile yield, crosswise`),
    Yc: read(Fc[1], `${source}: compressive yield, crosswise`),
    S: estimate(Math.min(...Ft) / Math.sqrt(3), 'least tensile yield / √3 (von Mises)'),
  },
})

const NU_ALUMINIUM = 0.33
const isotropicShear = (E: number, source: string): Property =>
  estimate(
    E / (2 * (1 + NU_ALUMINIUM)),
    `E / 2(1 + nu) of the printed E and nu, so that the sheet is isotropic; ${source}`,
  )

const MIL = 'MIL-HDBK-5J (31 Jan 2003)'
const metals = [
  metal({
    id: 'aluminium-6061-t6',
    name: 'Aluminium 6061-T6 sheet',
    source: `${MIL}, table 3.6.2.0(b1), sheet 0.010-0.249 in, A basis`,
    density: 2713,
    E: 68.3e9,
    Ft: [248e6, 241e6],
    Fc: [241e6, 248e6],
  }),
  metal({
    id: 'aluminium-7075-t6',
    name: 'Aluminium 7075-T6 sheet',
    source: `${MIL}, tables 3.7.6.0(c2) and (d), A basis: clad sheet 0.063-0.187 in for strength, primary modulus`,
    density: 2796,
    E: 71.0e9,
    Ft: [448e6, 434e6],
    Fc: [441e6, 434e6],
  }),
]

const CARBON_PLATE =
  'balanced carbon cloth at 0.50 fibre, crimp factor 0.9, by the method of docs/methods/laminate.md, rounded down'
const HALF = 'half of the carbon fabric prepreg in Daniel & Ishai, table A.4 (recalled: Xt 963, Xc 900 MPa)'
const carbonPlate: SheetMaterial = {
  id: 'carbon-plate',
  name: 'Carbon plate, 0/90',
  density: estimate(1440, CARBON_PLATE),
  E1: estimate(51e9, CARBON_PLATE),
  E2: estimate(51e9, CARBON_PLATE),
  G12: estimate(2.7e9, CARBON_PLATE),
  nu12: estimate(0.03, CARBON_PLATE),
  G13: estimate(2.2e9, CARBON_PLATE),
  G23: estimate(2.2e9, CARBON_PLATE),
  strengths: {
    Xt: practice(480e6, HALF),
    Xc: practice(450e6, HALF),
    Yt: practice(480e6, HALF),
    Yc: practice(450e6, HALF),
    S: practice(50e6, 'below 71 MPa of the same table'),
  },
}

const TUBE = 'wound or wrapped walls vary with their winding angle; a soft guess: state your own'

interface Wall {
  readonly id: string
  readonly name: string
  readonly density: number
  readonly E: readonly [number, number]
  readonly G12: number
  readonly G13: number
  readonly nu12: number
  readonly X: number
  readonly Y: number
  readonly S: number
}

/** Axis 1 along the tube, 2 round it; as strong in compression as in tension at most by the lower of the two. */
const wall = ({ id, name, density, E, G12, G13, nu12, X, Y, S }: Wall): SheetMaterial => ({
  id,
  name,
  density: practice(density, TUBE),
  E1: practice(E[0], TUBE),
  E2: practice(E[1], TUBE),
  G12: practice(G12, TUBE),
  nu12: practice(nu12, TUBE),
  G13: practice(G13, TUBE),
  G23: practice(G13, TUBE),
  strengths: {
    Xt: practice(X, TUBE),
    Xc: practice(X, TUBE),
    Yt: practice(Y, TUBE),
    Yc: practice(Y, TUBE),
    S: practice(S, TUBE),
  },
})

const walls = [
  wall({
    id: 'glass-epoxy-tube',
    name: 'Glass-epoxy tube wall',
    density: 1850,
    E: [12e9, 16e9],
    G12: 4e9,
    G13: 2.5e9,
    nu12: 0.2,
    X: 120e6,
    Y: 150e6,
    S: 50e6,
  }),
  wall({
    id: 'carbon-epoxy-tube',
    name: 'Carbon-epoxy tube wall',
    density: 1500,
    E: [45e9, 45e9],
    G12: 4e9,
    G13: 2.3e9,
    nu12: 0.1,
    X: 300e6,
    Y: 300e6,
    S: 50e6,
  }),
  wall({
    id: 'paper-phenolic-tube',
    name: 'Paper-phenolic tube wall',
    density: 1250,
    E: [5e9, 4e9],
    G12: 1.5e9,
    G13: 1e9,
    nu12: 0.25,
    X: 45e6,
    Y: 35e6,
    S: 20e6,
  }),
]

export const sheetList: readonly SheetMaterial[] = [g10, g10Typical, birch, ...metals, carbonPlate, ...walls]
