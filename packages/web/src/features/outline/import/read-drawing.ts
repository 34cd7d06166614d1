/** A file of the browser as outlines, or why not. Nothing of it is kept. */
import { type Chain, chainsOf, type FileUnit, type ReadDrawing, type Unreadable } from './path.ts'
import { readDxf } from './read-dxf.ts'
import { readSvg } from './read-svg.ts'

export interface FoundOutlines {
  readonly name: string
  readonly unit: FileUnit | null
  /** Largest first; at least one. */
  readonly chains: readonly Chain[]
  readonly leftOut: Readonly<Record<string, number>>
}

export type FoundOrNot = { readonly ok: true; readonly found: FoundOutlines } | ({ readonly ok: false } & Unreadable)

/** Bytes; common practice, no source. A fin's outline takes a few kilobytes. */
const most = 4 * 2 ** 20

export async function readDrawing(file: File): Promise<FoundOrNot> {
  if (file.size > most)
    return {
      ok: false,
      message: `It has ${(file.size / 2 ** 20).toFixed(1)} MB; a drawing may have ${most / 2 ** 20} MB.`,
      hint: 'Export the outline alone.',
    }
  const text = await file.text()
  return outlinesIn(file.name, looksLikeSvg(file.name, text) ? readSvg(parsed(text)) : readDxf(text))
}

export function outlinesIn(name: string, read: ReadDrawing): FoundOrNot {
  if (!read.ok) return read
  const { unit, leftOut } = read.file
  const chains = chainsOf(read.file)
  if (chains.length > 0) return { ok: true, found: { name, unit, chains, leftOut } }
  const others = Object.keys(leftOut)
  return {
    ok: false,
    message: `There is no outline of three corners or more in it${others.length > 0 ? `, only ${others.join(', ')}` : ''}.`,
    hint: 'Draw the fin as polyline, lines, arcs or path, without blocks and splines, and export it again.',
  }
}

const looksLikeSvg = (name: string, text: string): boolean => /\.svg$/i.test(name) || /^\s*(<\?xml|<svg)/.test(text)

/** The root of the document; null where it does not parse. A parsed document is inert: nothing in it runs or loads. */
function parsed(text: string): Element | null {
  const document = new DOMParser().parseFromString(text, 'image/svg+xml')
  return document.querySelector('parsererror') === null ? document.documentElement : null
}
