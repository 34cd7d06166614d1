/**
 * How a laminate carries and holds heat, from its fibre, its resin and its fibre volume fraction Vf.
 *
 *   across round fibres   k1 = km ((1 + Vf) kf + (1 − Vf) km) / ((1 − Vf) kf + (1 + Vf) km)      W/(m K)
 *   side by side          k2 = Vf kf + (1 − Vf) km
 *   through the thickness k  = (k1 + k2) / 2          between them: woven yarns touch and weave through the thickness
 *   specific heat         cp = Wf cpf + (1 − Wf) cpm, Wf the fibre's share by mass                J/(kg K)
 *
 * k1 is the lower bound when the fibre conducts better (Hashin, J. Appl. Mech. 46 (1979) 543, recalled); k2 is what
 * Takizawa & Chung (2016, abstract read) found to model glass laminates with fibres in the plane. Their mean lies 9 %
 * under NIST's 0.608 W/(m K) for G-10 at about 0.51 fibre (70 % glass by mass, recalled). Voids are left out.
 */

import type { Property } from './material.ts'
import { estimate } from './property.ts'
import {
  epoxyThermal,
  fibreThermal,
  adhesiveThermal as knownAdhesives,
  sheetThermal as knownSheets,
  unknownSheetThermal,
} from './thermal.data.ts'

export interface ThermalProperties {
  /** Through the thickness, or across a fibre, W/(m K). */
  readonly conductivity: Property
  /** J/(kg K). */
  readonly specificHeat: Property
}

export interface LaminateThermal extends ThermalProperties {
  /** The two rules between which the conductivity was put, W/(m K). */
  readonly conductivityRange: { readonly low: number; readonly high: number }
}

export interface LaminateMix {
  readonly fibre: { readonly id: string; readonly density: Property }
  readonly resinDensity: number
  /** By volume, 0–1; 0 for a veil or neat resin. */
  readonly fibreFraction: number
}

export function laminateThermal({ fibre, resinDensity, fibreFraction: Vf }: LaminateMix): LaminateThermal {
  const { conductivity, specificHeat } = fibreThermal[fibre.id] ?? epoxyThermal
  const [kf, km] = [conductivity.value, epoxyThermal.conductivity.value]
  const k1 = (km * ((1 + Vf) * kf + (1 - Vf) * km)) / ((1 - Vf) * kf + (1 + Vf) * km)
  const k2 = Vf * kf + (1 - Vf) * km
  const Wf = (Vf * fibre.density.value) / (Vf * fibre.density.value + (1 - Vf) * resinDensity)
  const cp = Wf * specificHeat.value + (1 - Wf) * epoxyThermal.specificHeat.value
  const parts = `fibre: ${conductivity.source}; resin: ${epoxyThermal.conductivity.source}`
  return {
    conductivity: estimate((k1 + k2) / 2, `mean of the series-like and the parallel rule; ${parts}`),
    conductivityRange: { low: Math.min(k1, k2), high: Math.max(k1, k2) },
    specificHeat: estimate(
      cp,
      `mass average; fibre: ${specificHeat.source}; resin: ${epoxyThermal.specificHeat.source}`,
    ),
  }
}

/** Of a core sheet or tube wall; a material that is not in the table gets a stated guess. */
export const sheetThermal = ({ id }: { readonly id: string }): ThermalProperties =>
  knownSheets[id] ?? unknownSheetThermal

/** Of a paste or thickened adhesive; one that is not in the table is taken as unfilled epoxy. */
export const adhesiveThermal = ({ id }: { readonly id: string }): ThermalProperties =>
  knownAdhesives[id] ?? epoxyThermal
