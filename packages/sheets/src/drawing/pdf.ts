/** PDFs where there is a file system: the font files come out of the installed packages. */
import type { Page } from './drawing.ts'
import { fontFile } from './font-files.ts'
import { type PdfMeta, pagesInPdf } from './pdf-pages.ts'

export const pagesAsPdf = (pages: readonly Page[], meta: PdfMeta): Promise<Uint8Array> =>
  pagesInPdf(pages, meta, fontFile)
