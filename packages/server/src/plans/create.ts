/** A new plan: a copy of an example or of another plan, or a plan file with the files it names. All of it or nothing. */
import type { Issue } from '@finwright/core/issue.ts'
import { applyCommand } from '@finwright/plan/protocol/apply.ts'
import { importedPlan } from '@finwright/plan/protocol/import.ts'
import type { PlanRecord } from '@finwright/plan/protocol/record.ts'
import type { CreateRequest } from '@finwright/plan/protocol/wire.ts'
import { notFound, Refusal } from '../http/refusal.ts'
import type { Services } from '../services.ts'

type From = CreateRequest['from']
type FromFile = Extract<From, { kind: 'file' }>

/** The new plan's id. */
export function createPlan(from: From, services: Services): string {
  const { database, ledger, newId } = services
  return database.transaction(() => {
    const { record, label } = madeFrom(from, services)
    const id = newId()
    ledger.make(id, record, label)
    return id
  })
}

function madeFrom(from: From, services: Services): { readonly record: PlanRecord; readonly label: string } {
  switch (from.kind) {
    case 'example':
      return { record: exampleRecord(from.name, services), label: `copy of the example ${from.name}` }
    case 'copy':
      return { record: copyOf(from.id, services), label: 'copy of another plan' }
    case 'file':
      return { record: importedRecord(from, services), label: 'taken in from a file' }
  }
}

function exampleRecord(name: string, { examples, contents }: Services): PlanRecord {
  const example = examples.find((one) => one.name === name)
  if (example === undefined) throw notFound('example', name, `There are ${examples.map((one) => one.name).join(', ')}.`)
  const files = Object.entries(example.files).map(([file, bytes]) => [file, contents.keep(bytes)] as const)
  return { kind: 'plan', plan: example.plan, files: Object.fromEntries(files) }
}

function copyOf(id: string, { ledger }: Services): PlanRecord {
  const head = ledger.find(id, 'plan')
  if (head === undefined || head.removed !== null)
    throw notFound('plan', id, 'GET /api/plans lists those that are there.')
  return ledger.standing(head).record
}

/** Each file goes through the command that attaches it, so that the same bounds hold. */
function importedRecord({ text, files = [] }: FromFile, { contents }: Services): PlanRecord {
  const read = importedPlan(text)
  if (!read.ok) throw new Refusal(422, read.issues)
  let record: PlanRecord = { kind: 'plan', plan: read.value, files: {} }
  const issues: Issue[] = []
  for (const { name, base64 } of files) {
    const bytes = Buffer.from(base64, 'base64')
    const file = contents.keep(bytes)
    const made = applyCommand({ name: 'files.attach', payload: { name, file } }, record)
    if (made.ok) record = made.record
    else issues.push(...made.issues)
  }
  if (issues.length > 0) throw new Refusal(422, issues)
  return record
}
