/**
 * The catalogue: generic materials by id, every property with its source and how well it is known. The plan may override
 * any property; nothing here is a maker's product.
 */
import { clothList } from './cloths.data.ts'
import { carbonStandard, eGlass, polyamide, polyethylene, sGlass } from './fibres.data.ts'
import type { Adhesive, Cloth, Fibre, ResinSystem, SheetMaterial } from './material.ts'
import { adhesiveList, resinList } from './resins.data.ts'
import { sheetList } from './sheets.data.ts'

export const fibres: Readonly<Record<string, Fibre>> = byId([eGlass, sGlass, carbonStandard, polyamide, polyethylene])
export const cloths: Readonly<Record<string, Cloth>> = byId(clothList)
export const resinSystems: Readonly<Record<string, ResinSystem>> = byId(resinList)
export const adhesives: Readonly<Record<string, Adhesive>> = byId(adhesiveList)
/** Core sheets and tube walls. */
export const sheets: Readonly<Record<string, SheetMaterial>> = byId(sheetList)

function byId<M extends { readonly id: string }>(list: readonly M[]): Readonly<Record<string, M>> {
  return Object.freeze(Object.fromEntries(list.map((material) => [material.id, material])))
}
