/**
 * The build package: everything to print, cut, mix and lay up from, as files in memory. No file system, no clock: the same
 * assessment, design, revision and date give the same bytes.
 */
import { type DocumentInput, documentsForMachines, documentsOn, type PagedDocument, sizeName } from './documents.ts'
import { pagesAsPdf } from './drawing/pdf.ts'
import type { PaperSize } from './layout/paper.ts'

export interface PackageInput extends DocumentInput {
  readonly pageSizes: readonly PaperSize[]
  /** Told the name of each document before it is made. */
  readonly onProgress?: (step: string) => void
  /** Told the documents of a paper size, or of the roll, before the first of them is made. */
  readonly onDocuments?: (documents: readonly PagedDocument[]) => void
}

export interface PackageFile {
  readonly path: string
  readonly bytes: Uint8Array | string
}

/** The first file is the cover. A can whose print correction is refused has no package: ask `correctionFor` first. */
export async function buildPackage(input: PackageInput): Promise<readonly PackageFile[]> {
  const files: PackageFile[] = []
  for (const size of input.pageSizes) {
    const documents = documentsOn(size, input)
    input.onDocuments?.(documents)
    for (const document of documents) {
      input.onProgress?.(`${sizeName[size]}: ${document.what}`)
      files.push(await asFile(document, input))
    }
  }
  return [...files, ...(await filesForMachines(input))]
}

async function filesForMachines(input: PackageInput): Promise<readonly PackageFile[]> {
  const machines = documentsForMachines(input)
  if (machines === null) return []
  input.onDocuments?.([machines.roll])
  input.onProgress?.('patterns for roll printers and cutters')
  return [await asFile(machines.roll, input), ...machines.lists, ...machines.shapes]
}

async function asFile({ path, what, pages }: PagedDocument, input: PackageInput): Promise<PackageFile> {
  const { assessment, revision } = input
  const title = `${assessment.name}: ${what}`
  return { path, bytes: await pagesAsPdf(pages, { title, subject: `revision ${revision.hash}`, date: revision.date }) }
}
