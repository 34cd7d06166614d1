/** The demo's lay-up ended with a film, through the shell: its pieces stand in everything that is printed, plotted or listed. */
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import DxfParser from 'dxf-parser'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { type ReadPage, readPdf } from '../../sheets/test/reading/pdf.ts'
import { readSvg } from '../../sheets/test/reading/svg.ts'
import { finwright, root } from './command.ts'
import { example } from './plans.ts'

const folder = mkdtempSync(join(tmpdir(), 'finwright-film-'))
const made = join(folder, 'package')
const pieces = ['A', 'B'].flatMap((can) => [1, 2, 3, 4].map((bay) => `${can}-${bay}-F1`))

beforeAll(() => {
  copyFileSync(join(root, 'examples', 'demo-thrust.csv'), join(folder, 'demo-thrust.csv'))
  const plan = example('demo', (demo) => {
    demo.plies.push({ cloth: 'plastic-film', role: 'film' })
  })
  const file = join(folder, 'film.fincan.json')
  writeFileSync(file, JSON.stringify(plan))
  const { code, err } = finwright('sheets', file, '--out', made)
  expect({ code, err: err.includes('plastic') || err.includes('Plastic') }).toEqual({ code: 0, err: true })
}, 120_000)
afterAll(() => rmSync(folder, { recursive: true, force: true }))

async function pagesOf(name: string): Promise<ReadPage[]> {
  const file = readdirSync(join(made, 'a4')).find((one) => one.includes(name))!
  return (await readPdf(readFileSync(join(made, 'a4', file)))).pages
}

const wordsOf = (pages: readonly ReadPage[]): string =>
  pages.map(({ words }) => words.map(({ text }) => text).join(' ')).join('\n')

/** Area by the shoelace, mm². */
const area = (points: readonly (readonly [number, number])[]): number =>
  Math.abs(
    points.reduce((sum, [x, y], i) => {
      const [u, v] = points[(i + 1) % points.length]!
      return sum + x * v - u * y
    }, 0) / 2,
  )

const rowsOf = (name: string): string[][] =>
  readFileSync(join(made, name), 'utf8')
    .trim()
    .split('\r\n')
    .map((row) => row.split(','))

test('the cut list names every piece of film once, with no warp, to come off', () => {
  const [head, ...rows] = rowsOf('cut-list.csv')
  const film = rows
    .filter(([, , , , , ply]) => ply === 'F1')
    .map((row) => Object.fromEntries(row.map((v, i) => [head![i], v])))
  expect(film.map(({ piece }) => piece).sort()).toEqual(pieces)
  for (const row of film)
    expect(row).toMatchObject({ 'after cure': 'comes off', 'warp angle deg': '', 'warp on the roll': 'any way' })
  expect(new Set(rows.filter(([, , , , , ply]) => ply === 'P1').map((row) => row[7]))).toEqual(new Set(['stays']))
})

test('it is to be bought, by the metre', () => {
  const row = rowsOf('cloth.csv').find(([cloth]) => cloth!.startsWith('Plastic film'))!
  expect(row[1]).toBe('comes off')
  expect(Number(row[5])).toBeGreaterThan(0.3)
  expect(Number(row.at(-1))).toBe(Number(row[5]))
})

test('SVG, DXF and the cut list agree on the area of a piece', () => {
  const [head, ...rows] = rowsOf('cut-list.csv')
  const listed = Number(rows.find(([, , , , , ply]) => ply === 'F1')![head!.indexOf('area cm2')]) * 100
  const svg = readSvg(readFileSync(join(made, 'shapes', 'F1.svg'), 'utf8'))
  const cut = svg.paths.filter(({ group, closed }) => group === 'CUT' && closed)
  expect(cut).toHaveLength(1)
  expect(area(cut[0]!.points)).toBeCloseTo(listed, -2)
  const dxf = new DxfParser().parseSync(readFileSync(join(made, 'shapes', 'F1.dxf'), 'utf8'))!
  const loops = dxf.entities.filter(({ layer }) => layer.toLowerCase() === 'cut')
  const corners = loops.flatMap((entity) =>
    'vertices' in entity ? [entity.vertices as { x: number; y: number }[]] : [],
  )
  expect(corners).toHaveLength(1)
  expect(area(corners[0]!.map(({ x, y }) => [x, y] as const))).toBeCloseTo(listed, -2)
})

test('PDF: nested, labelled, drawn at true scale, and said that it does not shear', async () => {
  const [cut, labels, patterns, layup] = await Promise.all(['cut-sheets', 'labels', 'patterns', 'lay-up'].map(pagesOf))
  const roll = wordsOf(cut!.filter((page) => wordsOf([page]).includes('A-1-F1')))
  for (const piece of pieces) {
    expect(roll).toContain(piece)
    expect(wordsOf(labels!)).toContain(piece)
  }
  expect(wordsOf(patterns!)).toMatch(/slit \d: film does not shear/)
  expect(layup).toHaveLength(8)
  for (const page of layup!) {
    expect(wordsOf([page])).toMatch(/F1 does not shear, and would have to by 15° round the fillet’s run-out/)
    expect(wordsOf([page])).toContain('deviations')
  }
})

test('nothing of it is in the laminate, in the mix or in the weight of the can', () => {
  const file = join(folder, 'film.fincan.json')
  const answer = (path: string) => JSON.parse(finwright('assess', path, '--json').out)
  const [bare, covered] = [join(root, 'examples', 'demo.fincan.json'), file].map(answer)
  for (const section of ['fin', 'structure', 'flutter', 'strength', 'bond'] as const)
    expect(covered[section], section).toEqual(bare[section])
  expect(covered.resin.total).toEqual(bare.resin.total)
})
