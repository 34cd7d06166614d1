/** The library's own value of a property, as a field shows what holds where the plan says nothing; and which materials a plan uses. */
import { adhesives, cloths, fibres, resinSystems, sheets } from '@finwright/core/material/catalogue.ts'
import type { Material } from '@finwright/core/material/sources.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'
import { fittingUnit, formatQuantity, type UnitSystem } from '@finwright/plan/quantity/format.ts'
import { type MeasuredName, type QuantityName, quantities } from '@finwright/plan/quantity/quantities.data.ts'
import { fieldAt, type Path, valueAt } from '@finwright/plan/schema/locate.ts'
import type { Standing } from '../../parts/use-quantity.ts'

const library: Readonly<Record<string, Material>> = { ...fibres, ...cloths, ...resinSystems, ...adhesives, ...sheets }

export interface UsedMaterial {
  readonly id: string
  readonly name: string
  /** What the plan uses it for, in words. */
  readonly as: string
  /** One of the plan's own, made like another. */
  readonly like: string | null
  /** Paths of its properties inside it: `E1`, `strengths.Xt`. */
  readonly properties: readonly Path[]
  /** Those of them that the plan states. */
  readonly stated: number
  /** Whether it may lie face down; null where that is no question of it. */
  readonly reversible: boolean | null
}

/** Materials of the plan in the order in which a builder meets them, then those that it states and does not use. */
export function materialsUsed(plan: JsonObject): readonly UsedMaterial[] {
  const uses = new Map<string, string[]>()
  const use = (id: unknown, as: string): void => {
    if (typeof id !== 'string') return
    const before = uses.get(id) ?? []
    if (!before.includes(as)) uses.set(id, [...before, as])
  }
  const plies = Array.isArray(plan.plies) ? (plan.plies as readonly JsonObject[]) : []
  for (const { cloth } of plies) use(cloth, 'cloth of plies')
  for (const { cloth } of plies) {
    const made = ownOrLibrary(plan, String(cloth))
    if (made !== null && 'fibre' in made) use(made.fibre.id, `fibre of ${made.name}`)
  }
  use(valueAt(plan, ['fins', 'core', 'material']), 'core')
  use(valueAt(plan, ['tube', 'material']), 'tube')
  use(valueAt(plan, ['fins', 'fillet', 'adhesive']) ?? 'epoxy-paste', 'fillets')
  const stated = isObject(plan.materials) ? Object.keys(plan.materials) : []
  const resin = valueAt(plan, ['resin', 'system'])
  // its properties stand in a section of their own
  if (typeof resin === 'string' && stated.includes(resin)) use(resin, 'resin')
  for (const id of stated) if (!uses.has(id)) uses.set(id, ['stated, not used'])
  return [...uses].flatMap(([id, as]) => {
    const made = ownOrLibrary(plan, id)
    if (made === null) return []
    const properties = propertyPaths(made)
    const own = ['materials', id]
    const like = valueAt(plan, [...own, 'like'])
    const name = valueAt(plan, [...own, 'name'])
    return [
      {
        id,
        name: typeof name === 'string' ? name : typeof like === 'string' ? id : made.name,
        as: as.join(', '),
        like: typeof like === 'string' ? like : null,
        properties,
        stated: properties.filter((path) => valueAt(plan, [...own, ...path]) !== undefined).length,
        reversible: 'reversible' in made ? made.reversible : null,
      },
    ]
  })
}

function ownOrLibrary(plan: JsonObject, id: string): Material | null {
  const like = valueAt(plan, ['materials', id, 'like'])
  return library[id] ?? (typeof like === 'string' ? (library[like] ?? null) : null)
}

function propertyPaths(part: object, above: Path = []): readonly Path[] {
  return Object.entries(part).flatMap(([name, value]): readonly Path[] => {
    if (name === 'fibre' || typeof value !== 'object' || value === null) return []
    const path = [...above, name]
    if (!('confidence' in value)) return propertyPaths(value, path)
    return fieldAt(['materials', 'x', ...path]) === null ? [] : [path]
  })
}

/** At `materials.g10.E1` and at `resin.density`; null where the library has no such property. */
export function libraryValue(path: Path, plan: JsonObject, units: UnitSystem): Standing | null {
  const [id, inside] =
    path[0] === 'materials' ? [path[1], path.slice(2)] : [valueAt(plan, ['resin', 'system']), path.slice(1)]
  const material = typeof id === 'string' ? ownOrLibrary(plan, id) : null
  const property = material === null ? undefined : valueAt(material, inside)
  const field = fieldAt(path)
  const own = path[0] === 'resin' && typeof id === 'string' ? valueAt(plan, ['materials', id, ...inside]) : undefined
  if (own !== undefined) return { value: own, source: 'your own value under Materials' }
  if (field === null || !isProperty(property)) return null
  return { value: written(property.value, field.quantity, units), source: `the library’s value, ${property.source}` }
}

const isProperty = (value: unknown): value is { readonly value: number; readonly source: string } =>
  typeof value === 'object' && value !== null && 'confidence' in value && 'value' in value

const digits = 4

function written(value: number, name: QuantityName, units: UnitSystem): unknown {
  if (quantities[name].written !== 'with unit') return Number(value.toPrecision(digits))
  const measured = name as MeasuredName
  return formatQuantity(value, measured, units, { significant: digits, unit: fittingUnit(value, measured, units) })
}
