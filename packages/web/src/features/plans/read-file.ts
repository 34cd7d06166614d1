/** Files chosen or dropped, told apart: the plan among them, and the files that it may name. Nothing leaves the window yet. */
import type { Issue } from '@finwright/core/issue.ts'
import { importedPlan } from '@finwright/plan/protocol/import.ts'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import type { PlanFile } from '../../server/shelf-of-plans.ts'

export interface Chosen {
  readonly name: string
  readonly text: string
  readonly base64: string
}

export type ReadFiles =
  | { readonly kind: 'faulty'; readonly name: string; readonly issues: readonly Issue[] }
  | {
      readonly kind: 'read'
      readonly name: string
      readonly plan: JsonObject
      readonly from: PlanFile
      /** Files that the plan names, and whether they came with it. */
      readonly named: readonly { readonly name: string; readonly here: boolean }[]
    }

/** Of several files the first that ends in `.json` is the plan. */
export function readChosen(chosen: readonly Chosen[]): ReadFiles {
  const plan = chosen.find(({ name }) => name.toLowerCase().endsWith('.json'))
  if (plan === undefined)
    return { kind: 'faulty', name: chosen.map(({ name }) => name).join(', '), issues: [noPlan(chosen)] }
  const read = importedPlan(plan.text)
  if (!read.ok) return { kind: 'faulty', name: plan.name, issues: read.issues }
  const names = [...new Set(filesNamed(read.value))]
  const files = chosen.filter(({ name }) => names.includes(name)).map(({ name, base64 }) => ({ name, base64 }))
  return {
    ...{ kind: 'read', name: plan.name, plan: read.value, from: { text: plan.text, files } },
    named: names.map((name) => ({ name, here: files.some((file) => file.name === name) })),
  }
}

/** A table in a file stands in the plan by the file's name. */
function filesNamed(value: unknown): string[] {
  if (typeof value === 'string') return /\.csv$/i.test(value) ? [value] : []
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(filesNamed) : []
}

export async function chosenFiles(files: readonly File[]): Promise<Chosen[]> {
  return Promise.all(
    files.map(async (file) => {
      const bytes = new Uint8Array(await file.arrayBuffer())
      let binary = ''
      for (const byte of bytes) binary += String.fromCharCode(byte)
      return { name: file.name, text: new TextDecoder().decode(bytes), base64: btoa(binary) }
    }),
  )
}

const noPlan = (chosen: readonly Chosen[]): Issue => ({
  code: 'plan/none-chosen',
  path: '',
  value: chosen.map(({ name }) => name).join(', '),
  message: 'None of these files is a plan: a plan ends in .json.',
  hint: 'Choose the plan file and the CSV files that it names together. A CSV alone goes in on the plan’s page, an outline on the page of the shape.',
})
