/**
 * The catalogue as this plan has it: properties that the plan states take the place of the catalogue's, and materials of
 * the plan's own stand beside them.
 */
import { adhesives, cloths, fibres, resinSystems, sheets } from '@finwright/core/material/catalogue.ts'
import type { Adhesive, Cloth, Fibre, Property, ResinSystem, SheetMaterial } from '@finwright/core/material/material.ts'
import type { z } from 'zod'
import type { FieldKey } from '../schema/fields.data.ts'
import { siValue } from '../schema/judge.ts'
import type { materials } from '../schema/materials.ts'
import { suggestion } from '../text/nearest.ts'
import type { Report } from './loose.ts'

interface Materials {
  readonly fibre: Fibre
  readonly cloth: Cloth
  readonly resin: ResinSystem
  readonly adhesive: Adhesive
  readonly sheet: SheetMaterial
}
export type Shelf = keyof Materials
type Shelves = { readonly [S in Shelf]: Readonly<Record<string, Materials[S]>> }

const catalogue: Shelves = { fibre: fibres, cloth: cloths, resin: resinSystems, adhesive: adhesives, sheet: sheets }

const shelfNames: { readonly [shelf in Shelf]: string } = {
  fibre: 'fibre',
  cloth: 'cloth',
  resin: 'resin system',
  adhesive: 'adhesive',
  sheet: 'sheet or wall material',
}

/** Finds a material by its id and reports an unknown one at `path`. */
export type Find = <S extends Shelf>(shelf: S, id: unknown, path: string) => Materials[S] | undefined

type Stated = Partial<z.infer<typeof materials>[string]>

export const statedSource = 'stated in the plan'
export const stated = (value: number): Property => ({ value, source: statedSource, confidence: 'plan' })

export function materialsOf(overrides: Readonly<Record<string, Stated | undefined>> | undefined, report: Report): Find {
  const shelves = withOverrides(overrides ?? {}, report)
  return <S extends Shelf>(shelf: S, id: unknown, path: string): Materials[S] | undefined => {
    if (typeof id !== 'string') return undefined
    const found: Readonly<Record<string, Materials[S]>> = shelves[shelf]
    if (Object.hasOwn(found, id)) return found[id]
    report(unknownMaterial(shelves, shelf, id, path))
    return undefined
  }
}

function unknownMaterial(shelves: Shelves, shelf: Shelf, id: string, path: string) {
  const known = Object.keys(shelves[shelf])
  const other = shelfOf(shelves, id)
  const reason = other === null ? 'which the catalogue does not have' : `which is a ${shelfNames[other]}`
  return {
    code: `material/unknown-${shelf}`,
    path,
    value: id,
    message: `The ${shelfNames[shelf]} is '${id}', ${reason}; it must be one of: ${known.join(', ')}.`,
    hint: `${suggestion(id, known)} One of your own goes under 'materials' with 'like'.`,
  }
}

const shelfOf = (shelves: Shelves, id: string): Shelf | null =>
  (Object.keys(shelves) as Shelf[]).find((shelf) => Object.hasOwn(shelves[shelf], id)) ?? null

type Mutable = { [S in Shelf]: Record<string, Materials[S]> }

function withOverrides(overrides: Readonly<Record<string, Stated | undefined>>, report: Report): Shelves {
  const shelves: Mutable = {
    fibre: { ...catalogue.fibre },
    cloth: { ...catalogue.cloth },
    resin: { ...catalogue.resin },
    adhesive: { ...catalogue.adhesive },
    sheet: { ...catalogue.sheet },
  }
  for (const [id, properties] of Object.entries(overrides)) {
    if (properties === undefined) continue
    const base = baseOf(id, properties, report)
    if (base === null) continue
    const { shelf, material } = base
    const named = { ...material, id, name: properties.name ?? (properties.like === undefined ? material.name : id) }
    const changed = overridden(shelf, named, properties, `materials.${id}`, report)
    ;(shelves[shelf] as Record<string, unknown>)[id] = changed
  }
  for (const [id, cloth] of Object.entries(shelves.cloth)) {
    shelves.cloth[id] = { ...cloth, fibre: shelves.fibre[cloth.fibre.id] ?? cloth.fibre }
  }
  return shelves
}

interface Base {
  readonly shelf: Shelf
  readonly material: Materials[Shelf]
}

function baseOf(id: string, properties: Stated, report: Report): Base | null {
  const path = `materials.${id}`
  const own = shelfOf(catalogue, id)
  const everything = Object.values(catalogue).flatMap((shelf) => Object.keys(shelf))
  if (own !== null) {
    if (properties.like === undefined) return { shelf: own, material: catalogue[own][id]! }
    const message = `'${id}' is in the catalogue already and is stated to be like '${properties.like}'; only a new material may be like another.`
    report({
      code: 'material/not-new',
      path: `${path}.like`,
      value: properties.like,
      message,
      hint: "Remove 'like', or choose a new name.",
    })
    return null
  }
  if (!('like' in properties)) {
    const message = `The catalogue has no '${id}'; a material of your own must say which one of the catalogue it is like.`
    const hint = `${suggestion(id, everything)} Or add "like": "glass-plain-200" or another.`
    report({ code: 'material/unknown', path, value: id, message, hint })
    return null
  }
  if (properties.like === undefined) return null
  const shelf = shelfOf(catalogue, properties.like)
  if (shelf !== null) return { shelf, material: catalogue[shelf][properties.like]! }
  const message = `'${id}' is to be like '${properties.like}', which the catalogue does not have.`
  report({
    code: 'material/unknown',
    path: `${path}.like`,
    value: properties.like,
    message,
    hint: suggestion(properties.like, everything),
  })
  return null
}

const notProperties = new Set(['like', 'name'])

/** The material with the stated properties in place of its own; what does not belong to it is reported. */
export function overridden<M extends object>(
  shelf: Shelf,
  material: M,
  properties: object,
  path: string,
  report: Report,
): M {
  const result: Record<string, unknown> = { ...(material as Record<string, unknown>) }
  for (const [key, written] of Object.entries(properties)) {
    if (notProperties.has(key) || written === undefined) continue
    if (!Object.hasOwn(material, key)) report(noSuchProperty(shelf, material, key, written, `${path}.${key}`))
    else if (key === 'strengths') result.strengths = strengthsOf(result.strengths, written, `${path}.strengths`, report)
    else if (typeof written === 'boolean') result[key] = written
    else {
      const value = siValue(`material.${key}` as FieldKey, written)
      if (value !== undefined) result[key] = stated(value)
    }
  }
  checkPoisson(result, path, report)
  return result as M
}

/** All five stated: they hold as they stand, whatever the fibre fraction. */
function strengthsOf(own: unknown, written: object, path: string, report: Report): unknown {
  const values = Object.fromEntries(
    Object.entries(written).flatMap(([key, text]) => {
      const value = siValue(`material.strengths.${key}` as FieldKey, text)
      return value === undefined ? [] : [[key, stated(value)]]
    }),
  )
  const all = ['Xt', 'Xc', 'Yt', 'Yc', 'S'].every((key) => key in values)
  if (all) return values
  if (own !== null) return { ...(own as object), ...values }
  const message =
    'This material carries no load in the analysis; its strengths must be stated all together: Xt, Xc, Yt, Yc, S.'
  report({ code: 'material/strengths', path, value: written, message, hint: 'State all five, or none.' })
  return own
}

function noSuchProperty(shelf: Shelf, material: object, key: string, value: unknown, path: string) {
  const known = Object.keys(material).filter((name) => !['id', 'name', 'fibre', 'weave'].includes(name))
  return {
    code: 'material/no-such-property',
    path,
    value,
    message: `A ${shelfNames[shelf]} has no property '${key}'; it has: ${known.join(', ')}.`,
    hint: suggestion(key, known),
  }
}

/** Positive energy of deformation, Lempriere, AIAA Journal 6 (1968), recalled: nu12² < E1 / E2. */
function checkPoisson(material: Record<string, unknown>, path: string, report: Report): void {
  const [E1, E2, nu12] = ['E1', 'E2', 'nu12'].map((key) => (material[key] as Property | undefined)?.value)
  if (E1 === undefined || E2 === undefined || nu12 === undefined || nu12 ** 2 < E1 / E2) return
  const most = Math.sqrt(E1 / E2)
  report({
    code: 'material/poisson',
    path: `${path}.nu12`,
    value: nu12,
    message: `Poisson's ratio nu12 is ${nu12}; with these moduli it must stay below ${most.toPrecision(3)}, the square root of E1 / E2.`,
    hint: 'Check that E1 and E2 are not swapped and that nu12 is the ratio for a pull along axis 1.',
  })
}
