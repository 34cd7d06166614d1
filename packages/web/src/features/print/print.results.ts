/** What the print page shows and keeps: the papers, the documents as listed, and printers with what their check square measured. */
import type { PaperSize } from '@finwright/sheets/layout/paper.ts'
import { type Cell, cell } from '../../state/store.ts'

export type PaperChoice = PaperSize | 'roll'

export interface Listed {
  readonly path: string
  readonly what: string
  /** mm. */
  readonly pages: readonly { readonly title: string; readonly width: number; readonly height: number }[]
}

/** A printer of this builder, with its square as measured, as typed. */
export interface Printer {
  readonly name: string
  readonly across: string
  readonly along: string
}

const printersKey = 'finwright.printers'
const paperKey = 'finwright.paper'

export const printers: Cell<readonly Printer[]> = cell(
  readPrinters(globalThis.localStorage?.getItem(printersKey) ?? null),
)

export function keepPrinter(printer: Printer): void {
  const others = printers.get().filter(({ name }) => name !== printer.name)
  keep([...others, printer].sort((a, b) => a.name.localeCompare(b.name)))
}

export function forgetPrinter(name: string): void {
  keep(printers.get().filter((printer) => printer.name !== name))
}

function keep(next: readonly Printer[]): void {
  printers.set(next)
  globalThis.localStorage?.setItem(printersKey, JSON.stringify(next))
}

/** What was kept by another hand or an older app is read as far as it can be. */
export function readPrinters(text: string | null): readonly Printer[] {
  try {
    const read: unknown = JSON.parse(text ?? '[]')
    return Array.isArray(read) ? read.filter(isPrinter) : []
  } catch {
    return []
  }
}

const isPrinter = (one: unknown): one is Printer =>
  typeof one === 'object' &&
  one !== null &&
  ['name', 'across', 'along'].every((key) => typeof (one as Record<string, unknown>)[key] === 'string')

/** The paper of the last time; Letter where numbers are shown in US units. */
export const paper: Cell<PaperChoice | null> = cell(keptPaper())

export function choosePaper(next: PaperChoice): void {
  paper.set(next)
  globalThis.localStorage?.setItem(paperKey, next)
}

function keptPaper(): PaperChoice | null {
  const kept = globalThis.localStorage?.getItem(paperKey)
  return kept === 'a4' || kept === 'letter' || kept === 'roll' ? kept : null
}

/** A4 sheets and pages in words: `12 pages`. */
export const pagesInWords = (count: number): string => `${count} ${count === 1 ? 'page' : 'pages'}`

/** `03-bay-map.pdf` of `a4/03-bay-map.pdf`. */
export const fileName = (path: string): string => path.split('/').at(-1)!
