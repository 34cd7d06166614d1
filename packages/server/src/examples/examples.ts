/** The example plans that come with Finwright, read once at start. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { importedPlan } from '@finwright/plan/protocol/import.ts'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import type { Example } from '@finwright/plan/protocol/wire.ts'

export interface ExamplePlan {
  /** `demo`. */
  readonly name: string
  readonly plan: JsonObject
  /** The files that it names, as far as they lie beside it. */
  readonly files: { readonly [name: string]: Uint8Array }
}

const ending = '.fincan.json'

export function examplesIn(folder: string): readonly ExamplePlan[] {
  const names = readdirSync(folder)
  const tables = names.filter((name) => name.endsWith('.csv'))
  return names
    .filter((name) => name.endsWith(ending))
    .sort()
    .flatMap((name) => {
      const text = readFileSync(join(folder, name), 'utf8')
      const read = importedPlan(text)
      if (!read.ok) return []
      const named = tables.filter((table) => text.includes(JSON.stringify(table)))
      const files = Object.fromEntries(named.map((table) => [table, readFileSync(join(folder, table))]))
      return [{ name: name.slice(0, -ending.length), plan: read.value, files }]
    })
}

export const exampleSummary = ({ name, plan }: ExamplePlan): Example => ({
  name,
  title: String(plan.name),
  note: typeof plan.note === 'string' ? plan.note : '',
})
