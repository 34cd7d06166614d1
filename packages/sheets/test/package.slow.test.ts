import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { StudyDesign } from '@finwright/core/assess/design.ts'
import { beforeAll, describe, expect, test } from 'vitest'
import { answersIn } from '../src/answers.ts'
import { buildPackage, type PackageFile } from '../src/package.ts'
import { correctionFor } from '../src/printer.ts'
import { demoAssessment, demoDesign } from './fixture/demo.ts'
import { demoInput, demoPackage } from './fixture/package.ts'
import { type ReadPage, readPdf, squaresIn } from './reading/pdf.ts'

interface Read {
  readonly path: string
  readonly pages: readonly ReadPage[]
  readonly preferences: unknown
}

let files: readonly PackageFile[] = []
let pdfs: readonly Read[] = []

beforeAll(async () => {
  files = await demoPackage()
  pdfs = await read(files)
}, 120_000)

async function read(from: readonly PackageFile[]): Promise<Read[]> {
  const found: Read[] = []
  for (const { path, bytes } of from) {
    if (path.endsWith('.pdf')) found.push({ path, ...(await readPdf(bytes as Uint8Array)) })
  }
  return found
}

const wordsOf = (pages: readonly ReadPage[]): string =>
  pages.flatMap(({ words }) => words.map(({ text }) => text)).join(' ')
const documentOf = (name: string): Read => pdfs.find(({ path }) => path.startsWith('a4/') && path.includes(name))!

test('holds every document, the roll and the shapes, the cover first', () => {
  expect(files[0].path).toBe('a4/01-cover.pdf')
  const names = files
    .filter(({ path }) => path.startsWith('a4/'))
    .map(({ path }) => path.replace(/^\w+\/\d+-|\.pdf$/g, ''))
  expect(names).toEqual([
    'cover',
    'flight-and-margins',
    'bay-map',
    'cut-sheets',
    'labels',
    'patterns',
    'tube-wrap',
    'gauges',
    'lay-up-sheets',
    'mix-cards',
    'traveller-A',
    'traveller-B',
    'sources',
  ])
  for (const { id } of demoDesign.plies) {
    expect(files.some(({ path }) => path === `shapes/${id}.svg`)).toBe(true)
    expect(files.some(({ path }) => path === `shapes/${id}.dxf`)).toBe(true)
  }
  expect(files.some(({ path }) => path === 'roll/patterns.pdf')).toBe(true)
})

test('pages have the size of their paper, ask for no scaling, and each has a check square of 100.00 mm', () => {
  let pages = 0
  for (const { path, pages: own, preferences } of pdfs) {
    expect(preferences, path).toMatchObject({ PrintScaling: 'None' })
    own.forEach((page, i) => {
      pages++
      if (path.startsWith('a4/')) {
        expect(page.width, path).toBeCloseTo(210, 3)
        expect(page.height, path).toBeCloseTo(297, 3)
      }
      const squares = squaresIn(page).filter(
        ({ across, along }) => Math.abs(across - 100) < 0.005 && Math.abs(along - 100) < 0.005,
      )
      expect(squares.length, `${path}, page ${i + 1}`).toBeGreaterThan(0)
    })
  }
  expect(pages).toBeGreaterThan(75)
})

test('the same input gives the same bytes', async () => {
  const again = await buildPackage(demoInput)
  expect(again.length).toBe(files.length)
  for (const { path, bytes } of again) {
    const first = files.find((file) => file.path === path)!
    expect(Buffer.from(bytes as string).equals(Buffer.from(first.bytes as string)), path).toBe(true)
  }
})

test('every page names its revision, date and its own hash', () => {
  for (const { path, pages } of pdfs) {
    const hashes = pages.map((page) => {
      const words = wordsOf([page])
      expect(words, path).toContain('0123456789ab')
      expect(words, path).toContain('2026-01-02')
      return /page ([0-9a-f]{8})/.exec(words)?.[1]
    })
    expect(
      hashes.every((hash) => hash !== undefined),
      path,
    ).toBe(true)
    expect(new Set(hashes).size, path).toBe(pages.length)
  }
})

describe('in words', () => {
  test('the cover says the verdict first, never that it is safe, and what the package is not', () => {
    const words = wordsOf(documentOf('cover').pages)
    const verdict = answersIn(demoAssessment, 'metric').find(({ question }) => question === 'Will it hold?')!.answer
    expect(words).toContain(verdict.split(' ').slice(0, 5).join(' '))
    expect(words.indexOf(verdict.slice(0, 20))).toBeLessThan(words.indexOf('What will it see?'))
    expect(words).toContain('gives nobody permission to fly')
    expect(words).toContain('range safety officer')
    for (const { message } of demoAssessment.warnings) expect(words).toContain(message.split(' ').slice(0, 6).join(' '))
    expect(
      pdfs
        .map(({ pages }) => wordsOf(pages))
        .join(' ')
        .toLowerCase(),
    ).not.toContain('safe to fly')
  })
  test('no sign of ours is missing from the fonts', () => {
    for (const { path, pages } of pdfs) {
      const odd = pages.flatMap(({ words }) => words.filter(({ text }) => text.includes('?') && !/\w\?/.test(text)))
      expect(odd, path).toEqual([])
    }
  })
  test('mix cards weigh: by mass, running total, window, and the way back from too much hardener', () => {
    const words = wordsOf(documentOf('mix-cards').pages)
    expect(words).toContain('BY MASS')
    expect(words).toContain('weighed, never by volume')
    const [first] = demoAssessment.resin.batches
    for (const mass of [first.resin_kg, first.hardener_kg, first.runningTotals_kg[1]]) {
      expect(words.includes(`${(mass * 1e3).toFixed(1)} g`)).toBe(true)
    }
    for (const batch of demoAssessment.resin.batches)
      expect(words.replace(/ +/g, ' ').includes(batch.plies.join(' '))).toBe(true)
    // 20 % too much hardener: resin to the ratio 100:28.4 again, and what the scale then shows
    const hardener = first.hardener_kg * 1.2 * 1e3
    expect(words.includes((hardener / 0.284 + hardener).toFixed(1))).toBe(true)
  })
  test('the traveller has its hold points, one page for the range officer, and every can its own', () => {
    for (const letter of ['A', 'B']) {
      const words = wordsOf(documentOf(`traveller-${letter}`).pages)
      expect(words.match(/HOLD/g)!.length).toBeGreaterThanOrEqual(8)
      expect(words).toContain(`can ${letter} (`)
      expect(words.match(/FOR THE RANGE SAFETY OFFICER/g)).toHaveLength(1)
      expect(words).toContain('complete / incomplete')
    }
  })
  test('cut sheets and labels name every piece', () => {
    const cut = wordsOf(documentOf('cut-sheets').pages)
    const labels = wordsOf(documentOf('labels').pages)
    expect(demoAssessment.pattern.pieces.length).toBe(56)
    for (const { id } of demoAssessment.pattern.pieces) {
      expect(cut).toContain(id)
      expect(labels).toContain(id)
    }
  })
})

describe('a printer that is off', () => {
  const measured = (across: number, along: number) => ({
    ...demoDesign,
    printing: { ...demoDesign.printing, measured: { across, along } },
  })
  test('is corrected per axis, and the true-scale pages say so', async () => {
    const design = measured(0.0993, 0.0996)
    const corrected = await read(await buildPackage({ ...demoInput, design, pageSizes: ['a4'] }))
    const patterns = corrected.find(({ path }) => path.includes('patterns') && path.startsWith('a4'))!
    for (const page of patterns.pages) {
      const [square] = squaresIn(page).filter(({ across }) => Math.abs(across - 100) < 2)
      expect(square.across * 0.993).toBeCloseTo(100, 3)
      expect(square.along * 0.996).toBeCloseTo(100, 3)
    }
    expect(wordsOf(patterns.pages)).toContain('corrected for this printer: × 1.0070 across, × 1.0040 along')
    const roll = corrected.find(({ path }) => path.startsWith('roll'))!
    expect(squaresIn(roll.pages[0]).some(({ across }) => Math.abs(across - 100) < 0.005)).toBe(true)
  })
  test('is refused when the driver has fitted the page', () => {
    const refused = correctionFor(measured(0.0971, 0.0998))
    expect(refused.ok).toBe(false)
    expect(!refused.ok && refused.issues[0].hint).toContain('actual size')
  })
})

describe('where numbers are missing', () => {
  const empty: Assessment = {
    ...demoAssessment,
    flight: {
      ...demoAssessment.flight,
      maximumMach: null,
      maximumDynamicPressure_Pa: null,
      maximumAltitude_m: null,
      at: null,
      recovery: null,
      history: null,
    },
    structure: { ...demoAssessment.structure, modes: [], tipLoad: null },
    flutter: { ...demoAssessment.flutter, boundary: [], screening: null },
    strength: {
      ...{ failureIndex: null, ply: null, position_m: null, criterion: null, secondOpinion: null, load: null },
      ...{ tipEquivalent: null, rootLine: null, map: null, through: [] },
    },
    bond: { fillet: null, margin: null, joint: null },
    nest: { ...demoAssessment.nest, rolls: [], buy: [] },
    resin: { ...demoAssessment.resin, cloth_kg: null, batches: [], perPly: [], losses: null, ratio: null, kit: null },
    sources: [],
    warnings: [],
  }
  test('the package is still made, without the sheets that have nothing to say', async () => {
    const made = await buildPackage({ ...demoInput, assessment: empty, pageSizes: ['letter'] })
    const names = made.map(({ path }) => path).join(' ')
    expect(names).toContain('cover')
    expect(names).not.toContain('mix-cards')
    expect(names).not.toContain('cut-sheets')
  })
  test('a study has its cover, its margins and its sources', async () => {
    const none = { covers: [], rules: [], balance: null, allowances: [], shear: [], relief: [] }
    const pattern = { section: null, bay: null, tube: null, shapes: [], pieces: [], ...none }
    const study = { ...empty, kind: 'study', pattern } as const
    const design = { kind: 'study', name: 'plate' } as StudyDesign
    const made = await buildPackage({ ...demoInput, assessment: study, design, pageSizes: ['a4'] })
    expect(made.map(({ path }) => path)).toEqual([
      'a4/01-cover.pdf',
      'a4/02-flight-and-margins.pdf',
      'a4/03-sources.pdf',
    ])
  })
})
