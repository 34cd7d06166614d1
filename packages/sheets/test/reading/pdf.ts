/**
 * Reads a PDF back with pdf.js, independently of what wrote it: page sizes, every path in millimetres from the page's upper
 * left corner, with its clip, and every text with its place.
 */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

export type XY = readonly [number, number]

export interface ReadPath {
  /** Ends of straights and of curves, in order; curves are marked by `curved`. */
  readonly points: readonly XY[]
  readonly closed: boolean
  readonly curved: boolean
  readonly painted: 'stroke' | 'fill' | 'both'
  /** Rectangle outside which it is not seen. */
  readonly clip: readonly [number, number, number, number] | null
  readonly dashed: boolean
}

export interface ReadPage {
  /** mm. */
  readonly width: number
  readonly height: number
  readonly paths: readonly ReadPath[]
  readonly words: readonly { readonly text: string; readonly at: XY }[]
}

type Matrix = readonly [number, number, number, number, number, number]

const mmPerPoint = 25.4 / 72

export async function readPdf(bytes: Uint8Array): Promise<{ pages: ReadPage[]; preferences: unknown }> {
  const doc = await getDocument({
    data: new Uint8Array(bytes),
    isEvalSupported: false,
    useSystemFonts: false,
    verbosity: 0,
  }).promise
  const pages: ReadPage[] = []
  for (let n = 1; n <= doc.numPages; n++) {
    const page = await doc.getPage(n)
    const [, , width, height] = page.view
    const list = await page.getOperatorList()
    const text = await page.getTextContent()
    const toPage = ([x, y]: XY): XY => [x * mmPerPoint, (height - y) * mmPerPoint]
    pages.push({
      width: width * mmPerPoint,
      height: height * mmPerPoint,
      paths: pathsOf(list.fnArray, list.argsArray, toPage),
      words: text.items.flatMap((item) =>
        'str' in item && item.str.trim() !== ''
          ? [{ text: item.str, at: toPage([item.transform[4], item.transform[5]]) }]
          : [],
      ),
    })
  }
  const preferences = await doc.getViewerPreferences()
  await doc.destroy()
  return { pages, preferences }
}

interface Graphics {
  ctm: Matrix
  clip: ReadPath['clip']
  dashed: boolean
}

function pathsOf(operators: readonly number[], args: readonly unknown[], toPage: (point: XY) => XY): ReadPath[] {
  const found: ReadPath[] = []
  const stack: Graphics[] = []
  let state: Graphics = { ctm: [1, 0, 0, 1, 0, 0], clip: null, dashed: false }
  let current: { points: XY[]; closed: boolean; curved: boolean }[] = []
  let clipping = false
  const paint = (painted: ReadPath['painted']): void => {
    found.push(...current.map((path) => ({ ...path, painted, clip: state.clip, dashed: state.dashed })))
    current = []
  }
  operators.forEach((operator, i) => {
    const own = args[i] as unknown[]
    if (operator === OPS.save) stack.push({ ...state })
    else if (operator === OPS.restore) state = stack.pop() ?? state
    else if (operator === OPS.transform) state.ctm = product(state.ctm, own as unknown as Matrix)
    else if (operator === OPS.setDash) state.dashed = (own[0] as number[]).length > 0
    else if (operator === OPS.constructPath) trace(current, own[0] as number[], own[1] as number[], state.ctm, toPage)
    else if (operator === OPS.clip || operator === OPS.eoClip) clipping = true
    else if (operator === OPS.stroke) paint('stroke')
    else if (operator === OPS.fill || operator === OPS.eoFill) paint('fill')
    else if (operator === OPS.fillStroke || operator === OPS.eoFillStroke) paint('both')
    else if (operator === OPS.endPath) {
      if (!clipping) return
      const points = current.flatMap((path) => path.points)
      const X = points.map(([x]) => x)
      const Y = points.map(([, y]) => y)
      state.clip = [Math.min(...X), Math.min(...Y), Math.max(...X), Math.max(...Y)]
      clipping = false
      current = []
    }
  })
  return found
}

/** Goes on with the path at hand: pdf.js may hand one over in pieces. */
function trace(
  paths: { points: XY[]; closed: boolean; curved: boolean }[],
  operators: readonly number[],
  args: readonly number[],
  ctm: Matrix,
  toPage: (point: XY) => XY,
): void {
  const at = (x: number, y: number): XY => toPage([ctm[0] * x + ctm[2] * y + ctm[4], ctm[1] * x + ctm[3] * y + ctm[5]])
  let k = 0
  for (const operator of operators) {
    const last = paths.at(-1)
    if (operator === OPS.moveTo) paths.push({ points: [at(args[k], args[k + 1])], closed: false, curved: false })
    else if (operator === OPS.lineTo) last!.points.push(at(args[k], args[k + 1]))
    else if (operator === OPS.curveTo) {
      last!.points.push(at(args[k + 4], args[k + 5]))
      last!.curved = true
    } else if (operator === OPS.rectangle) {
      const [x, y, w, h] = [args[k], args[k + 1], args[k + 2], args[k + 3]]
      paths.push({ points: [at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)], closed: true, curved: false })
    } else if (operator === OPS.closePath) last!.closed = true
    k += argumentCount(operator)
  }
}

function argumentCount(operator: number): number {
  if (operator === OPS.moveTo || operator === OPS.lineTo) return 2
  if (operator === OPS.curveTo) return 6
  if (operator === OPS.rectangle || operator === OPS.curveTo2 || operator === OPS.curveTo3) return 4
  return 0
}

const product = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
]

/** Closed squares of four corners whose sides run along the page's; side lengths in mm. */
export function squaresIn({ paths }: ReadPage): { readonly across: number; readonly along: number; readonly at: XY }[] {
  return paths.flatMap(({ points, closed }) => {
    if (!closed || points.length !== 4) return []
    const [a, b, c] = points
    if (Math.abs(a[1] - b[1]) > 1e-6 || Math.abs(b[0] - c[0]) > 1e-6) return []
    return [{ across: Math.abs(b[0] - a[0]), along: Math.abs(c[1] - b[1]), at: a }]
  })
}
