/**
 * Thermal properties near room temperature: conductivity in W/(m K), through the thickness of a sheet or across a
 * fibre, and specific heat in J/(kg K). Epoxy and laminates take up more heat per kelvin when hot; that is left out, so
 * that computed temperatures are somewhat high. Printed polynomials: log10 y = a + b log10 T + c (log10 T)² + ….
 */
import { estimate, practice, read, recalled } from './property.ts'
import type { ThermalProperties } from './thermal.ts'

const GLASS =
  "glass fibre makers' property summary (text layer of a public table, columns re-aligned), bulk glass, ASTM C177 and C832"
const NIST_G10 =
  'NIST cryogenic material properties, G-10 CR, printed polynomial at 300 K (fit within 5 % for conductivity, 2 % for heat)'
const NIST_6061 = 'NIST cryogenic material properties, 6061-T6, printed polynomial at 300 K (fit within 0.5 % and 5 %)'
const MIL = 'MIL-HDBK-5J (31 Jan 2003), figure 3.7.6.0, 7075'
const EPOXY_CP = 'cured epoxy 1050 to 1300 J/(kg K) near room temperature, more above its glass transition; middle'

/** Across the fibre. */
export const fibreThermal: Readonly<Record<string, ThermalProperties>> = {
  'e-glass': {
    conductivity: read(1.15, `${GLASS}: E-glass 1.0 to 1.3 W/(m K); middle`),
    specificHeat: read(807, `${GLASS}: E-glass 0.807 kJ/(kg K) at 23 degC`),
  },
  's-glass': {
    conductivity: read(1.34, `${GLASS}: S-glass`),
    specificHeat: read(810, `${GLASS}: S-glass 0.810 kJ/(kg K) at 23 degC`),
  },
  'carbon-standard': {
    conductivity: practice(
      2.4,
      'standard-modulus carbon across the fibre; 0.6 to 0.8 W/(m K) through laminates at 0.6 fibre asks for 2 to 5',
    ),
    specificHeat: practice(750, 'carbon fibre near room temperature, 700 to 800 J/(kg K)'),
  },
}

export const epoxyThermal: ThermalProperties = {
  conductivity: practice(
    0.2,
    'unfilled epoxy; 17 formulations span 0.13 to 0.32 W/(m K), Chalwatzis et al., Polymers 17 (2025) 2596, abstract read',
  ),
  specificHeat: practice(1200, EPOXY_CP),
}

const PASTE = 'as unfilled epoxy, or lightly filled, 0.2 to 0.4 W/(m K); a filled paste conducts more'

export const adhesiveThermal: Readonly<Record<string, ThermalProperties>> = {
  'epoxy-paste': { conductivity: practice(0.25, PASTE), specificHeat: practice(1200, EPOXY_CP) },
  'epoxy-thickened': { conductivity: practice(0.2, PASTE), specificHeat: practice(1200, EPOXY_CP) },
}

const WOOD = 'Wood Handbook (USDA Forest Products Laboratory), chapter 4'
const LAMINATE = 'through-thickness rule of docs/methods/heat.md, rounded'
const g10: ThermalProperties = {
  conductivity: read(0.608, NIST_G10),
  specificHeat: read(999, NIST_G10),
}

export const sheetThermal: Readonly<Record<string, ThermalProperties>> = {
  g10,
  'g10-typical': g10,
  'birch-plywood': {
    conductivity: estimate(0.164, `${WOOD}, eq. 4-15 (read) at specific gravity 0.62 and 10 % moisture`),
    specificHeat: recalled(1600, `${WOOD}, heat capacity at 300 K and 10 % moisture`),
  },
  'aluminium-6061-t6': { conductivity: read(155, NIST_6061), specificHeat: read(954, NIST_6061) },
  'aluminium-7075-t6': { conductivity: recalled(130, MIL), specificHeat: recalled(960, MIL) },
  'carbon-plate': {
    conductivity: estimate(0.9, `${LAMINATE}, 0.50 fibre`),
    specificHeat: estimate(930, 'mass average of fibre and epoxy, 0.50 fibre by volume'),
  },
  'glass-epoxy-tube': {
    conductivity: estimate(0.55, `${LAMINATE}, 0.50 fibre`),
    specificHeat: estimate(930, 'mass average of fibre and epoxy, 0.50 fibre by volume'),
  },
  'carbon-epoxy-tube': {
    conductivity: estimate(0.9, `${LAMINATE}, 0.50 fibre`),
    specificHeat: estimate(930, 'mass average of fibre and epoxy, 0.50 fibre by volume'),
  },
  'paper-phenolic-tube': {
    conductivity: practice(0.25, 'paper-phenolic laminate, 0.2 to 0.3 W/(m K)'),
    specificHeat: practice(1400, 'paper-phenolic laminate, 1300 to 1600 J/(kg K)'),
  },
}

/** For a sheet that the table does not know: the low end of laminates and wood, so that its face reads hot. */
export const unknownSheetThermal: ThermalProperties = {
  conductivity: practice(0.2, 'the material is not in the table: low end of laminates and wood; state your own'),
  specificHeat: practice(950, 'the material is not in the table: low end of laminates and wood; state your own'),
}
