/**
 * Fibres. Axis 1 along the fibre; Pa, kg/m³. Printed units: 1 Msi = 6.894757 GPa, 1 lb/in³ = 27679.9 kg/m³.
 */
import type { Fibre } from './material.ts'
import { estimate, practice, read, recalled } from './property.ts'

const ASM = 'ASM Handbook vol. 21, Composites (2001), chapter Glass Fibers'
const TP3290 = 'NASA TP-3290 (1993), appendix A, constituent properties'
const isotropic = 'isotropic fibre: G = E / 2(1 + nu)'

export const eGlass: Fibre = {
  id: 'e-glass',
  name: 'E-glass',
  density: recalled(2580, `${ASM}, 2.54 to 2.60 g/cm³`),
  E1: recalled(72.4e9, `${ASM}, 72 to 73 GPa (10.5 Msi)`),
  E2: recalled(72.4e9, `${ASM}, isotropic`),
  G12: estimate(29.67e9, isotropic),
  nu12: recalled(0.22, `${ASM}, 0.20 to 0.22`),
}

export const sGlass: Fibre = {
  id: 's-glass',
  name: 'S-glass',
  density: read(2491, `${TP3290}, 0.090 lb/in³`),
  E1: read(85.5e9, `${TP3290}, 12.4 Msi`),
  E2: read(85.5e9, `${TP3290}, 12.4 Msi`),
  G12: read(35.6e9, `${TP3290}, 5.17 Msi`),
  nu12: read(0.2, TP3290),
}

export const carbonStandard: Fibre = {
  id: 'carbon-standard',
  name: 'Carbon, standard modulus',
  density: read(1744, `${TP3290}, 0.063 lb/in³`),
  E1: read(214e9, `${TP3290}, 31 Msi`),
  E2: read(13.8e9, `${TP3290}, 2.0 Msi`),
  G12: read(13.8e9, `${TP3290}, 2.0 Msi`),
  nu12: read(0.2, TP3290),
}

/** Of the peel ply; only its density is ever used. */
export const polyamide: Fibre = {
  id: 'polyamide',
  name: 'Polyamide (nylon)',
  density: practice(1140, 'polyamide 6.6; only the dry mass of a peel ply is used'),
  E1: practice(2.5e9, 'not used: a peel ply is pulled off'),
  E2: practice(2.5e9, 'not used: a peel ply is pulled off'),
  G12: practice(0.9e9, 'not used: a peel ply is pulled off'),
  nu12: practice(0.39, 'not used: a peel ply is pulled off'),
}

/** Of the release film; only its density is ever used. */
export const polyethylene: Fibre = {
  id: 'polyethylene',
  name: 'Polyethylene film',
  density: practice(920, 'low-density polyethylene, 910 to 940 kg/m³; only the mass and thickness of a film are used'),
  E1: practice(0.2e9, 'not used: a film is pulled off'),
  E2: practice(0.2e9, 'not used: a film is pulled off'),
  G12: practice(0.07e9, 'not used: a film is pulled off'),
  nu12: practice(0.45, 'not used: a film is pulled off'),
}
