/**
 * A plan written as a person would lay it out: two spaces in, what fits on a line on one line, a name a line in the larger
 * objects. Reading it back gives the same plan; the same plan gives the same text.
 */

/** Characters of a line, with its indent. */
const longestLine = 120

export const planText = (plan: unknown): string => `${written(plan, '', 0)}\n`

function written(value: unknown, indent: string, before: number): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  const list = Array.isArray(value)
  const entries = list ? value.map((one) => ['', one] as const) : Object.entries(value).map(named)
  if (entries.length === 0) return list ? '[]' : '{}'
  const line = onOneLine(value)
  if (indent !== '' && indent.length + before + line.length <= longestLine - 1) return line
  const inner = `${indent}  `
  const rows = entries.map(([name, one]) => `${inner}${name}${written(one, inner, name.length)}`)
  return `${list ? '[' : '{'}\n${rows.join(',\n')}\n${indent}${list ? ']' : '}'}`
}

const named = ([name, value]: readonly [string, unknown]) => [`${JSON.stringify(name)}: `, value] as const

function onOneLine(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value)
  if (Array.isArray(value)) return `[${value.map(onOneLine).join(', ')}]`
  const entries = Object.entries(value).map(([name, one]) => `${JSON.stringify(name)}: ${onOneLine(one)}`)
  return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`
}
