/** The app alone in headless Chromium, as it is worked on, with the demo open anew in every page. */
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { createServer, type ViteDevServer } from 'vite'
import { expect } from 'vitest'
import { accessibilityFaults, openBrowser } from '../browser/app.ts'

export interface App {
  readonly open: (path: string, size?: { width: number; height: number }, theme?: 'light' | 'dark') => Promise<Page>
  readonly close: () => Promise<void>
}

export async function startApp(): Promise<App> {
  process.env.VITE_ALONE = '1'
  const server = await createServer({
    configFile: join(import.meta.dirname, '../../vite.config.ts'),
    server: { port: 0, strictPort: false, hmr: false },
    logLevel: 'silent',
  })
  await server.listen()
  const browser = await openBrowser()
  return {
    open: (path, size = { width: 1440, height: 900 }, theme = 'light') => opened(server, browser, path, size, theme),
    close: async () => {
      await browser.close()
      await server.close()
    },
  }
}

async function opened(
  server: ViteDevServer,
  browser: Browser,
  path: string,
  viewport: { width: number; height: number },
  colorScheme: 'light' | 'dark',
): Promise<Page> {
  const page = await browser.newPage({ viewport, colorScheme })
  page.on('pageerror', (error) => {
    throw error
  })
  await page.goto(`${server.resolvedUrls!.local[0]!.replace(/\/$/, '')}${path}`)
  await page.locator('[data-margin="flutter"]:not([data-stale])').waitFor({ timeout: 60_000 })
  return page
}

export async function expectAccessible(page: Page): Promise<void> {
  expect(await accessibilityFaults(page)).toEqual([])
}

/** Desktop, bench tablet and phone: no accessibility fault, and nothing but tables and pictures is wider than the window. */
export async function expectRightAtEveryWidth(page: Page): Promise<void> {
  for (const width of [1440, 820, 360]) {
    await page.setViewportSize({ width, height: 900 })
    await expectAccessible(page)
    expect(
      await page.evaluate(() =>
        [...document.querySelectorAll('main *')].flatMap((one) => {
          const { right } = one.getBoundingClientRect()
          return right > innerWidth + 1 && !one.closest('table, svg') ? [one.outerHTML.slice(0, 80)] : []
        }),
      ),
    ).toEqual([])
  }
}

/** The margins as they read, once none of them is stale. */
export async function margins(page: Page): Promise<Record<string, string>> {
  await drawn(page)
  await page.waitForFunction(() => document.querySelectorAll('[data-margin][data-stale]').length === 0, undefined, {
    timeout: 60_000,
  })
  return page.evaluate(() =>
    Object.fromEntries(
      [...document.querySelectorAll<HTMLElement>('[data-margin]')].map((cell) => [
        cell.dataset.margin ?? '',
        cell.querySelector('button, a')?.textContent?.replace('now ', '') ?? '',
      ]),
    ),
  )
}

/** What shows a change: before and after are both there. */
export const changed = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>('[data-margin][data-changed]')].map((cell) => cell.dataset.margin ?? ''),
  )

/** From one place to another in steps, as a hand does. */
export async function dragBy(page: Page, from: { x: number; y: number }, dx: number, dy: number): Promise<void> {
  await page.mouse.move(from.x, from.y)
  await page.mouse.down()
  for (let i = 1; i <= 8; i++) await page.mouse.move(from.x + (dx * i) / 8, from.y + (dy * i) / 8)
  await drawn(page)
}

/** Two frames on: what was sent to the page has been handled and drawn. */
export const drawn = (page: Page): Promise<void> =>
  page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(() => done()))))

export async function middleOf(page: Page, selector: string): Promise<{ x: number; y: number }> {
  const box = await page.locator(selector).boundingBox()
  if (box === null) throw new Error(`${selector} is not in sight`)
  return { x: box.x + box.width / 2, y: box.y + box.height / 2 }
}
