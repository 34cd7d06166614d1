/** Materials by kind, as a list to choose from: the catalogue's, then the plan's own. */
import { adhesives, cloths, resinSystems, sheets } from '@finwright/core/material/catalogue.ts'
import { isObject } from '@finwright/plan/protocol/record.ts'
import type { Option } from '../../parts/SelectField.tsx'
import type { MaterialKind } from './form.data.ts'

const catalogue = { cloth: cloths, resin: resinSystems, adhesive: adhesives, sheet: sheets }

export function materialOptions(kind: MaterialKind, own: unknown): readonly Option[] {
  const known = Object.values(catalogue[kind]).map(({ id, name }) => ({ value: id, label: name }))
  const ownOnes = !isObject(own)
    ? []
    : Object.entries(own).flatMap(([id, stated]) => {
        const like = isObject(stated) && typeof stated.like === 'string' ? stated.like : id
        if (id in catalogue[kind] || !(like in catalogue[kind])) return []
        const name = isObject(stated) && typeof stated.name === 'string' ? stated.name : id
        return [{ value: id, label: name }]
      })
  return [...known, ...ownOnes]
}
