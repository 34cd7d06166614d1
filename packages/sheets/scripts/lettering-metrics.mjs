/**
 * Writes src/drawing/metrics.data.ts: the advance width of every letter the sheets may use, out of the font files.
 * Run from packages/sheets: node scripts/lettering-metrics.mjs
 */
import { writeFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { pathToFileURL } from 'node:url'

const require = createRequire(import.meta.url)
const fontkit = require('fontkit')

const files = {
  text: '@expo-google-fonts/source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  strong: '@expo-google-fonts/source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  italic: '@expo-google-fonts/source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  letter: '@expo-google-fonts/national-park/400Regular/NationalPark_400Regular.ttf',
  title: '@expo-google-fonts/national-park/600SemiBold/NationalPark_600SemiBold.ttf',
}

/** Latin, Greek, Cyrillic, punctuation, arrows and mathematical signs. */
const ranges = [
  [0x20, 0x7e],
  [0xa0, 0x24f],
  [0x370, 0x45f],
  [0x2010, 0x2122],
  [0x2190, 0x2193],
  [0x2202, 0x2265],
  [0x25a0, 0x25ff],
  [0x2713, 0x2713],
]

export function widths(face) {
  const font = fontkit.openSync(require.resolve(files[face]))
  const found = new Map()
  for (const [first, last] of ranges) {
    for (let code = first; code <= last; code++) {
      if (!font.hasGlyphForCodePoint(code)) continue
      const run = font.layout(String.fromCodePoint(code), { kern: false, liga: false })
      if (run.glyphs.length === 1) found.set(code, Math.round((run.advanceWidth * 1000) / font.unitsPerEm))
    }
  }
  return found
}

function runs(found) {
  const lines = []
  let expected = -1
  for (const [code, width] of found) {
    if (code === expected) lines.at(-1).widths.push(width)
    else lines.push({ first: code, widths: [width] })
    expected = code + 1
  }
  return lines.map(({ first, widths }) => `    [0x${first.toString(16)}, '${widths.join(' ')}'],`)
}

function write() {
  const faces = Object.keys(files).map((face) => `  ${face}: [\n${runs(widths(face)).join('\n')}\n  ],`)
  const source = `/**
 * Advance widths of the letters, in thousandths of the em, without kerning. A row is the
 * first code point of a run and the widths from there on. Written by scripts/lettering-metrics.mjs from the font files
 * (Source Sans 3 and National Park, SIL Open Font License 1.1); a test compares it with them.
 */
import type { Face } from './drawing.ts'

export const advanceRuns: { readonly [face in Face]: readonly (readonly [number, string])[] } = {
${faces.join('\n')}
}
`
  writeFileSync(new URL('../src/drawing/metrics.data.ts', import.meta.url), source)
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) write()
