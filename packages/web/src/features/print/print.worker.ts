/**
 * The printed package without a server: the same pages as the command line's, drawn as SVG for the screen and made into PDF for
 * the printer. Between two documents it hears whether it is still wanted.
 */

import letter from '@expo-google-fonts/national-park/400Regular/NationalPark_400Regular.ttf?url'
import title from '@expo-google-fonts/national-park/600SemiBold/NationalPark_600SemiBold.ttf?url'
import text from '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf?url'
import italic from '@expo-google-fonts/source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf?url'
import strong from '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf?url'
import {
  type DocumentInput,
  documentsForMachines,
  documentsOn,
  type PagedDocument,
} from '@finwright/sheets/documents.ts'
import type { Face } from '@finwright/sheets/drawing/drawing.ts'
import { pagesInPdf } from '@finwright/sheets/drawing/pdf-pages.ts'
import { pageAsSvg } from '@finwright/sheets/drawing/svg.ts'
import { expose } from 'comlink'
import { type Zippable, zipSync } from 'fflate'
import type { Listed, PaperChoice } from './print.results.ts'

const fontPlaces: { readonly [face in Face]: string } = { text, strong, italic, letter, title }

interface Kept {
  readonly input: DocumentInput
  readonly documents: readonly PagedDocument[]
}

let kept: Kept | null = null
let wanted = 0
let fonts: Promise<ReadonlyMap<Face, Uint8Array>> | null = null

const work = {
  /** Draws every page; what is asked for afterwards is of these. */
  list(input: DocumentInput, paper: PaperChoice): readonly Listed[] {
    wanted++
    const documents = paper === 'roll' ? rollOf(input) : documentsOn(paper, input)
    kept = { input, documents }
    return documents.map(({ path, what, pages }) => ({
      path,
      what,
      pages: pages.map(({ title, width, height }) => ({ title, width, height })),
    }))
  },

  page(document: number, page: number): string {
    const found = kept?.documents[document]?.pages[page]
    return found === undefined ? '' : pageAsSvg(found, { paper: '#ffffff' })
  },

  pdf: async (document: number): Promise<Uint8Array> => {
    const { input, documents } = kept!
    return pdfOf(documents[document]!, input)
  },

  /** All documents and the lists and drawings beside them in one file; null when it was stopped. */
  async everything(told: (what: string, made: number, of: number) => void): Promise<Uint8Array | null> {
    const ticket = ++wanted
    const { input, documents } = kept!
    const machines = documentsForMachines(input)
    const all =
      machines === null ? documents : [...documents.filter(({ path }) => path !== machines.roll.path), machines.roll]
    const files: Zippable = {}
    for (const [i, document] of all.entries()) {
      told(document.what, i, all.length)
      await breath()
      if (ticket !== wanted) return null
      files[document.path] = await pdfOf(document, input)
    }
    for (const { path, bytes } of machines === null ? [] : [...machines.lists, ...machines.shapes])
      files[path] = new TextEncoder().encode(bytes)
    return zipSync(files, { level: 1, mtime: new Date(`${input.revision.date}T00:00:00Z`) })
  },

  stop(): void {
    wanted++
  },
}

export type PrintWork = typeof work

function rollOf(input: DocumentInput): readonly PagedDocument[] {
  const machines = documentsForMachines(input)
  return machines === null ? [] : [machines.roll]
}

async function pdfOf({ what, pages }: PagedDocument, { assessment, revision }: DocumentInput): Promise<Uint8Array> {
  fonts ??= fetched()
  const found = await fonts
  const meta = { title: `${assessment.name}: ${what}`, subject: `revision ${revision.hash}`, date: revision.date }
  return pagesInPdf(pages, meta, (face) => found.get(face)!)
}

/** From the app's own address, once. */
async function fetched(): Promise<ReadonlyMap<Face, Uint8Array>> {
  const entries = Object.entries(fontPlaces) as [Face, string][]
  const read = async ([face, place]: [Face, string]) =>
    [face, new Uint8Array(await (await fetch(place)).arrayBuffer())] as const
  return new Map(await Promise.all(entries.map(read)))
}

const breath = (): Promise<void> => new Promise((done) => setTimeout(done, 0))

expose(work)
