/** Two windows on one plan, and a server that goes away: nothing typed is lost, and what cannot be kept is told in words. */
import type { Browser, BrowserContext, Page } from 'playwright-core'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
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
let context: BrowserContext
let server: RunningServer
let data: string
const faults: string[] = []

beforeAll(async () => {
  buildApp()
  browser = await openBrowser()
}, 300_000)

beforeEach(async () => {
  await context?.close()
  await server?.stop()
  if (data !== undefined) removeFolder(data)
  data = freshFolder()
  server = await startServer(data)
  context = await browser.newContext({ viewport: { width: 1440, height: 900 } })
})

afterAll(async () => {
  await browser?.close()
  await server?.stop()
  removeFolder(data)
})

async function opened(path = '/'): Promise<Page> {
  const page = await context.newPage()
  page.on('pageerror', ({ message }) => faults.push(message))
  await page.goto(server.address + path)
  await wall(page).waitFor()
  return page
}

const wall = (page: Page) => page.locator('[data-path="tube.wall"] input')
const core = (page: Page) => page.locator('[data-path="fins.core.thickness"] input')
const header = (page: Page) => page.locator('header').textContent()

async function type(page: Page, field: ReturnType<typeof wall>, text: string): Promise<void> {
  await field.fill(text)
  await page.keyboard.press('Enter')
}

/** What the server has. */
async function kept(): Promise<{ wall: unknown; thickness: unknown; revision: number; undo: string | null }> {
  const { open } = (await (await fetch(`${server.address}/api/plans`)).json()) as { open: string }
  const plan = await (await fetch(`${server.address}/api/plans/${open}`)).json()
  const { tube, fins } = plan.record.plan
  return { wall: tube.wall, thickness: fins.core.thickness, revision: plan.revision, undo: plan.undo }
}

const patient = { timeout: 30_000 }

describe('two windows on one plan', () => {
  test('what is entered in one arrives in the other, and edits of both at once are both kept', async () => {
    const [one, two] = [await opened(), await opened()]
    await Promise.all([type(one, wall(one), '2.4 mm'), type(two, core(two), '3.4 mm')])
    for (const page of [one, two]) {
      await expect.poll(() => wall(page).inputValue(), patient).toBe('2.4 mm')
      await expect.poll(() => core(page).inputValue(), patient).toBe('3.4 mm')
    }
    expect(await kept()).toMatchObject({ wall: '2.4 mm', thickness: '3.4 mm', revision: 3 })
    for (const page of [one, two]) await atRest(page)
    const read = async (page: Page): Promise<string[]> =>
      (await page.locator('[data-margin] a').allTextContents()).map((text) => text.replace('now ', ''))
    expect((await read(one)).length).toBe(7)
    expect(await read(one)).toEqual(await read(two))
  })

  test('both write the same field: the later one is told both values and loses nothing else', async () => {
    const [one, two] = [await opened(), await opened()]
    await two.route('**/api/**', (route) => route.abort())
    await type(two, wall(two), '2.6 mm')
    await type(two, core(two), '3.4 mm')
    await expect.poll(() => header(two), patient).toContain('2 changes wait here')
    await type(one, wall(one), '2.4 mm')
    await expect.poll(async () => (await kept()).wall).toBe('2.4 mm')
    await two.unroute('**/api/**')
    await two.getByText('A change was not kept.').waitFor(patient)
    const notice = await two.locator('[role="status"]').filter({ hasText: 'A change was not kept.' }).textContent()
    expect(notice).toContain('2.6 mm')
    expect(notice).toContain('2.4 mm')
    await expect.poll(() => wall(two).inputValue()).toBe('2.4 mm')
    await atRest(two)
    expect(await accessibilityFaults(two)).toEqual([])
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', thickness: '3.4 mm' })
    await two.getByRole('button', { name: 'Put away' }).click()
    await expect.poll(() => two.getByText('A change was not kept.').count()).toBe(0)
  })

  test('undo in one window takes back what the other one entered, in both', async () => {
    const [one, two] = [await opened(), await opened()]
    await type(one, wall(one), '2.4 mm')
    await two.getByRole('button', { name: /^Undo: tube wall/ }).click(patient)
    for (const page of [one, two]) await expect.poll(() => wall(page).inputValue(), patient).toBe('2.0 mm')
  })
})

describe('the server gone', () => {
  test('what waits outlives its window: it is there, and on the server, when a window is opened again', async () => {
    const page = await opened()
    const port = Number(new URL(server.address).port)
    await server.stop()
    await type(page, wall(page), '2.4 mm')
    await type(page, core(page), '3.4 mm')
    await expect.poll(() => header(page), patient).toContain('2 changes wait here')
    await page.close()
    server = await startServer(data, port)
    expect(await kept()).toMatchObject({ wall: '2.0 mm', revision: 1 })
    const next = await opened()
    await expect.poll(() => wall(next).inputValue(), patient).toBe('2.4 mm')
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', thickness: '3.4 mm', revision: 3 })
    await next.reload()
    await expect.poll(() => wall(next).inputValue(), patient).toBe('2.4 mm')
    expect(await kept()).toMatchObject({ revision: 3 })
    await next.getByRole('button', { name: /^Undo: core thickness/ }).click()
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', thickness: '3.2 mm' })
  })

  test('what stands in a field when the window is left is taken in', async () => {
    const page = await opened()
    const port = Number(new URL(server.address).port)
    await server.stop()
    await wall(page).fill('2.4 mm')
    await page.goto('about:blank')
    server = await startServer(data, port)
    await page.goto(server.address)
    await expect.poll(() => wall(page).inputValue(), patient).toBe('2.4 mm')
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', revision: 2 })
  })

  test('what no longer fits when the window is opened again is told, the rest is kept', async () => {
    const page = await opened()
    await page.route('**/api/**', (route) => route.abort())
    await type(page, wall(page), '2.6 mm')
    await type(page, core(page), '3.4 mm')
    await expect.poll(() => header(page), patient).toContain('2 changes wait here')
    const other = await opened()
    await type(other, wall(other), '2.4 mm')
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', thickness: '3.2 mm' })
    await other.close()
    await page.close()
    const next = await opened()
    await next.getByText('A change was not kept.').waitFor(patient)
    expect(await next.locator('[role="status"]').filter({ hasText: 'not kept' }).textContent()).toContain('2.6 mm')
    await expect.poll(kept, patient).toMatchObject({ wall: '2.4 mm', thickness: '3.4 mm' })
  })

  test('undo says why nothing happens, once', async () => {
    const page = await opened()
    await type(page, wall(page), '2.4 mm')
    await page.getByRole('button', { name: /^Undo: tube wall/ }).waitFor()
    await server.stop()
    await wall(page).blur()
    for (let i = 0; i < 2; i++) await page.keyboard.press('Control+z')
    await page.getByText('Nothing was undone.').waitFor(patient)
    expect(await page.getByText('Nothing was undone.').count()).toBe(1)
    expect(await wall(page).inputValue()).toBe('2.4 mm')
  })

  test('nothing was reported as a fault', () => {
    expect(faults).toEqual([])
  })
})
