/** In a browser: from the first question to a PDF to print and to the whole package, with no accessibility violation on the way. */
import { readFileSync } from 'node:fs'
import { unzipSync } from 'fflate'
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  accessibilityFaults,
  buildApp,
  freshFolder,
  openBrowser,
  type RunningServer,
  removeFolder,
  startServer,
} from './app.ts'

let browser: Browser
let server: RunningServer
const data = freshFolder()

beforeAll(async () => {
  buildApp()
  server = await startServer(data)
  browser = await openBrowser()
}, 300_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  removeFolder(data)
})

test('first run to a printed package', { timeout: 600_000 }, async () => {
  const page = await browser.newPage({ acceptDownloads: true, viewport: { width: 1440, height: 900 } })
  const faults: string[] = []
  page.on('pageerror', ({ message }) => faults.push(message))
  await page.goto(`${server.address}/start`)

  await page.getByLabel('Top speed, Mach number').fill('fast')
  await expect.poll(() => page.getByText('Mach number is', { exact: false }).count()).toBeGreaterThan(0)
  await page.getByLabel('Top speed, Mach number').fill('0.7')
  expect(await accessibilityFaults(page)).toEqual([])
  for (const title of [
    'What tube',
    'How many fins',
    'What sheet',
    'What cloth',
    'Which resin',
    'Where is it',
    'Is there a',
  ]) {
    await page.getByRole('button', { name: 'Next' }).click()
    await page.getByRole('heading', { name: title }).waitFor()
  }
  await page.goBack()
  await page.getByRole('heading', { name: 'Where is it' }).waitFor()
  await page.getByRole('button', { name: 'Next' }).click()
  await page.getByRole('button', { name: 'See the plan' }).click()
  await page.getByText('defaults of the plan, each with its source').waitFor()
  expect(await accessibilityFaults(page)).toEqual([])
  await page.getByRole('button', { name: 'Make this plan' }).click()
  await page.getByRole('button', { name: 'Undo: a plan from eight answers', exact: false }).waitFor()

  await page.getByRole('navigation', { name: 'Questions' }).getByRole('link', { name: 'What do I print?' }).click()
  await page.getByRole('navigation', { name: 'Documents' }).waitFor({ timeout: 240_000 })
  await page.getByRole('link', { name: 'Patterns at true scale' }).click()
  await page.getByText('100 mm check square', { exact: false }).first().waitFor()
  expect(await accessibilityFaults(page)).toEqual([])

  const download = page.waitForEvent('download', { timeout: 60_000 })
  await page.getByRole('button', { name: 'Save this PDF' }).click()
  const path = await (await download).path()
  const bytes = readFileSync(path)
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-')
  expect(bytes.toString('latin1')).toContain('/PrintScaling /None')

  const documents = await page.getByRole('navigation', { name: 'Documents' }).getByRole('link').count()
  const zip = page.waitForEvent('download', { timeout: 240_000 })
  await page.getByRole('button', { name: 'Save everything as PDF' }).click()
  const saved = await zip
  expect(saved.suggestedFilename()).toMatch(/^[\p{L}\p{N}-]+-sheets\.zip$/u)
  const files = Object.entries(unzipSync(readFileSync(await saved.path())))
  expect(documents).toBeGreaterThan(3)
  // the roll for plotters beside those that are seen
  expect(files.filter(([name]) => name.endsWith('.pdf')).length).toBe(documents + 1)
  for (const ending of ['.csv', '.dxf', '.svg'])
    expect(files.filter(([name, bytes]) => name.endsWith(ending) && bytes.length > 100).length, ending).toBeGreaterThan(
      0,
    )
  for (const [name, bytes] of files.filter(([name]) => name.endsWith('.pdf'))) {
    const text = Buffer.from(bytes).toString('latin1')
    expect(text.slice(0, 5), name).toBe('%PDF-')
    expect(text.trimEnd().endsWith('%%EOF'), name).toBe(true)
    expect(text.match(/\/Type \/Page\b/g)?.length ?? 0, name).toBeGreaterThan(0)
  }

  await page.getByText('Measure a printer').click()
  await page.getByLabel('Name of the printer').fill('garage')
  await page.getByLabel('Square, across the feed').fill('99.5')
  await page.getByLabel('Square, along the feed').fill('99.6 mm')
  await page.getByRole('button', { name: 'Keep it and put it into the plan' }).click()
  await page.getByText('In the plan: 99.5 mm across, 99.6 mm along', { exact: false }).waitFor({ timeout: 240_000 })
  expect(faults).toEqual([])
})
