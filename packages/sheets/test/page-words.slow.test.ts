/**
 * Words on the sheets keep to themselves: inside the printable area, and none across another. Read back from the PDF, with
 * the widths that pdf.js takes from the embedded fonts.
 */
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs'
import { beforeAll, expect, test } from 'vitest'
import { text } from '../src/drawing/drawing.ts'
import { pagesAsPdf } from '../src/drawing/pdf.ts'
import { figuresIn } from '../src/layout/figures.ts'
import { framed, papers } from '../src/layout/paper.ts'
import type { PackageFile } from '../src/package.ts'
import { buildPackage } from '../src/package.ts'
import { marginSheets } from '../src/sheets/margins.ts'
import { demoAssessment } from './fixture/demo.ts'
import { filled } from './fixture/filled.ts'
import { demoInput, demoPackage } from './fixture/package.ts'

interface Word {
  readonly text: string
  readonly corners: readonly (readonly [number, number])[]
}

const mm = 25.4 / 72

/** Boxes from the base line to the capitals, mm from the upper left corner. */
async function wordsOn(pdf: Uint8Array): Promise<{ width: number; height: number; words: Word[] }[]> {
  const doc = await getDocument({ data: new Uint8Array(pdf), isEvalSupported: false, verbosity: 0 }).promise
  const pages = []
  for (let n = 1; n <= doc.numPages; n++) {
    const page = await doc.getPage(n)
    const [, , width, height] = page.view
    const { items } = await page.getTextContent()
    const words = items.flatMap((item): Word[] => {
      if (!('str' in item) || item.str.trim() === '') return []
      const [a, b, c, d, x, y] = item.transform as number[]
      const size = Math.hypot(c, d)
      const along = [a / Math.hypot(a, b), b / Math.hypot(a, b)]
      const up = [c / size, d / size]
      const corner = (w: number, h: number) =>
        [(x + along[0] * w + up[0] * h) * mm, (height - (y + along[1] * w + up[1] * h)) * mm] as const
      const cap = 0.66 * size
      return [
        { text: item.str, corners: [corner(0, 0), corner(item.width, 0), corner(item.width, cap), corner(0, cap)] },
      ]
    })
    pages.push({ width: width * mm, height: height * mm, words })
  }
  await doc.destroy()
  return pages
}

function meet(a: Word, b: Word): boolean {
  return !apart(a.corners, b.corners) && !apart(b.corners, a.corners)
}

/** Touching by less than this is none, mm. */
const slack = 0.25

function apart(a: Word['corners'], b: Word['corners']): boolean {
  return a.some(([x0, y0], i) => {
    const [x1, y1] = a[(i + 1) % a.length]
    const length = Math.hypot(x1 - x0, y1 - y0)
    const normal = [(y1 - y0) / length, (x0 - x1) / length]
    const reach = (points: Word['corners']) => points.map(([x, y]) => normal[0] * x + normal[1] * y)
    const [A, B] = [reach(a), reach(b)]
    return Math.max(...A) - slack < Math.min(...B) || Math.max(...B) - slack < Math.min(...A)
  })
}

let files: readonly PackageFile[] = []
beforeAll(async () => {
  files = await demoPackage()
}, 120_000)

/** Tiles cut their picture off at the frame, so words there may lie across it. */
const cutOff = /patterns|tube-wrap/

async function faultsOf(some: readonly PackageFile[]): Promise<string[]> {
  const faults: string[] = []
  for (const { path, bytes } of some.filter((file) => file.path.endsWith('.pdf'))) {
    for (const [n, { width, height, words }] of (await wordsOn(bytes as Uint8Array)).entries()) {
      const place = `${path} page ${n + 1}`
      if (!cutOff.test(path)) {
        for (const { text, corners } of words) {
          const inside = corners.every(([x, y]) => x > 9.8 && x < width - 9.8 && y > 9.8 && y < height - 9.8)
          if (!inside) faults.push(`${place}: '${text}' leaves the page`)
        }
      }
      words.forEach((word, i) => {
        for (const other of words.slice(i + 1))
          if (meet(word, other)) faults.push(`${place}: '${word.text}' on '${other.text}'`)
      })
    }
  }
  return faults
}

test('no word lies on another, and none leaves the page', async () => {
  expect(await faultsOf(files)).toEqual([])
}, 120_000)

test('has teeth: a word across another and a word over the edge are found', async () => {
  const items = [
    text([20, 50], 'one word', { size: 5 }),
    text([30, 51], 'another', { size: 5 }),
    text([3, 90], 'edge', { size: 5 }),
  ]
  const bytes = await pagesAsPdf([{ width: 100, height: 100, title: 'faults', items }], {
    title: '',
    subject: '',
    date: '2026-01-02',
  })
  const faults = await faultsOf([{ path: 'faults.pdf', bytes }])
  expect(faults).toEqual(["faults.pdf page 1: 'edge' leaves the page", "faults.pdf page 1: 'one word' on 'another'"])
})

test.each([
  ['a4', 'metric'],
  ['letter', 'us'],
] as const)('nor where every number of Will it hold exists: %s, %s', async (size, units) => {
  const assessment = filled(demoAssessment)
  const leaves = marginSheets({ assessment, paper: papers[size], figures: figuresIn(units) })
  const pages = framed(leaves, papers[size], { project: assessment.name, revision: demoInput.revision })
  const bytes = await pagesAsPdf(pages, { title: '', subject: '', date: '2026-01-02' })
  expect(pages).toHaveLength(7)
  expect(await faultsOf([{ path: `${size}.pdf`, bytes }])).toEqual([])
})

test('nor on Letter, in US units, with long names', async () => {
  const name = 'A rocket whose name goes on and on until it is too long for any strip of any sheet, and further'
  const assessment = { ...demoAssessment, name, note: `${name} – ${name}` }
  const made = await buildPackage({ ...demoInput, assessment, units: 'us', pageSizes: ['letter'] })
  expect(await faultsOf(made)).toEqual([])
  const [first] = await wordsOn(made.find(({ path }) => path === 'letter/01-cover.pdf')!.bytes as Uint8Array)
  expect([first.width, first.height].map((side) => Number(side.toFixed(3)))).toEqual([215.9, 279.4])
}, 120_000)
