/**
 * One published check: asserts that a computed value agrees with a printed one and leaves a row for the table of checks
 * (`npm run check` gathers the rows into `docs/checks.md`).
 */
import { appendFileSync, mkdirSync } from 'node:fs'
import { expect } from 'vitest'
import { agrees, published } from './agreement.ts'

export interface Evidence {
  /** Folder name under `checks/`, e.g. `nettles-1994`. */
  readonly source: string
  /** What is compared, with its unit, e.g. `A11, [45/0/90], lb/in`. */
  readonly quantity: string
  /** The number as printed; its last digit says its precision. */
  readonly printed: string
  readonly computed: number
  /** Relative error of the method, 0 when exact. */
  readonly methodError?: number
  /** One sentence, required when `methodError` is above 1 %. */
  readonly why?: string
}

/** Asserts agreement and records the row. */
export function expectPublished({ source, quantity, printed, computed, methodError = 0, why = '' }: Evidence): void {
  if (methodError > 0.01 && why === '') throw new Error(`${source}, ${quantity}: a wide band needs a reason`)
  const table = process.env.FINWRIGHT_CHECK_ROWS
  if (table !== undefined) {
    mkdirSync(table, { recursive: true })
    const row = JSON.stringify({ source, quantity, printed, computed, methodError, why })
    appendFileSync(`${table}/${source}.jsonl`, `${row}\n`)
  }
  expect(
    agrees(computed, published(printed), methodError),
    `${source}, ${quantity}: printed ${printed}, computed ${computed}, allowed relative error ${methodError}`,
  ).toBe(true)
}
