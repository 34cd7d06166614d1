/**
 * Renders pages of a package to docs/images, on the colour of the paper: flutter boundary, bay map, first cut sheet, one pattern tile.
 * Needs pdftoppm (Debian: poppler-utils). From the repository's root:
 *   npx --no-install finwright sheets examples/demo.fincan.json --out out/demo
 *   node packages/sheets/scripts/pictures.mjs out/demo
 */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { crc32, deflateSync } from 'node:zlib'

/** Warm off-white, the paper of the screen and of these pictures; printed sheets leave it to the paper. */
const paper = [251, 248, 241]
const dpi = 110

const [folder, size = 'a4'] = process.argv.slice(2)
if (folder === undefined) throw new Error('give the folder of a package')
const images = new URL('../../../docs/images/', import.meta.url)

/** Which page of which document, by words that stand on it. */
const pictures = [
  { name: 'will-it-hold', file: 'flight-and-margins', holds: 'flutter boundary and flight' },
  { name: 'bay-map', file: 'bay-map', holds: 'BAY MAP' },
  { name: 'cut-sheet', file: 'cut-sheets', holds: 'CUT SHEET' },
  { name: 'pattern-tile', file: 'patterns', holds: 'P5 · 5 of 7 · row 2 · column 2' },
]

for (const { name, file, holds } of pictures) {
  const found = readdirSync(join(folder, size)).find((entry) => entry.includes(file))
  if (found === undefined) throw new Error(`no document '${file}' in ${folder}/${size}`)
  const pdf = join(folder, size, found)
  const page = pageThatHolds(pdf, holds)
  writeFileSync(new URL(`${name}.png`, images), onPaper(render(pdf, page)))
}

function pageThatHolds(pdf, words) {
  const pages = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' }).split('\f')
  const index = pages.findIndex((text) => text.includes(words))
  if (index < 0) throw new Error(`no page of ${pdf} holds '${words}'`)
  return index + 1
}

function render(pdf, page) {
  const temporary = mkdtempSync(join(tmpdir(), 'finwright-picture-'))
  try {
    execFileSync('pdftoppm', [
      '-r',
      `${dpi}`,
      '-f',
      `${page}`,
      '-l',
      `${page}`,
      '-singlefile',
      pdf,
      join(temporary, 'page'),
    ])
    return readFileSync(join(temporary, 'page.ppm'))
  } finally {
    rmSync(temporary, { recursive: true, force: true })
  }
}

function onPaper(ppm) {
  const head = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(ppm.subarray(0, 64).toString('latin1'))
  const [width, height] = [Number(head[1]), Number(head[2])]
  const pixels = ppm.subarray(head[0].length)
  const raw = Buffer.alloc(height * (1 + 3 * width))
  for (let y = 0; y < height; y++) {
    for (let i = 0; i < 3 * width; i++) {
      raw[y * (1 + 3 * width) + 1 + i] = Math.round((pixels[y * 3 * width + i] * paper[i % 3]) / 255)
    }
  }
  return png(width, height, raw)
}

function png(width, height, raw) {
  const header = Buffer.alloc(13)
  header.writeUInt32BE(width, 0)
  header.writeUInt32BE(height, 4)
  header.set([8, 2, 0, 0, 0], 8)
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a])
  return Buffer.concat([
    signature,
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(raw, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ])
}

function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const frame = Buffer.alloc(8)
  frame.writeUInt32BE(data.length, 0)
  frame.writeUInt32BE(crc32(body), 4)
  return Buffer.concat([frame.subarray(0, 4), body, frame.subarray(4)])
}
