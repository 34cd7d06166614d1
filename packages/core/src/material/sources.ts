/** Lists every property of a material with its path, for the appendix that names the sources. */
import type { Adhesive, Cloth, Fibre, Property, ResinSystem, SheetMaterial } from './material.ts'

export interface NamedProperty {
  /** Inside the material, e.g. `fibre.E1`, `strengths.Xt`. */
  readonly path: string
  readonly property: Property
}

export type Material = Fibre | Cloth | ResinSystem | Adhesive | SheetMaterial

/** Every property of a material, in the order it is written down; parts (a cloth's fibre, strengths) included. */
export const properties = (material: Material): readonly NamedProperty[] => collect(material, '')

function collect(part: object, prefix: string): NamedProperty[] {
  return Object.entries(part).flatMap(([key, value]): NamedProperty[] => {
    if (typeof value !== 'object' || value === null) return []
    const path = prefix + key
    return isProperty(value) ? [{ path, property: value }] : collect(value, `${path}.`)
  })
}

const isProperty = (value: object): value is Property => 'confidence' in value
