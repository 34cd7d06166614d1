/** Ways round the app that the browser itself offers: back, deep links, reload, undo keys in whatever has the focus. */
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { atRest, buildApp, freshFolder, openBrowser, type RunningServer, removeFolder, startServer } from './app.ts'

let browser: Browser
let server: RunningServer
let page: Page
const data = freshFolder()
const faults: string[] = []
const patient = { timeout: 20_000 }

beforeAll(async () => {
  buildApp()
  server = await startServer(data)
  browser = await openBrowser()
  page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  page.on('pageerror', ({ message }) => faults.push(message))
}, 300_000)

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  removeFolder(data)
})

const open = async (path: string): Promise<void> => {
  await page.goto(server.address + path)
  await atRest(page)
}
const scrolled = (): Promise<number> => page.evaluate(() => Math.round(scrollY))
const focused = (): Promise<string | undefined> =>
  page.evaluate(() => document.activeElement?.closest<HTMLElement>('[data-path]')?.dataset.path)

describe('back and forth', () => {
  test('a new page is seen from its top, back returns to the place that was left, a reload stays there', async () => {
    await open('/hold')
    expect(await page.title()).toMatch(/^Will it hold\? · .+ · Finwright$/)
    await page.evaluate(() => scrollTo(0, 1500))
    await expect.poll(scrolled).toBe(1500)
    // as by a key or a link in the text: a click of the test's would bring the navigation into sight first
    await page.locator('nav a[href="/cut"]').evaluate((link: HTMLElement) => link.click())
    await expect.poll(() => page.title()).toMatch(/^What do I cut\?/)
    await expect.poll(scrolled).toBe(0)
    await page.goBack()
    await expect.poll(() => page.title()).toMatch(/^Will it hold\?/)
    await expect.poll(scrolled, patient).toBe(1500)
    await page.reload()
    await expect.poll(scrolled, patient).toBe(1500)
    await page.goForward()
    await expect.poll(() => page.title()).toMatch(/^What do I cut\?/)
  })

  test('a derivation opened and followed is closed again step by step', async () => {
    await open('/hold')
    await page.locator('[data-margin="flutter"] a').click()
    const panel = page.getByRole('complementary', { name: 'Why' })
    const title = await panel.locator('h2').textContent()
    await panel.locator('a[href*="why="]').first().click()
    await expect.poll(() => panel.locator('h2').textContent()).not.toBe(title)
    await page.goBack()
    await expect.poll(() => panel.locator('h2').textContent()).toBe(title)
    await page.goBack()
    await expect.poll(() => panel.count()).toBe(0)
    expect(new URL(page.url()).pathname).toBe('/hold')
  })
})

describe('deep links', () => {
  test('to a section, a derivation, a field in a closed entry, and to nowhere', async () => {
    await open('/hold#joint')
    await expect
      .poll(
        () =>
          page
            .locator('#joint')
            .boundingBox()
            .then((box) => Math.abs(box!.y) < 200),
        patient,
      )
      .toBe(true)
    await open('/mix?why=strength.index')
    await page.getByRole('complementary', { name: 'Why' }).getByRole('heading', { level: 2 }).waitFor(patient)
    await open('/?field=plies[1].angle')
    await expect.poll(focused, patient).toBe('plies[1].angle')
    await page.goto(`${server.address}/nowhere`)
    await page.getByText('There is no page at this address.').waitFor(patient)
  })
})

describe('Ctrl+Z', () => {
  const angle = () => page.getByLabel('Angle of the warp', { exact: true })

  test('in a field that was taken in, pressed fast: one step of the plan each', async () => {
    await open('/plies')
    for (const text of ['40', '35', '30']) {
      await angle().fill(text)
      await angle().press('Enter')
      await angle().blur()
    }
    await expect.poll(() => page.locator('header').textContent(), patient).toContain('ply angle')
    await angle().focus()
    for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z')
    await expect.poll(() => angle().inputValue(), patient).toBe('40 deg')
    for (let i = 0; i < 2; i++) await page.keyboard.press('Control+Shift+z')
    await expect.poll(() => angle().inputValue(), patient).toBe('30 deg')
    expect(await page.getByText('Nothing was undone.').count()).toBe(0)
  })

  test('in a field with something typed it takes back the typing, and the plan stays', async () => {
    await angle().fill('22')
    await page.keyboard.press('Control+z')
    await expect.poll(() => angle().inputValue()).toBe('30 deg')
    await page.keyboard.press('Escape')
    await expect.poll(() => page.getByRole('button', { name: /^Undo: P1: ply angle/ }).count()).toBe(1)
  })

  test('in a field that is none of the plan’s it is that field’s own', async () => {
    await open('/start')
    const mach = page.getByLabel('Top speed, Mach number')
    const before = await mach.inputValue()
    await mach.fill('0.9')
    await page.keyboard.press('Control+z')
    await expect.poll(() => mach.inputValue()).toBe(before)
    await open('/plies')
    expect(await angle().inputValue()).toBe('30 deg')
  })

  test('nothing was reported as a fault', () => {
    expect(faults).toEqual([])
  })
})
