import DxfParser from 'dxf-parser'
import { describe, expect, test } from 'vitest'
import { arcVertices, circle, group, type Page, path, pen, rectangle, stroke, text } from '../../src/drawing/drawing.ts'
import { pageAsDxf } from '../../src/drawing/dxf.ts'
import { arcOf, extent } from '../../src/drawing/extent.ts'
import { pagesAsPdf } from '../../src/drawing/pdf.ts'
import { pageAsSvg } from '../../src/drawing/svg.ts'
import { readPdf } from '../reading/pdf.ts'

const line = stroke(pen.fine)
const page = (items: Page['items']): Page => ({ width: 120, height: 90, title: 'a page', items })
const meta = { title: 'Test', subject: '', date: '2026-01-02' }

test('an arc made of vertices lies on its circle, and its bulge gives the circle back', () => {
  const vertices = arcVertices([50, 40], 15, -1, 4)
  for (const [x, y] of vertices) expect(Math.hypot(x - 50, y - 40)).toBeCloseTo(15, 9)
  const [a, b] = vertices
  const { centre, radius, sweep } = arcOf([a[0], a[1]], [b[0], b[1]], a[2]!)
  expect(centre[0]).toBeCloseTo(50, 9)
  expect(centre[1]).toBeCloseTo(40, 9)
  expect(radius).toBeCloseTo(15, 9)
  expect(sweep).toBeCloseTo(5 / 4, 9)
})

test('the box of a circle is its diameter', () => {
  const box = extent([circle([20, 30], 8, { stroke: line })])!
  expect([box.x, box.y, box.width, box.height].map((v) => Number(v.toFixed(6)))).toEqual([12, 22, 16, 16])
})

describe('PDF', () => {
  test('places millimetres exactly, keeps clips, and asks for no scaling', async () => {
    const inner = rectangle({ x: 5, y: 5, width: 20, height: 10 }, { stroke: line })
    const clip = { x: 12, y: 20, width: 8, height: 8 }
    const pdf = await pagesAsPdf([page([inner, group([inner], { move: [10, 20], clip })])], meta)
    const { pages, preferences } = await readPdf(pdf)
    expect(pages[0].width).toBeCloseTo(120, 4)
    expect(preferences).toMatchObject({ PrintScaling: 'None' })
    const [first, second] = pages[0].paths
    expect(first.points[0][0]).toBeCloseTo(5, 4)
    expect(first.points[2]).toEqual([expect.closeTo(25, 4), expect.closeTo(15, 4)])
    expect(second.points[0]).toEqual([expect.closeTo(15, 4), expect.closeTo(25, 4)])
    expect(second.clip!.map((v) => Number(v.toFixed(3)))).toEqual([12, 20, 20, 28])
  })

  test('is the same bytes for the same pages and date, and others for another date', async () => {
    const pages = [page([text([10, 10], 'once', { size: 4 }), circle([30, 30], 5, { stroke: line })])]
    const [once, again, later] = await Promise.all([
      pagesAsPdf(pages, meta),
      pagesAsPdf(pages, meta),
      pagesAsPdf(pages, { ...meta, date: '2026-01-03' }),
    ])
    expect(Buffer.compare(Buffer.from(once), Buffer.from(again))).toBe(0)
    expect(Buffer.compare(Buffer.from(once), Buffer.from(later))).not.toBe(0)
  })

  test('holds its text as text, where it was put', async () => {
    const { pages } = await readPdf(
      await pagesAsPdf([page([text([10, 20], '±5 % · 45° → ½', { size: 4, face: 'letter' })])], meta),
    )
    expect(pages[0].words.map(({ text }) => text).join('')).toBe('±5 % · 45° → ½')
    expect(pages[0].words[0].at[0]).toBeCloseTo(10, 3)
    expect(pages[0].words[0].at[1]).toBeCloseTo(20, 3)
  })
})

describe('DXF', () => {
  test('is in millimetres, y up, closed outlines on their layers', () => {
    const dxf = new DxfParser().parseSync(
      pageAsDxf(
        page([
          path(
            [
              [0, 0],
              [30, 0],
              [30, 20],
            ],
            true,
            { layer: 'cut', stroke: line },
          ),
          text([5, 5], '45°', { size: 4 }),
        ]),
      ),
    )!
    expect(dxf.header.$INSUNITS).toBe(4)
    const outline = dxf.entities.find(({ layer }) => layer === 'CUT') as unknown as {
      shape: boolean
      vertices: { x: number; y: number }[]
    }
    expect(outline.shape).toBe(true)
    expect(outline.vertices.map(({ x, y }) => [x, y])).toEqual([
      [0, 90],
      [30, 90],
      [30, 70],
    ])
    expect(dxf.entities.some(({ type, layer }) => type === 'TEXT' && layer === 'TEXT')).toBe(true)
  })
})

describe('SVG', () => {
  test('says millimetres and escapes what it is given', () => {
    const svg = pageAsSvg({ ...page([text([1, 2], 'a < b & "c"', { size: 4 })]), title: '<script>' })
    expect(svg).toContain('width="120mm" height="90mm" viewBox="0 0 120 90"')
    expect(svg).toContain('a &lt; b &amp; &quot;c&quot;')
    expect(svg).not.toContain('<script>')
  })
})
