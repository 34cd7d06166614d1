/** The print worker, asked from the page: one for the window, started when it is first needed. */
import type { DocumentInput } from '@finwright/sheets/documents.ts'
import { proxy, type Remote, wrap } from 'comlink'
import type { PaperChoice } from './print.results.ts'
import type { PrintWork } from './print.worker.ts'

let started: Remote<PrintWork> | null = null

function worker(): Remote<PrintWork> {
  started ??= wrap<PrintWork>(
    new Worker(new URL('./print.worker.ts', import.meta.url), { type: 'module', name: 'print' }),
  )
  return started
}

export const listDocuments = (input: DocumentInput, paper: PaperChoice) => worker().list(input, paper)
export const pageSvg = (document: number, page: number) => worker().page(document, page)
export const documentPdf = (document: number) => worker().pdf(document)
export const everything = (told: (what: string, made: number, of: number) => void) => worker().everything(proxy(told))
export const stopPrinting = (): void => void worker().stop()

/** Said instead of a file. */
export const notMade = (error: unknown): string =>
  `The PDF could not be made (${error instanceof Error ? error.message : String(error)}). The command line makes the same file: finwright sheets.`
