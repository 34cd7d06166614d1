/**
 * Outlines of an SVG file: path, polygon, polyline, line and rect with their transforms, in file units, y turned up. The size of a unit
 * follows from width and viewBox where the width is in mm, cm or in (W3C, Scalable Vector Graphics 2, chapter 8, 2018); a drawing in
 * pixels does not say.
 */
import svgpath from 'svgpath'
import type { FileUnit, Path, Piece, ReadDrawing, XY } from './path.ts'

/** What of a parsed document is read; the browser's own, or another parser's. */
export interface SvgElement {
  readonly nodeName: string
  readonly getAttribute: (name: string) => string | null
  readonly childNodes: ArrayLike<unknown>
}

const silent = new Set([
  'title',
  'desc',
  'metadata',
  'defs',
  'style',
  'clipPath',
  'mask',
  'pattern',
  'symbol',
  'script',
])
const groups = new Set(['svg', 'g', 'a', 'switch'])
const ownNames = /^(sodipodi|inkscape|rdf|cc|dc):/

export function readSvg(root: SvgElement | null): ReadDrawing {
  if (root === null || local(root) !== 'svg')
    return {
      ok: false,
      message: 'This file is no SVG drawing, or it is broken off.',
      hint: 'Export the outline as SVG, or as ASCII DXF, and drop it again.',
    }
  const { unit, scale } = sizeOf(root)
  const paths: Path[] = []
  const leftOut: Record<string, number> = {}
  const walk = (element: SvgElement, above: readonly string[]): void => {
    const name = local(element)
    if (silent.has(name) || ownNames.test(element.nodeName)) return
    const own = element.getAttribute('transform')
    const transforms = own === null ? above : [...above, own]
    if (groups.has(name)) {
      for (const child of Array.from(element.childNodes)) if (isElement(child)) walk(child, transforms)
      return
    }
    const data = pathDataOf(element, name)
    const read = data === null ? null : pathsOf(data, transforms, scale)
    if (read === null) leftOut[name] = (leftOut[name] ?? 0) + 1
    else paths.push(...read)
  }
  walk(root, [])
  return { ok: true, file: { unit, paths, leftOut } }
}

const isElement = (node: unknown): node is SvgElement => (node as { nodeType?: number }).nodeType === 1

const local = ({ nodeName }: SvgElement): string => nodeName.replace(/^svg:/, '')

/** `scale`: file's length units to a user unit. */
function sizeOf(root: SvgElement): { readonly unit: FileUnit | null; readonly scale: number } {
  const width = /^\s*([\d.]+)\s*(mm|cm|in)\s*$/.exec(root.getAttribute('width') ?? '')
  if (width === null) return { unit: null, scale: 1 }
  const box = (root.getAttribute('viewBox') ?? '')
    .trim()
    .split(/[\s,]+/)
    .map(Number)
  const [number, unit] = [Number(width[1]), width[2] as FileUnit]
  if (box.length === 4 && box[2]! > 0) return { unit, scale: number / box[2]! }
  // without a viewBox a user unit is a CSS pixel, 96 of them an inch (CSS Values and Units 3, section 6.2)
  return { unit: 'in', scale: 1 / 96 }
}

function pathDataOf(element: SvgElement, name: string): string | null {
  const number = (key: string): number => Number.parseFloat(element.getAttribute(key) ?? '0')
  switch (name) {
    case 'path':
      return element.getAttribute('d')
    case 'polygon':
    case 'polyline': {
      const points = (element.getAttribute('points') ?? '').trim()
      return points === '' ? null : `M${points}${name === 'polygon' ? 'Z' : ''}`
    }
    case 'line':
      return `M${number('x1')} ${number('y1')}L${number('x2')} ${number('y2')}`
    case 'rect':
      return `M${number('x')} ${number('y')}h${number('width')}v${number('height')}h${-number('width')}Z`
    default:
      return null
  }
}

/** Null where the path data cannot be read. */
function pathsOf(data: string, transforms: readonly string[], scale: number): Path[] | null {
  const read = svgpath(data)
  if ((read as unknown as { err: string }).err !== '') return null
  for (const transform of [...transforms].reverse()) read.transform(transform)
  read.abs().unshort().unarc().scale(scale, -scale)
  const paths: { start: XY; pieces: Piece[]; closed: boolean }[] = []
  let here: XY = [0, 0]
  read.iterate((segment) => {
    const [letter, ...n] = segment as [string, ...number[]]
    if (letter === 'M') {
      here = [n[0]!, n[1]!]
      paths.push({ start: here, pieces: [], closed: false })
      return
    }
    let path = paths.at(-1)
    if (path === undefined) return
    if (letter === 'Z' || letter === 'z') {
      path.closed = true
      path.pieces.push({ kind: 'line', to: path.start })
      here = path.start
      return
    }
    if (path.closed) {
      path = { start: here, pieces: [], closed: false }
      paths.push(path)
    }
    const piece = pieceOf(letter, n, here)
    if (piece === null) return
    path.pieces.push(piece)
    here = piece.to
  })
  return paths.filter(({ pieces }) => pieces.length > 0)
}

function pieceOf(letter: string, n: readonly number[], [x, y]: XY): Piece | null {
  switch (letter) {
    case 'L':
      return { kind: 'line', to: [n[0]!, n[1]!] }
    case 'H':
      return { kind: 'line', to: [n[0]!, y] }
    case 'V':
      return { kind: 'line', to: [x, n[0]!] }
    case 'C':
      return { kind: 'cubic', c1: [n[0]!, n[1]!], c2: [n[2]!, n[3]!], to: [n[4]!, n[5]!] }
    case 'Q': {
      // a quadratic raised to a cubic: its inner points two thirds of the way to the control point
      const [cx, cy, to] = [n[0]!, n[1]!, [n[2]!, n[3]!] as const]
      return {
        kind: 'cubic',
        c1: [x + (2 / 3) * (cx - x), y + (2 / 3) * (cy - y)],
        c2: [to[0] + (2 / 3) * (cx - to[0]), to[1] + (2 / 3) * (cy - to[1])],
        to,
      }
    }
    default:
      return null
  }
}
