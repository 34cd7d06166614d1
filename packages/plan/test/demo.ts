/** The examples, read from their files, and copies of the demo with something changed. */
import { readdirSync, readFileSync } from 'node:fs'
import { readPlan } from '../src/read-plan.ts'
import type { ReadAttachment } from '../src/resolve/loose.ts'
import type { Json } from './bad-plans.data.ts'

export type { Json }

const folder = new URL('../../../examples/', import.meta.url)

export const exampleText = (name: string): string => readFileSync(new URL(name, folder), 'utf8')
export const exampleNames = readdirSync(folder).filter((name) => name.endsWith('.fincan.json'))

export const beside: ReadAttachment = (name) => {
  try {
    return { ok: true, text: exampleText(name) }
  } catch {
    return { ok: false, reason: 'no such file' }
  }
}

export const readExample = (name: string) => readPlan({ text: exampleText(name), readAttachment: beside })
export const demo = (): Json => JSON.parse(exampleText('demo.fincan.json')) as Json

/** Puts a value at `plies.2.stepBack.tip`; undefined takes the key away. */
export function put(plan: Json, path: string, value: Json | undefined): void {
  const parts = path.split('.')
  const last = parts.pop()!
  let at = plan as Record<string, Json>
  for (const part of parts) at = at[part] as Record<string, Json>
  if (value === undefined) delete at[last]
  else at[last] = value
}
