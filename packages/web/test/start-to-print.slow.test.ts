/** In a browser: from the first question to a PDF to print, with no accessibility violation on the way. */
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright-core'
import { build, type PreviewServer, preview } from 'vite'
import { afterAll, beforeAll, expect, test } from 'vitest'

const executablePath =
  ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(existsSync) ?? '/usr/bin/chromium'
const configFile = join(import.meta.dirname, '../vite.config.ts')
const outDir = mkdtempSync(join(tmpdir(), 'finwright-web-'))
const axe = createRequire(import.meta.url).resolve('axe-core/axe.min.js')

let server: PreviewServer
let browser: Browser
let address = ''

beforeAll(async () => {
  await build({ configFile, logLevel: 'error', build: { outDir, emptyOutDir: true } })
  server = await preview({
    configFile,
    logLevel: 'error',
    build: { outDir },
    preview: { port: 4571, host: '127.0.0.1' },
  })
  address = server.resolvedUrls!.local[0]!
  browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] })
}, 180_000)

afterAll(async () => {
  await browser?.close()
  await server?.close()
  rmSync(outDir, { recursive: true, force: true })
})

async function violations(page: Page): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.addScriptTag({ path: axe })
  const found = await page.evaluate(
    async () =>
      (await (window as never as { axe: { run: () => Promise<{ violations: { id: string }[] }> } }).axe.run())
        .violations,
  )
  return found.map(({ id }) => id)
}

test('first run to a printed sheet', { timeout: 400_000 }, async () => {
  const page = await browser.newPage({ acceptDownloads: true, viewport: { width: 1440, height: 900 } })
  const faults: string[] = []
  page.on('pageerror', ({ message }) => faults.push(message))
  await page.goto(`${address}start`)

  await page.getByLabel('Top speed, Mach number').fill('fast')
  await expect.poll(() => page.getByText('Mach number is', { exact: false }).count()).toBeGreaterThan(0)
  await page.getByLabel('Top speed, Mach number').fill('0.7')
  expect(await violations(page)).toEqual([])
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
  expect(await violations(page)).toEqual([])
  await page.getByRole('button', { name: 'Make this plan' }).click()
  await page.getByRole('button', { name: 'Undo: a plan from eight answers', exact: false }).waitFor()

  await page.getByRole('link', { name: 'What do I print?' }).click()
  await page.getByRole('navigation', { name: 'Documents' }).waitFor({ timeout: 240_000 })
  await page.getByRole('link', { name: 'Patterns at true scale' }).click()
  await page.getByText('100 mm check square', { exact: false }).first().waitFor()
  expect(await violations(page)).toEqual([])

  const download = page.waitForEvent('download', { timeout: 60_000 })
  await page.getByRole('button', { name: 'Save this PDF' }).click()
  const path = await (await download).path()
  const bytes = readFileSync(path)
  expect(bytes.subarray(0, 5).toString('latin1')).toBe('%PDF-')
  expect(bytes.toString('latin1')).toContain('/PrintScaling /None')

  await page.getByText('Measure a printer').click()
  await page.getByLabel('Name of the printer').fill('garage')
  await page.getByLabel('Square, across the feed').fill('99.5')
  await page.getByLabel('Square, along the feed').fill('99.6 mm')
  await page.getByRole('button', { name: 'Keep it and put it into the plan' }).click()
  await page.getByRole('button', { name: 'Undo:', exact: false }).waitFor()
  await page.getByText('In the plan: 99.5 mm across, 99.6 mm along', { exact: false }).waitFor({ timeout: 240_000 })
  expect(faults).toEqual([])
})
