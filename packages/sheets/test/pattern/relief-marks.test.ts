/** Slits on the pattern: read back from tiles, roll, SVG and DXF of an example that needs some. */
import { readFileSync } from 'node:fs'
import { assess } from '@finwright/core/assess/assess.ts'
import { invariant } from '@finwright/core/issue.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'
import DxfParser from 'dxf-parser'
import { beforeAll, expect, test } from 'vitest'
import { figuresIn } from '../../src/layout/figures.ts'
import { papers } from '../../src/layout/paper.ts'
import { buildPackage, type PackageFile } from '../../src/package.ts'
import { reliefMark } from '../../src/pattern/relief-marks.ts'
import { layupSheets } from '../../src/sheets/layup-sheets.ts'
import { type ReadPage, readPdf, type XY } from '../reading/pdf.ts'
import { readSvg } from '../reading/svg.ts'

const example = (name: string) => readFileSync(new URL(`../../../../examples/${name}`, import.meta.url), 'utf8')
const read = readPlan({
  text: example('boat-tail.fincan.json'),
  readAttachment: (name) => ({ ok: true, text: example(name) }),
})
invariant(read.ok && read.value.design.kind === 'can', 'the boat-tail is read')
const { design } = read.value
const assessed = assess(design)
invariant(assessed.ok, 'the boat-tail is assessed')
const { relief, shapes } = assessed.value.pattern

let files: readonly PackageFile[] = []
let tiles: readonly ReadPage[] = []
let roll: readonly ReadPage[] = []
const fileOf = (path: string): Uint8Array => {
  const { bytes } = files.find((one) => one.path === path)!
  return typeof bytes === 'string' ? new TextEncoder().encode(bytes) : bytes
}
beforeAll(async () => {
  const revision = { hash: '0123456789ab', date: '2026-01-02' }
  files = await buildPackage({ assessment: assessed.value, design, revision, units: 'metric', pageSizes: ['a4'] })
  tiles = (await readPdf(fileOf('a4/06-patterns.pdf'))).pages
  roll = (await readPdf(fileOf('roll/patterns.pdf'))).pages
}, 120_000)

const onPage = ([x, y]: readonly [number, number]): XY => [y * 1e3, x * 1e3]
const apart = (a: XY, b: XY): number => Math.hypot(a[0] - b[0], a[1] - b[1])

interface Line {
  readonly layer: string
  readonly points: readonly XY[]
}

/** How far off the innermost end the nearest 4 mm bar on MARK is, the outline taken as the frame. */
function barOffset(lines: readonly Line[], cut: readonly XY[], to: XY, mark: string): number {
  const shapeOf = (ply: readonly XY[]) => lines.find(({ points }) => points.length === ply.length && same(points, ply))
  const outline = shapeOf(cut)!
  const move: XY = [outline.points[0]![0] - cut[0]![0], outline.points[0]![1] - cut[0]![1]]
  const bars = lines.filter(
    ({ layer, points }) => layer === mark && points.length === 2 && Math.abs(apart(points[0]!, points[1]!) - 4) < 0.01,
  )
  return Math.min(
    ...bars.map(({ points: [a, b] }) => apart([(a![0] + b![0]) / 2 - move[0], (a![1] + b![1]) / 2 - move[1]], to)),
  )
}
const same = (points: readonly XY[], outline: readonly XY[]): boolean =>
  points.every((p, i) => Math.abs(apart(p, points[0]!) - apart(outline[i]!, outline[0]!)) < 0.02)

test('the example asks for two, and every file ends them where the assessment does', () => {
  expect(relief).toHaveLength(2)
  const decoder = new TextDecoder()
  for (const { ply, to_m } of relief) {
    const cut = shapes.find((shape) => shape.ply === ply)!.outline_m.map(onPage)
    const to = onPage(to_m)
    const svg = readSvg(decoder.decode(fileOf(`shapes/${ply}.svg`)))
    const fromSvg = svg.paths.map(({ group, points }): Line => ({ layer: group, points }))
    const dxf = new DxfParser().parseSync(decoder.decode(fileOf(`shapes/${ply}.dxf`)))!
    const entities = dxf.entities as unknown as { layer: string; vertices: { x: number; y: number }[] }[]
    const fromDxf = entities.map(
      ({ layer, vertices }): Line => ({
        layer,
        points: vertices.map(({ x, y }): XY => [x, svg.viewBox[3]! - y]),
      }),
    )
    for (const lines of [fromSvg, fromDxf]) {
      expect(barOffset(lines, cut, to, 'MARK')).toBeLessThan(0.02)
      expect(lines.filter(({ layer }) => layer === 'CUT')).toHaveLength(1)
    }
    const fromRoll = roll[0]!.paths.map(({ points }): Line => ({ layer: 'page', points }))
    expect(barOffset(fromRoll, cut, to, 'page')).toBeLessThan(0.02)
  }
})

test('the words say to cut only what wrinkles, on tiles and roll alike, and only on the plies concerned', () => {
  const said = (pages: readonly ReadPage[]) =>
    pages.flatMap(({ words }) => words.map((word) => word.text).filter((word) => word.endsWith('only if it wrinkles')))
  const names = ['stop short 1: only if it wrinkles', 'stop short 2: only if it wrinkles']
  expect([...new Set(said(roll))].sort()).toEqual(names)
  expect([...new Set(said(tiles))].sort()).toEqual(names)
  const { ply } = relief[0]!
  for (const { words } of tiles.filter((page) => said([page]).length > 0))
    expect(words.some((word) => word.text.startsWith(`${ply} · `))).toBe(true)
})

const sheetWords = (pattern: typeof assessed.value.pattern): string =>
  JSON.stringify(
    layupSheets({
      assessment: { ...assessed.value, pattern },
      design,
      identity: { project: 'boat-tail', revision: { hash: '0', date: '2026-01-02' } },
      paper: papers.a4,
      figures: figuresIn('metric'),
    }).flatMap(({ items }) => items.flatMap((item) => (item.kind === 'text' ? [item.text] : []))),
  )

test('the lay-up sheets list them by the same names, and nothing where there is none', () => {
  const words = sheetWords(assessed.value.pattern)
  expect(words).toContain('P6 stop short 1')
  expect(words).toContain('stop short 2')
  expect(sheetWords({ ...assessed.value.pattern, relief: [] })).not.toContain('wrinkles')
})

test('a mirrored bay has them across the centre line', () => {
  const { pattern } = assessed.value
  const [slit] = relief
  const turned = pattern.pieces.map((piece) => (piece.bay === 2 ? { ...piece, angle_deg: -30 } : piece))
  const words = sheetWords({ ...pattern, relief: [slit!], pieces: turned })
  const across = (slit!.from_m[1] * 1e3).toFixed(1).replace('-', '')
  // bays 1 and 3 as drawn, bay 2 on the other side; words may break over lines
  expect(words.split(`, −${across} mm`)).toHaveLength(3)
  expect(words.split(`, ${across} mm`)).toHaveLength(2)
})

test('a slit is drawn out to the cut edge, and stays whole where it starts there', () => {
  const cut: XY[] = [
    [0, 0],
    [100, 0],
    [100, 100],
    [0, 100],
  ]
  const drawn = (from: XY, to: XY) =>
    reliefMark({ ...relief[0]!, kind: 'cut' }, 0, { from, to, cut, why: 'only if it wrinkles' })
  expect(drawn([50, 12], [50, 30]).lines[0]).toEqual([
    [50, 0],
    [50, 30],
  ])
  expect(drawn([50, 0], [50, 30]).lines[0]![0]).toEqual([50, 0])
  expect(drawn([50, 12], [50, 30]).label).toBe('slit 1: only if it wrinkles')
})
