/**
 * Widths of words and breaking of lines. Widths are sums of the letters' own, so that every back end agrees on them.
 */
import type { Face } from './drawing.ts'
import { advanceRuns } from './metrics.data.ts'

export interface Lettering {
  readonly size: number
  readonly face: Face
  readonly tracking?: number
}

/** Height of a capital over the em. */
export const capHeight: { readonly [face in Face]: number } = {
  text: 0.66,
  strong: 0.66,
  italic: 0.66,
  letter: 0.7,
  title: 0.7,
}

const advances = new Map<Face, Map<number, number>>()

/** Width in mm of the words as drawn. */
export function textWidth(words: string, { size, face, tracking = 0 }: Lettering): number {
  const table = widthsOf(face)
  let width = 0
  let letters = 0
  for (const letter of words) {
    width += (table.get(letter.codePointAt(0)!) ?? 0) / 1000
    letters++
  }
  return size * (width + tracking * Math.max(0, letters - 1))
}

/** The words with every letter that the face does not have shown as a question mark; spaces of all kinds as a space. */
export function printable(words: string, face: Face): string {
  const table = widthsOf(face)
  let shown = ''
  for (const letter of words) {
    if (table.has(letter.codePointAt(0)!)) shown += letter
    else shown += /\s/u.test(letter) ? ' ' : '?'
  }
  return shown
}

/** The face itself, or the sans in its place when the words need letters that only the sans has. */
export function faceFor(words: string, face: Face): Face {
  if (face !== 'letter' && face !== 'title') return face
  const own = widthsOf(face)
  const sans: Face = face === 'title' ? 'strong' : 'text'
  const other = widthsOf(sans)
  for (const letter of words) {
    const code = letter.codePointAt(0)!
    if (!own.has(code) && other.has(code)) return sans
  }
  return face
}

/** Breaks at spaces, and inside a word only when the word alone is wider than the line. */
export function wrapped(words: string, width: number, lettering: Lettering): string[] {
  const lines: string[] = []
  for (const paragraph of words.split('\n')) {
    let current = ''
    for (const word of paragraph.split(' ').flatMap((word) => broken(word, width, lettering))) {
      const longer = current === '' ? word : `${current} ${word}`
      if (current === '' || textWidth(longer, lettering) <= width) current = longer
      else {
        lines.push(current)
        current = word
      }
    }
    lines.push(current)
  }
  return lines
}

/** The words on one line, cut with an ellipsis where they would pass `width`. */
export function shortened(words: string, width: number, lettering: Lettering): string {
  if (textWidth(words, lettering) <= width) return words
  const letters = [...words]
  while (letters.length > 0 && textWidth(`${letters.join('')}…`, lettering) > width) letters.pop()
  return `${letters.join('').trimEnd()}…`
}

function broken(word: string, width: number, lettering: Lettering): string[] {
  if (textWidth(word, lettering) <= width) return [word]
  const parts: string[] = []
  let part = ''
  for (const letter of word) {
    if (part !== '' && textWidth(part + letter, lettering) > width) {
      parts.push(part)
      part = ''
    }
    part += letter
  }
  return [...parts, part]
}

function widthsOf(face: Face): Map<number, number> {
  const known = advances.get(face)
  if (known !== undefined) return known
  const table = new Map<number, number>()
  for (const [first, row] of advanceRuns[face]) {
    row.split(' ').forEach((width, i) => {
      table.set(first + i, Number(width))
    })
  }
  advances.set(face, table)
  return table
}
