/** The tables of the manual of the plan file, as Markdown, from the data that the reader itself works with. */
import { issueCodes } from './codes.data.ts'
import { type Quantity, quantities } from './quantity/quantities.data.ts'
import { units } from './quantity/units.data.ts'
import {
  type Default,
  type DerivedDefault,
  defaults,
  historyDefaults,
  mountingDefaults,
  studyDefaults,
  thrustDefaults,
} from './schema/defaults.data.ts'
import { type Field, fields } from './schema/fields.data.ts'
import { usLimits } from './schema/judge.ts'

export const manualTables: { readonly [name: string]: () => string } = {
  quantities: () =>
    table(
      ['quantity', 'written with', 'shown in', 'for example'],
      (Object.entries(quantities) as [string, Quantity][]).map(([name, quantity]) => [
        name,
        quantity.offered,
        quantity.written === 'with unit' ? `${quantity.metric}; ${quantity.us}` : '',
        quantity.examples.map(code).join(', '),
      ]),
    ),
  units: () =>
    table(
      ['unit', 'also written'],
      units.map(({ name, also }) => [code(name), also.map(code).join(' ')]),
    ),
  'fields of a can': () => fieldTable((key) => !key.startsWith('study.') && !key.startsWith('material.')),
  'fields of a study': () => fieldTable((key) => key.startsWith('study.')),
  'fields of a material': () => fieldTable((key) => key.startsWith('material.')),
  'defaults of a can': () => defaultTable([...defaults, ...mountingDefaults, ...thrustDefaults, ...historyDefaults]),
  'defaults of a study': () => defaultTable(studyDefaults),
  codes: () =>
    table(
      ['code', 'when'],
      Object.entries(issueCodes).map(([name, meaning]) => [code(name), meaning]),
    ),
}

function fieldTable(wanted: (key: string) => boolean): string {
  const rows = (Object.entries(fields) as [string, Field][]).filter(([key]) => wanted(key))
  return table(
    ['field', 'what', 'quantity', 'least to most', 'in US units'],
    rows.map(([key, field]) => [
      code(key),
      field.label,
      field.quantity,
      `${field.least} to ${field.most}`,
      usLimits(field) ?? '',
    ]),
  )
}

function defaultTable(rules: readonly (Default | DerivedDefault)[]): string {
  const told = rules.filter((rule) => 'derive' in rule || JSON.stringify(rule.value) !== '{}')
  const once = told.filter((rule, i) => told.findIndex(({ path }) => path === rule.path) === i)
  return table(
    ['field', 'default', 'why'],
    once.map((rule) => [code(rule.path), 'derive' in rule ? 'derived' : code(JSON.stringify(rule.value)), rule.source]),
  )
}

const code = (text: string): string => `\`${text}\``

const cell = (text: string): string => text.replaceAll('|', '\\|')

function table(heading: readonly string[], rows: readonly (readonly string[])[]): string {
  const line = (cells: readonly string[]): string => `| ${cells.map(cell).join(' | ')} |`
  return [line(heading), line(heading.map(() => '---')), ...rows.map(line)].join('\n')
}
