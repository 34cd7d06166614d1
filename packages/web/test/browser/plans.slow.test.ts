/** In a browser: plans kept side by side, files taken in or refused with every reason, and a way back to what a plan was. */
import { readFileSync } from 'node:fs'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, test } from 'vitest'
import {
  accessibilityFaults,
  atRest,
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

const file = (name: string, text: string) => ({ name, mimeType: 'application/json', buffer: Buffer.from(text) })
const small = readFileSync('examples/small-us.fincan.json', 'utf8')
const planName = (page: Page): Promise<string> => page.getByLabel('Plan', { exact: true }).inputValue()

test('plans side by side, files in, and the way back', { timeout: 300_000 }, async () => {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  const broken: string[] = []
  page.on('pageerror', ({ message }) => broken.push(message))
  await page.goto(server.address)
  await page.getByRole('link', { name: 'all plans' }).click()
  await page.getByRole('heading', { name: 'Which plan?' }).waitFor()
  await page.getByText('One plan is kept here.').waitFor()
  const demo = await planName(page)
  const choose = page.locator('input[type=file]')

  // Bad files: the field, what stood there, what is allowed; nothing changed.
  await choose.setInputFiles(file('mine.json', small.replace('"plies"', '"pliez"')))
  await page.getByText('mine.json was not taken in; nothing was changed.').waitFor()
  expect(await page.getByRole('alert').filter({ hasText: 'pliez' }).count()).toBe(1)
  await choose.setInputFiles(file('half.json', small.slice(0, 400)))
  await page.getByText('half.json was not taken in; nothing was changed.').waitFor()
  await choose.setInputFiles(file('thrust.csv', '0,0'))
  await page.getByText('None of these files is a plan', { exact: false }).waitFor()
  await choose.setInputFiles(file('study.json', readFileSync('examples/study-swept-wing.fincan.json', 'utf8')))
  await page.getByRole('button', { name: 'Open it as a plan of its own' }).waitFor()
  expect(await planName(page)).toBe(demo)

  // A good one is shown first, then opened as a plan of its own.
  await choose.setInputFiles(file('small.json', small))
  await page.getByRole('button', { name: 'Open it as a plan of its own' }).waitFor()
  expect(await planName(page)).toBe(demo)
  expect(await accessibilityFaults(page)).toEqual([])
  await page.getByRole('button', { name: 'Open it as a plan of its own' }).click()
  await expect.poll(() => planName(page), { timeout: 30_000 }).not.toBe(demo)
  const own = await planName(page)
  await atRest(page)

  // Its first state is had again after an edit; undo brings the edit back.
  await page.getByLabel('Plan', { exact: true }).fill('Another name')
  await page.getByLabel('Plan', { exact: true }).press('Enter')
  await page.getByRole('link', { name: 'all plans' }).click()
  await page.getByRole('region', { name: 'Steps of the open plan' }).waitFor()
  await page.getByRole('button', { name: 'As it was after:', exact: false }).last().click()
  await expect.poll(() => planName(page)).toBe(own)
  await page.getByRole('button', { name: 'Undo', exact: false }).click()
  await expect.poll(() => planName(page)).toBe('Another name')

  // Taken away and brought back, and the other one opened.
  await page.reload()
  await page.getByRole('button', { name: `Take away ${demo}` }).click()
  await page.getByRole('button', { name: `Bring back ${demo}` }).click()
  await page.getByRole('button', { name: `Open ${demo}` }).click()
  await expect.poll(() => planName(page), { timeout: 30_000 }).toBe(demo)
  await page.goto(`${server.address}/plans`)
  await page.getByText('2 plans are kept here.').waitFor()
  for (const width of [1440, 820, 360]) {
    await page.setViewportSize({ width, height: 900 })
    expect(await accessibilityFaults(page)).toEqual([])
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width)
  }
  expect(broken).toEqual([])
})

test('a study is opened and answered in words', { timeout: 120_000 }, async () => {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  await page.goto(`${server.address}/plans`)
  const choose = page.locator('input[type=file]')
  await choose.setInputFiles(file('study.json', readFileSync('examples/study-swept-wing.fincan.json', 'utf8')))
  await page.getByRole('button', { name: 'Open it as a plan of its own' }).click()
  await expect.poll(() => planName(page), { timeout: 30_000 }).toBe('Weakened swept wing of a wind-tunnel standard')
  await atRest(page)
  await page.getByRole('link', { name: 'The plan', exact: true }).click()
  await page.getByText('so that a speed ratio of 1 is the test', { exact: false }).waitFor()
  const states = page.getByRole('region', { name: 'Flutter in each state of the air' })
  expect(await states.locator('tbody tr').first().textContent()).toMatch(/0\.50566.ft\/s1\.030\.9/)
  expect(await accessibilityFaults(page)).toEqual([])
  await page.getByRole('link', { name: 'What do I cut?' }).click()
  await page.getByText('it has no cloth and no resin', { exact: false }).waitFor()
  await page.close()
})
