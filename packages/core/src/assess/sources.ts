/** Where every material property and method of a can comes from: the appendix of the package. */
import type { Property } from '../material/material.ts'
import { properties } from '../material/sources.ts'
import type { SourceNote } from './assessment.ts'
import type { CanDesign } from './design.ts'
import { methodSources } from './method-sources.data.ts'

type Material = Parameters<typeof properties>[0]

export function canSources({ tube, fins, plies, resin }: CanDesign): readonly SourceNote[] {
  const cloths = new Map(plies.map(({ cloth }) => [cloth.id, cloth]))
  return [
    ...materialNotes('tube', tube.material.name, tube.material),
    ...materialNotes('core', fins.core.material.name, fins.core.material),
    ...materialNotes('bond', fins.fillet.adhesive.name, fins.fillet.adhesive),
    ...materialNotes('resin', resin.name, resin),
    ...[...cloths.values()].flatMap((cloth) => materialNotes('cloth', cloth.name, cloth)),
    ...methodSources,
  ]
}

function materialNotes(section: string, name: string, material: Material): SourceNote[] {
  return properties(material).map(({ path, property }) => ({
    section,
    quantity: `${name}: ${path}`,
    value: inSi(path, property),
    source: property.source,
    confidence: property.confidence,
  }))
}

/** The unit follows from the property's name; a ratio has none. Pressures take a prefix. */
function inSi(path: string, { value }: Property): string {
  const name = path.split('.').at(-1) ?? path
  const unit = units.find(([pattern]) => pattern.test(name))?.[1] ?? ''
  if (unit === 'Pa') return value >= 1e9 ? `${plain(value / 1e9)} GPa` : `${plain(value / 1e6)} MPa`
  return `${plain(value)}${unit === '' ? '' : ` ${unit}`}`
}

/** Five digits, no trailing zeros. */
const plain = (value: number): string => String(Number(value.toPrecision(5)))

const units: readonly (readonly [RegExp, string])[] = [
  [/^maximumShear$/, 'rad'],
  [/density/i, 'kg/m³'],
  [/^(E|E1|E2|G|G12|G13|G23|Xt|Xc|Yt|Yc|S|strength|lapShear)$/, 'Pa'],
  [/^arealMass$/, 'kg/m²'],
  [/mass$/i, 'kg'],
  [/activationEnergy/, 'J/mol'],
  [/temperature|glassTransition/i, 'K'],
  [/time$/i, 's'],
]
