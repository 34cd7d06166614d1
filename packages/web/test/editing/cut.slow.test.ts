/** The Cut page under the hand and under the keys, in a browser: the long search with its ends, and pieces moved by hand. */
import { areaPaths, FillRule, intersect } from 'clipper2-ts'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type App, dragBy, expectAccessible, expectRightAtEveryWidth, startApp } from './browser.ts'

let app: App
beforeAll(async () => {
  app = await startApp()
})
afterAll(() => app.close())

const picture = 'svg[role=img]:has([data-piece])'
const usedLength = async (page: Page): Promise<number> => {
  const label = await page.locator(`${picture} title`).textContent()
  return Number(/pieces on ([\d.]+) m/.exec(label!)![1])
}
const status = (page: Page, words: RegExp) => page.getByRole('status').filter({ hasText: words })
const opened = async (): Promise<Page> => {
  const page = await app.open('/cut')
  await page.locator(picture).waitFor({ timeout: 60_000 })
  return page
}

/** Every piece's corners as drawn, thousandths of a picture's millimetre. */
const pieces = (page: Page) =>
  page.locator('[data-piece]').evaluateAll((all) =>
    all.map((one) => ({
      id: one.getAttribute('data-piece')!,
      points: one
        .getAttribute('points')!
        .split(' ')
        .map((pair) => pair.split(',').map((v) => Math.round(Number(v) * 1e4)))
        .map(([x, y]) => ({ x: x!, y: y! })),
    })),
  )

async function expectNoOverlap(page: Page): Promise<void> {
  const all = await pieces(page)
  expect(all.length).toBeGreaterThan(20)
  for (const [i, a] of all.entries())
    for (const b of all.slice(i + 1))
      expect(Math.abs(areaPaths(intersect([a.points], [b.points], FillRule.NonZero))), `${a.id} ${b.id}`).toBe(0)
}

describe('the cut page', { retry: 1 }, () => {
  test('a long search is cancelled and nothing changes; another is kept, and undone', async () => {
    const page = await opened()
    const before = await usedLength(page)
    await page.getByText('minutes', { exact: true }).click()
    await page.getByRole('button', { name: 'Look for a better nest' }).click()
    await status(page, /less than filling alone/).waitFor()
    await page.getByRole('button', { name: 'Cancel', exact: true }).click()
    await status(page, /Cancelled/).waitFor()
    expect(await usedLength(page)).toBe(before)
    expect(await page.getByRole('button', { name: 'Forget the kept nest' }).count()).toBe(0)
    await page.getByText('3 % less', { exact: true }).click()
    await page.getByRole('button', { name: 'Look for a better nest' }).click()
    await status(page, /Kept in the plan: [3-9]/).waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: 'Forget the kept nest' }).waitFor({ timeout: 60_000 })
    expect(await usedLength(page)).toBeLessThan(before)
    await expectNoOverlap(page)
    // The same search again finds no less: what was kept stays.
    await page.getByRole('button', { name: 'Look for a better nest' }).click()
    await status(page, /Nothing better was found/).waitFor({ timeout: 60_000 })
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.waitForFunction(
      ([place, was]) => document.querySelector(`${place} title`)?.textContent?.includes(`on ${was} m`),
      [picture, before.toFixed(2)] as const,
      { timeout: 60_000 },
    )
    await page.close()
  })

  test('pieces are moved by keys and by pointer, never onto another, and stay moved', async () => {
    const page = await opened()
    const last = (await pieces(page)).at(-1)!.id
    const at = async (): Promise<{ x: number; y: number }> =>
      (await pieces(page)).find(({ id }) => id === last)!.points[0]!
    const first = await at()
    await page.locator('fieldset select').selectOption(last)
    await page.getByText('100.0 mm', { exact: true }).click()
    await page.getByRole('button', { name: `Move ${last} along the roll` }).press('ArrowDown')
    await status(page, new RegExp(`${last} moved`)).waitFor()
    const second = await at()
    expect(second.y).toBeGreaterThan(first.y)
    await page.getByRole('button', { name: 'Forget the kept nest' }).waitFor({ timeout: 60_000 })
    await page.locator(`${picture}`).first().waitFor()
    const place = page.locator(`[data-piece="${last}"]`)
    await place.scrollIntoViewIfNeeded()
    const box = (await place.boundingBox())!
    await dragBy(page, { x: box.x + box.width / 2, y: box.y + box.height / 2 }, 5, -180)
    await page.mouse.up()
    await page.waitForTimeout(1500)
    expect((await at()).y).toBeLessThan(second.y)
    await expectNoOverlap(page)
    await page.close()
  })

  test('right at every width, light and dark', async () => {
    const page = await opened()
    await expectRightAtEveryWidth(page)
    await page.close()
    const dark = await app.open('/cut', { width: 820, height: 1180 }, 'dark')
    await dark.locator(picture).waitFor({ timeout: 60_000 })
    await expectAccessible(dark)
    await dark.close()
  })
})
