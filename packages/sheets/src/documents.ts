/**
 * Every document of the package as pages, before it is a file: what is printed as PDF and what a screen shows as SVG are these
 * same pages. No file system, no clock, nothing of Node.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign, Design } from '@finwright/core/assess/design.ts'
import { invariant } from '@finwright/core/issue.ts'
import { clothCsv, cutListCsv } from './cut-list.ts'
import type { Page } from './drawing/drawing.ts'
import { figuresIn, type UnitSystem } from './layout/figures.ts'
import { framed, type Identity, type Leaf, type PaperSize, papers } from './layout/paper.ts'
import { allowedPrintError } from './pattern/check-square.ts'
import { plyPatterns } from './pattern/ply-patterns.ts'
import { rollPages } from './pattern/roll.ts'
import { shapeFiles } from './pattern/shape-files.ts'
import { tiledDocument } from './pattern/tiled-document.ts'
import { tubeWrap, wrapNotes } from './pattern/tube-wrap.ts'
import { corrected, correctionFor, correctionWords } from './printer.ts'
import type { SheetInput } from './sheet.ts'
import { bayMap } from './sheets/bay-map.ts'
import { buyList } from './sheets/buy-list.ts'
import { cover } from './sheets/cover.ts'
import { coverSheets } from './sheets/covers-sheet.ts'
import { cutSheets } from './sheets/cut-sheets.ts'
import { gaugeSheet } from './sheets/gauge-sheet.ts'
import { labelStrips } from './sheets/label-strips.ts'
import { layupSheets } from './sheets/layup-sheets.ts'
import { marginSheets } from './sheets/margins.ts'
import { mixCards } from './sheets/mix-cards.ts'
import { sectionSheets } from './sheets/section-sheet.ts'
import { shearSheets } from './sheets/shear-sheet.ts'
import { type PlanDefault, sourceSheets } from './sheets/sources.ts'
import { stackSheet } from './sheets/stack-sheet.ts'
import { traveller } from './sheets/traveller.ts'

export interface DocumentInput {
  readonly assessment: Assessment
  readonly design: Design
  readonly revision: { readonly hash: string; readonly date: string }
  readonly units: UnitSystem
  /** What the plan left out, for the appendix. */
  readonly defaults?: readonly PlanDefault[]
}

/** One document of a paper size, or for another machine. */
export interface PagedDocument {
  /** Of its file in the package. */
  readonly path: string
  readonly what: string
  readonly pages: readonly Page[]
}

interface Document {
  readonly name: string
  readonly what: string
  readonly pages: readonly Page[]
}

/** The first is the cover. A can whose print correction is refused has no package: ask `correctionFor` first. */
export const documentsOn = (size: PaperSize, input: DocumentInput): readonly PagedDocument[] =>
  documentsFor(input, size).map(({ name, what, pages }) => ({ path: `${size}/${name}.pdf`, what, pages }))

export const sizeName: { readonly [size in PaperSize]: string } = { a4: 'A4', letter: 'Letter' }

const identityOf = ({ assessment, revision }: DocumentInput): Identity => ({ project: assessment.name, revision })

function documentsFor(input: DocumentInput, size: PaperSize): Document[] {
  const { assessment, design, units, defaults = [] } = input
  const common = { assessment, identity: identityOf(input), paper: papers[size], figures: figuresIn(units) }
  const documents =
    design.kind === 'can'
      ? [...canDocuments({ ...common, design }, size), sourceDocument(common, defaults)]
      : [marginDocument(common), sourceDocument(common, defaults)]
  const numbered = documents
    .filter(({ pages }) => pages.length > 0)
    .map((document, i) => ({ ...document, name: `${String(i + 2).padStart(2, '0')}-${document.name}` }))
  const contents = [
    ...numbered.map(({ name, what }) => ({ file: `${name}.pdf`, what })),
    ...(design.kind === 'can' ? otherFiles : []),
  ]
  const first = framed(cover({ ...common, contents }), papers[size], common.identity)
  return [{ name: '01-cover', what: 'cover', pages: first }, ...numbered]
}

const otherFiles = [
  { file: '../roll/patterns.pdf', what: 'all patterns at true scale on one large page' },
  { file: '../shapes/*.svg, *.dxf', what: 'one true-scale drawing a shape, for cutters and plotters' },
  { file: '../cut-list.csv, cloth.csv', what: 'every piece, and the cloth in all, for a spreadsheet' },
]

type Common = Omit<SheetInput, 'design'>

const marginDocument = (input: Common): Document => ({
  name: 'flight-and-margins',
  what: 'flight and margins',
  pages: framed(marginSheets(input), input.paper, input.identity),
})

const sourceDocument = (input: Common, defaults: readonly PlanDefault[]): Document => ({
  name: 'sources',
  what: 'sources of every number, warnings, defaults',
  pages: framed(sourceSheets({ ...input, defaults }), input.paper, input.identity),
})

function canDocuments(input: SheetInput, size: PaperSize): Document[] {
  const { design, paper, identity } = input
  const correction = correctionsOf(design).printer
  const document = (name: string, what: string, leaves: readonly Leaf[]): Document => ({
    name,
    what,
    pages: framed(leaves, paper, identity),
  })
  const words = correctionWords(correction)
  const scaled = (name: string, what: string, pages: readonly Page[]): Document => ({
    name,
    what,
    pages: pages.map((page) => corrected(page, correction)),
  })
  return [
    marginDocument(input),
    document('bay-map', 'bay map, the stack taken apart, sections, covers and rules, shear', [
      ...bayMap(input),
      ...stackSheet(input),
      ...sectionSheets(input),
      ...coverSheets(input),
      ...shearSheets(input),
    ]),
    document('cut-sheets', 'cut sheets, one a roll', [...buyList(input), ...cutSheets(input)]),
    document('labels', 'labels for the pieces', labelStrips(input)),
    scaled('patterns', `patterns at true scale on ${sizeName[size]} tiles`, patternPages(input, size, words)),
    scaled('tube-wrap', 'wrap to mark out the tube', wrapPages(input, size, words)),
    scaled('gauges', 'fillet and bevel gauges', framed(gaugeSheet(input, words), paper, identity)),
    document('lay-up-sheets', 'lay-up sheets, one a bay', layupSheets(input)),
    document('mix-cards', 'mix cards, one a session', mixCards(input)),
    ...design.cans.map((can) =>
      document(
        `traveller-${can.letter}`,
        `traveller and range officer’s page, can ${can.letter}`,
        traveller(can, input),
      ),
    ),
  ]
}

function correctionsOf(design: CanDesign) {
  const corrections = correctionFor(design)
  invariant(corrections.ok, 'the print corrections were accepted before the package was asked for')
  return corrections.value
}

function patternPages(
  { assessment, figures, paper, identity }: SheetInput,
  size: PaperSize,
  correction: string,
): Page[] {
  const pictures = plyPatterns(assessment, figures, paper)
  if (pictures.length === 0) return []
  const subject = `tiles on ${sizeName[size]}`
  return tiledDocument({
    title: 'Patterns',
    subject,
    pictures,
    paper,
    identity,
    allowed: allowedPrintError,
    correction,
  })
}

function wrapPages(input: SheetInput, size: PaperSize, correction: string): Page[] {
  const { assessment, design, figures, paper, identity } = input
  const { section, tube } = assessment.pattern
  if (section === null || tube === null) return []
  const wrap = { tube, figures, paperThickness: design.printing.paperThickness }
  return tiledDocument({
    title: 'Tube wrap',
    subject: `tiles on ${sizeName[size]}`,
    pictures: [tubeWrap(wrap)],
    notes: wrapNotes(wrap, section.cant_deg),
    paper,
    identity,
    allowed: allowedPrintError,
    correction,
  })
}

export interface ForMachines {
  readonly roll: PagedDocument
  /** Every piece, and the cloth in all, for a spreadsheet. */
  readonly lists: readonly { readonly path: string; readonly bytes: string }[]
  /** One drawing a shape, as SVG and DXF. */
  readonly shapes: readonly { readonly path: string; readonly bytes: string }[]
}

/** For other machines than the printer, each with its own correction; null where nothing is cut. */
export function documentsForMachines(input: DocumentInput): ForMachines | null {
  const { design } = input
  if (design.kind !== 'can') return null
  const pictures = plyPatterns(input.assessment, figuresIn(input.units), null)
  if (pictures.length === 0) return null
  const identity = identityOf(input)
  const { roll, cutter } = correctionsOf(design)
  const pages = rollPages(pictures, identity, correctionWords(roll, 'roll printer')).map((page) =>
    corrected(page, roll),
  )
  return {
    roll: { path: 'roll/patterns.pdf', what: 'patterns', pages },
    lists: [
      { path: 'cut-list.csv', bytes: cutListCsv(input.assessment) },
      { path: 'cloth.csv', bytes: clothCsv(input.assessment, design) },
    ],
    shapes: shapeFiles({ pictures, identity, scale: cutter, correction: correctionWords(cutter, 'machine') }),
  }
}
