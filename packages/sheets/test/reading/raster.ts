/** A page of a PDF as grey pixels, drawn by pdftoppm (Debian: poppler-utils), another renderer than anything of ours. */
import { execFileSync } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'

export interface Raster {
  readonly width: number
  readonly height: number
  /** 0 black – 255 white, row by row from the top. */
  readonly grey: Uint8Array
}

export function rasterOf(pdf: Uint8Array, { page, dpi }: { readonly page: number; readonly dpi: number }): Raster {
  const folder = mkdtempSync(join(tmpdir(), 'finwright-raster-'))
  try {
    const file = join(folder, 'in.pdf')
    writeFileSync(file, pdf)
    const range = ['-f', `${page}`, '-l', `${page}`, '-singlefile']
    execFileSync('pdftoppm', ['-gray', '-r', `${dpi}`, ...range, file, join(folder, 'out')])
    return readPgm(readFileSync(join(folder, 'out.pgm')))
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

function readPgm(bytes: Buffer): Raster {
  const head = /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.subarray(0, 64).toString('latin1'))
  if (head === null) throw new Error('not a grey PGM of 8 bits')
  return { width: Number(head[1]), height: Number(head[2]), grey: bytes.subarray(head[0].length) }
}

/** Middles of the dark runs along a row (or a column), in pixels. */
export function darkRuns(
  { width, height, grey }: Raster,
  along: 'row' | 'column',
  at: number,
  from: number,
  to: number,
): number[] {
  const runs: number[] = []
  let start: number | null = null
  const end = Math.min(to, along === 'row' ? width : height)
  for (let i = from; i <= end; i++) {
    const value = i === end ? 255 : along === 'row' ? grey[at * width + i] : grey[i * width + at]
    if (value < 160 && start === null) start = i
    else if (value >= 160 && start !== null) {
      runs.push((start + i - 1) / 2)
      start = null
    }
  }
  return runs
}
