/**
 * Pages as a PDF at true scale: one millimetre on the page is 72 / 25.4 points, and the file asks the printer's driver
 * not to scale it. The same pages and the same date give the same bytes.
 */
import type { Face, Group, Lines, Page, Path, Primitive, Stroke, Text, XY } from './drawing.ts'
import { arcOf } from './extent.ts'
import { fontFeatures, inkColour } from './ink.ts'
import { textWidth } from './lettering.ts'

export interface PdfMeta {
  readonly title: string
  readonly subject: string
  /** ISO date; there is no clock here. */
  readonly date: string
}

const pointsPerMm = 72 / 25.4

/** `fontOf` gives the font file of a face: read from the packages where there is a file system, asked of the app where not. */
export async function pagesInPdf(
  pages: readonly Page[],
  meta: PdfMeta,
  fontOf: (face: Face) => Uint8Array,
): Promise<Uint8Array> {
  const { default: PDFDocument } = await import('pdfkit')
  const stamp = new Date(`${meta.date}T00:00:00Z`)
  const doc = new PDFDocument({
    autoFirstPage: false,
    // None by default: every text names its face, and a browser has no font of its own to give.
    font: '',
    margin: 0,
    compress: true,
    lang: 'en',
    pdfVersion: '1.7',
    info: { Title: meta.title, Subject: meta.subject, Creator: 'Finwright', CreationDate: stamp, ModDate: stamp },
  })
  const bytes = collected(doc)
  preferTrueScale(doc)
  for (const face of facesIn(pages.flatMap(({ items }) => items))) {
    doc.registerFont(face, fontOf(face) as Buffer)
    settleFeatures(doc, face)
  }
  for (const page of pages) {
    doc.addPage({ size: [page.width * pointsPerMm, page.height * pointsPerMm], margin: 0 })
    doc.outline.addItem(page.title)
    doc.scale(pointsPerMm)
    for (const item of page.items) draw(doc, item)
  }
  doc.end()
  return bytes
}

/** /PrintScaling /None: print dialogs then start at actual size (ISO 32000-1:2008, 12.2, table 150). */
function preferTrueScale(doc: PDFKit.PDFDocument): void {
  const { _root } = doc as unknown as { _root: { data: Record<string, unknown> } }
  _root.data.ViewerPreferences = doc.ref({ PrintScaling: 'None', PickTrayByPDFSize: true, DisplayDocTitle: true })
}

/**
 * One set of features for every word of a face. Given with each text instead, pdfkit would lay out the same words again
 * and again; set here, it keeps what it has laid out.
 */
function settleFeatures(doc: PDFKit.PDFDocument, face: Face): void {
  const { _font } = doc.font(face) as unknown as { _font: { layoutRun: (words: string, features: unknown) => unknown } }
  const layoutRun = _font.layoutRun.bind(_font)
  _font.layoutRun = (words) => layoutRun(words, fontFeatures)
}

function facesIn(items: readonly Primitive[]): Set<Face> {
  const found = new Set<Face>()
  for (const item of items) {
    if (item.kind === 'text') found.add(item.face)
    else if (item.kind === 'group') for (const face of facesIn(item.items)) found.add(face)
  }
  return found
}

function collected(doc: PDFKit.PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = []
    doc.on('data', (chunk: Uint8Array) => chunks.push(chunk))
    doc.on('end', () => resolve(joined(chunks)))
    doc.on('error', reject)
  })
}

function joined(chunks: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0))
  let at = 0
  for (const chunk of chunks) {
    whole.set(chunk, at)
    at += chunk.length
  }
  return whole
}

function draw(doc: PDFKit.PDFDocument, item: Primitive): void {
  if (item.kind === 'path') drawPath(doc, item)
  else if (item.kind === 'lines') drawLines(doc, item)
  else if (item.kind === 'text') drawText(doc, item)
  else drawGroup(doc, item)
}

function drawLines(doc: PDFKit.PDFDocument, { pairs, stroke }: Lines): void {
  if (pairs.length === 0) return
  setStroke(doc, stroke)
  for (const [a, b] of pairs) doc.moveTo(a[0], a[1]).lineTo(b[0], b[1])
  doc.stroke()
}

/** Colours and widths first: between a path and its painting a PDF allows nothing else (ISO 32000-1:2008, figure 9). */
function drawPath(doc: PDFKit.PDFDocument, item: Path): void {
  const { stroke, fill } = item
  if (stroke === null && fill === null) return
  if (stroke !== null) setStroke(doc, stroke)
  if (fill !== null) doc.fillColor(inkColour[fill.ink], fill.opacity)
  tracePath(doc, item)
  if (stroke !== null && fill !== null) doc.fillAndStroke()
  else if (stroke !== null) doc.stroke()
  else doc.fill()
  if (fill !== null && fill.opacity !== 1) doc.fillOpacity(1)
}

function tracePath(doc: PDFKit.PDFDocument, { vertices, closed }: Path): void {
  vertices.forEach(([x, y], i) => {
    if (i === 0) doc.moveTo(x, y)
    else traceSegment(doc, vertices[i - 1], [x, y])
  })
  const last = vertices[vertices.length - 1]
  if (closed && (last[2] ?? 0) !== 0) traceSegment(doc, last, [vertices[0][0], vertices[0][1]])
  if (closed) doc.closePath()
}

/** An arc as cubic curves of an eighth of a turn at most: the radius is then true to 4e-6 of itself. */
function traceSegment(doc: PDFKit.PDFDocument, [x0, y0, bulge = 0]: Path['vertices'][number], end: XY): void {
  if (bulge === 0) {
    doc.lineTo(end[0], end[1])
    return
  }
  const { centre, radius, from, sweep } = arcOf([x0, y0], end, bulge)
  const pieces = Math.ceil(Math.abs(sweep) / (Math.PI / 4) - 1e-9)
  const step = sweep / pieces
  const pull = (4 / 3) * Math.tan(step / 4) * radius
  for (let i = 0; i < pieces; i++) {
    const a = from + i * step
    const b = a + step
    const A: XY = [centre[0] + radius * Math.cos(a), centre[1] + radius * Math.sin(a)]
    const B: XY = i === pieces - 1 ? end : [centre[0] + radius * Math.cos(b), centre[1] + radius * Math.sin(b)]
    doc.bezierCurveTo(
      A[0] - pull * Math.sin(a),
      A[1] + pull * Math.cos(a),
      B[0] + pull * Math.sin(b),
      B[1] - pull * Math.cos(b),
      B[0],
      B[1],
    )
  }
}

function setStroke(doc: PDFKit.PDFDocument, { ink, width, dash, phase = 0 }: Stroke): PDFKit.PDFDocument {
  doc.lineWidth(width).lineJoin('miter').lineCap('butt').strokeColor(inkColour[ink])
  return dash === undefined ? doc.undash() : doc.dash(dash as unknown as number, { phase })
}

function drawText(doc: PDFKit.PDFDocument, { at, text, size, face, ink, anchor, turn, tracking }: Text): void {
  if (text === '') return
  const width = textWidth(text, { size, face, tracking })
  const start = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width
  doc.save()
  doc.translate(at[0], at[1])
  if (turn !== 0) doc.rotate((turn * 180) / Math.PI)
  doc.font(face).fontSize(size).fillColor(inkColour[ink], 1)
  doc.text(text, start, 0, {
    lineBreak: false,
    baseline: 'alphabetic',
    characterSpacing: tracking * size,
  })
  doc.restore()
}

function drawGroup(doc: PDFKit.PDFDocument, { items, move, turn, scale, clip }: Group): void {
  doc.save()
  if (clip !== null) doc.rect(clip.x, clip.y, clip.width, clip.height).clip()
  doc.translate(move[0], move[1])
  if (turn !== 0) doc.rotate((turn * 180) / Math.PI)
  if (scale[0] !== 1 || scale[1] !== 1) doc.scale(scale[0], scale[1])
  for (const item of items) draw(doc, item)
  doc.restore()
}
