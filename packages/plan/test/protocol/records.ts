/** Records for the tests of the protocol: the examples as they are kept, and files that nobody has. */

import { importedPlan } from '../../src/protocol/import.ts'
import type { JsonObject, PlanRecord } from '../../src/protocol/record.ts'
import { exampleText } from '../demo.ts'

export function exampleRecord(name: string): PlanRecord {
  const read = importedPlan(exampleText(`${name}.fincan.json`))
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return { kind: 'plan', plan: read.value, files: {} }
}

export const demoRecord = (): PlanRecord => exampleRecord('demo')

export const clothsOf = ({ plan }: PlanRecord): readonly unknown[] =>
  (plan.plies as readonly JsonObject[]).map(({ cloth, angle }) => (angle === undefined ? cloth : `${cloth} ${angle}`))

export const someFile = (digit: string, size = 100) => ({ sha256: digit.repeat(64), size })
