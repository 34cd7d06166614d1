/** Thermal expansion of what a fin is made of, 1/K. Materials that the table does not know get a stated guess. */
import {
  epoxyExpansion,
  fibreExpansion as knownFibres,
  sheetExpansion as knownSheets,
  unknownSheetExpansion,
} from './expansion.data.ts'
import type { Property } from './material.ts'

/** Along and across a fibre, or the grain of a sheet, 1/K. */
export interface Expansion {
  readonly along: Property
  readonly across: Property
}

/** A fibre that the table does not know expands as the resin does. */
export const fibreExpansion = ({ id }: { readonly id: string }): Expansion =>
  knownFibres[id] ?? { along: epoxyExpansion, across: epoxyExpansion }

export const sheetExpansion = ({ id }: { readonly id: string }): Expansion => knownSheets[id] ?? unknownSheetExpansion

export { epoxyExpansion }
