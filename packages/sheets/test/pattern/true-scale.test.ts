/** Patterns at true scale: in the PDF's own coordinates, in a rendering, over the tiles, and against SVG and DXF. */
import DxfParser from 'dxf-parser'
import { beforeAll, describe, expect, test } from 'vitest'
import { buildPackage } from '../../src/package.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'
import { demoFile, demoInput } from '../fixture/package.ts'
import { type ReadPage, type ReadPath, readPdf, squaresIn, type XY } from '../reading/pdf.ts'
import { darkRuns, rasterOf } from '../reading/raster.ts'
import { readSvg } from '../reading/svg.ts'

const { shapes } = demoAssessment.pattern
/** Bay axes to the page: Y right, X down, mm. */
const expected = new Map(shapes.map(({ ply, outline_m }) => [ply, outline_m.map(([x, y]): XY => [y * 1e3, x * 1e3])]))

let tiles: readonly ReadPage[] = []
let roll: ReadPage
beforeAll(async () => {
  tiles = (await readPdf(await demoFile('a4/06-patterns.pdf'))).pages
  roll = (await readPdf(await demoFile('roll/patterns.pdf'))).pages[0]
}, 120_000)

/** The offset by which the path is the outline moved, or null. */
function offsetOf({ points, closed }: ReadPath, outline: readonly XY[]): XY | null {
  if (!closed || points.length !== outline.length) return null
  const [dx, dy] = [points[0][0] - outline[0][0], points[0][1] - outline[0][1]]
  const same = points.every(([x, y], i) => Math.hypot(x - outline[i][0] - dx, y - outline[i][1] - dy) < 0.01)
  return same ? [dx, dy] : null
}

describe('tiles', () => {
  test.each(shapes.map(({ ply }) => ply))('of %s put together make the whole outline at true scale', (ply) => {
    const outline = expected.get(ply)!
    const windows = tiles.flatMap(({ paths, words }) => {
      if (!words.some(({ text }) => text.startsWith(`${ply} · `))) return []
      return paths.flatMap((path) => {
        const offset = offsetOf(path, outline)
        if (offset === null || path.clip === null) return []
        const [x0, y0, x1, y1] = path.clip
        return [{ x0: x0 - offset[0], y0: y0 - offset[1], x1: x1 - offset[0], y1: y1 - offset[1] }]
      })
    })
    expect(windows.length).toBeGreaterThan(1)
    for (const point of along(outline, 0.5)) {
      const seen = windows.some(
        ({ x0, y0, x1, y1 }) => point[0] >= x0 && point[0] <= x1 && point[1] >= y0 && point[1] <= y1,
      )
      expect(seen, `${ply} at ${point}`).toBe(true)
    }
    const left = [...new Set(windows.map(({ x0 }) => x0.toFixed(3)))].map(Number).sort((a, b) => a - b)
    const width = windows[0].x1 - windows[0].x0
    for (let i = 1; i < left.length; i++) expect(left[i - 1] + width - left[i]).toBeCloseTo(10, 3)
  })

  test('keep everything at least 10 mm from the paper’s edge', () => {
    for (const { paths, width, height } of tiles) {
      for (const { points, clip } of paths) {
        const [x0, y0, x1, y1] = clip ?? [Number.NEGATIVE_INFINITY, Number.NEGATIVE_INFINITY, Infinity, Infinity]
        for (const [x, y] of points) {
          const [px, py] = [Math.min(Math.max(x, x0), x1), Math.min(Math.max(y, y0), y1)]
          expect(px > 9.99 && px < width - 9.99 && py > 9.99 && py < height - 9.99).toBe(true)
        }
      }
    }
  })

  test('that join print the same diamonds', () => {
    const named = tiles.map(({ words }) => words.map(({ text }) => text).filter((text) => /^[A-Z]\d$/.test(text)))
    const counts = new Map<string, number>()
    tiles.forEach(({ words }, i) => {
      const ply = words.find(({ text }) => / · row /.test(text))?.text.split(' · ')[0]
      for (const name of named[i]) counts.set(`${ply} ${name}`, (counts.get(`${ply} ${name}`) ?? 0) + 1)
    })
    expect(counts.size).toBeGreaterThan(10)
    for (const [name, count] of counts) expect(count, name).toBe(2)
  })
})

test('SVG, DXF and PDF give the same outline and the same check square to 0.01 mm', async () => {
  const decoder = new TextDecoder()
  for (const { ply, netOutline_m } of shapes) {
    const outline = expected.get(ply)!
    const svg = readSvg(decoder.decode(await demoFile(`shapes/${ply}.svg`)))
    expect(svg.width).toMatch(/mm$/)
    expect(Number(svg.width.replace('mm', ''))).toBeCloseTo(svg.viewBox[2], 6)
    const dxf = new DxfParser().parseSync(decoder.decode(await demoFile(`shapes/${ply}.dxf`)))!
    expect(dxf.header.$INSUNITS).toBe(4)
    const height = svg.viewBox[3]
    const lines = dxf.entities as unknown as { layer: string; shape: boolean; vertices: { x: number; y: number }[] }[]
    const fromDxf = (layer: string) =>
      lines
        .filter((line) => line.layer === layer && line.shape)
        .map(({ vertices }) => vertices.map(({ x, y }): XY => [x, height - y]))
    const fromSvg = (layer: string) =>
      svg.paths.filter((one) => one.layer === layer && one.closed).map(({ points }) => points)
    const fromPdf = roll.paths.filter((path) => offsetOf(path, outline) !== null)
    expect([fromSvg('cut').length, fromDxf('CUT').length]).toEqual([1, 1])
    expect(fromPdf.length, ply).toBeGreaterThan(0)
    sameShape(fromSvg('cut')[0], outline)
    sameShape(fromDxf('CUT')[0], outline)
    sameShape(fromPdf[0].points, outline)
    const net = netOutline_m.map(([x, y]): XY => [y * 1e3, x * 1e3])
    expect(fromSvg('mark').some((points) => isShape(points, net))).toBe(true)
    expect(fromDxf('MARK').some((points) => isShape(points, net))).toBe(true)
    for (const [square] of [fromSvg('check'), fromDxf('CHECK')]) {
      expect(Math.hypot(square[1][0] - square[0][0], square[1][1] - square[0][1])).toBeCloseTo(100, 6)
      expect(Math.hypot(square[2][0] - square[1][0], square[2][1] - square[1][1])).toBeCloseTo(100, 6)
    }
  }
})

test('SVG and DXF for cutters hold the layers CUT, MARK, TEXT and CHECK, drawn before cut, and letters of strokes', async () => {
  const decoder = new TextDecoder()
  for (const { ply } of shapes) {
    const svg = readSvg(decoder.decode(await demoFile(`shapes/${ply}.svg`)))
    expect(svg.groups).toEqual(['MARK', 'TEXT', 'CHECK', 'CUT'])
    expect(svg.others).toEqual([])
    for (const { layer, group } of svg.paths) expect(layer.toUpperCase()).toBe(group)
    const dxf = new DxfParser().parseSync(decoder.decode(await demoFile(`shapes/${ply}.dxf`)))!
    expect([...new Set(dxf.entities.map(({ type }) => type))]).toEqual(['LWPOLYLINE'])
    const layersOf = (names: readonly string[]) => [...new Set(names)].sort()
    expect(layersOf(dxf.entities.map(({ layer }) => layer))).toEqual(['CHECK', 'CUT', 'MARK', 'TEXT'])
    expect(svg.paths.filter(({ layer }) => layer === 'cut')).toHaveLength(1)
    expect(dxf.entities).toHaveLength(svg.paths.length)
    const [x0, y0, width, height] = svg.viewBox
    for (const { points } of svg.paths)
      for (const [x, y] of points) expect(x >= x0 && y >= y0 && x <= width && y <= height).toBe(true)
  }
})

test('each machine has its own correction: roll and cutter files are scaled by their squares, the printer’s are not', async () => {
  const printing = {
    ...demoDesign.printing,
    roll: { across: 0.0997, along: 0.1 },
    cutter: { across: 0.0985, along: 0.1004 },
  }
  const files = await buildPackage({ ...demoInput, pageSizes: [], design: { ...demoDesign, printing } })
  const bytes = (path: string) => files.find((file) => file.path === path)!.bytes
  const outline = expected.get('P5')!
  const size = (points: readonly XY[]) =>
    [0, 1].map((k) => Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k])))
  const [across, along] = size(outline)
  const svg = readSvg(bytes('shapes/P5.svg') as string)
  const cut = size(svg.paths.find(({ layer }) => layer === 'cut')!.points)
  expect(cut[0]).toBeCloseTo(across / 0.985, 4)
  expect(cut[1]).toBeCloseTo(along / 1.004, 4)
  const page = (await readPdf(bytes('roll/patterns.pdf') as Uint8Array)).pages[0]
  const wanted = outline.map(([x, y]): XY => [x / 0.997, y])
  expect(page.paths.some((path) => offsetOf(path, wanted) !== null)).toBe(true)
  expect(page.words.some(({ text }) => text.includes('corrected for this roll printer: × 1.0030 across'))).toBe(true)
}, 60_000)

test('has teeth: an outline a fiftieth of a millimetre wider is noticed', () => {
  const wider = expected.get('P5')!.map(([x, y]): XY => [x > 0 ? x + 0.02 : x, y])
  expect(roll.paths.some((path) => offsetOf(path, wider) !== null)).toBe(false)
})

test('the check square measures 100.00 mm in the file and 100.0 mm to a pixel at 300 dpi', async () => {
  const dpi = 300
  const perMm = dpi / 25.4
  const bytes = await demoFile('a4/06-patterns.pdf')
  for (const page of [1, 4]) {
    const [square] = squaresIn(tiles[page - 1]).filter(({ across }) => Math.abs(across - 100) < 1)
    expect(square.across).toBeCloseTo(100, 3)
    expect(square.along).toBeCloseTo(100, 3)
    const raster = rasterOf(bytes, { page, dpi })
    const [x, y] = [square.at[0] * perMm, square.at[1] * perMm]
    // through the full corners: 3 mm inside the square's upper left and lower right
    const inset = Math.round(3 * perMm)
    const near = (runs: readonly number[], at: number) =>
      runs.reduce((best, run) => (Math.abs(run - at) < Math.abs(best - at) ? run : best))
    const row = darkRuns(raster, 'row', Math.round(y) + inset, 0, raster.width)
    const column = darkRuns(raster, 'column', Math.round(x) + inset, 0, raster.height)
    const across = near(row, x + 100 * perMm) - near(row, x)
    const along = near(column, y + 100 * perMm) - near(column, y)
    expect(Math.abs(across - 100 * perMm)).toBeLessThanOrEqual(1)
    expect(Math.abs(along - 100 * perMm)).toBeLessThanOrEqual(1)
  }
}, 60_000)

const isShape = (found: readonly XY[], wanted: readonly XY[]): boolean =>
  found.length === wanted.length &&
  found.every(
    ([x, y], i) =>
      Math.hypot(x - found[0][0] - wanted[i][0] + wanted[0][0], y - found[0][1] - wanted[i][1] + wanted[0][1]) < 0.01,
  )

function sameShape(found: readonly XY[], wanted: readonly XY[]): void {
  expect(found.length).toBe(wanted.length)
  const [dx, dy] = [found[0][0] - wanted[0][0], found[0][1] - wanted[0][1]]
  found.forEach(([x, y], i) => {
    expect(Math.abs(x - wanted[i][0] - dx)).toBeLessThan(0.01)
    expect(Math.abs(y - wanted[i][1] - dy)).toBeLessThan(0.01)
  })
}

function along(outline: readonly XY[], step: number): XY[] {
  return outline.flatMap(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]
    const count = Math.ceil(Math.hypot(x1 - x0, y1 - y0) / step)
    return Array.from({ length: count }, (_, k): XY => [x0 + ((x1 - x0) * k) / count, y0 + ((y1 - y0) * k) / count])
  })
}
