/** Plies under the hand and under the keys, in a browser. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type App, changed, dragBy, expectRightAtEveryWidth, margins, middleOf, startApp } from './browser.ts'

let app: App
beforeAll(async () => {
  app = await startApp()
})
afterAll(() => app.close())

const ids = ['flutter', 'strength', 'joint', 'frequency', 'mass', 'thickness', 'spare']

// A second try where a busy machine was slower than the hand: every test opens a page of its own.
describe('the stack of plies', { retry: 2 }, () => {
  test('a ply more changes every margin, and undo brings all of them back', async () => {
    const page = await app.open('/plies')
    const before = await margins(page)
    expect(Object.keys(before).sort()).toEqual([...ids].sort())
    await page.getByRole('button', { name: 'Add a ply' }).click()
    expect(await page.locator('[data-ply]').count()).toBe(8)
    const after = await margins(page)
    for (const id of ids) expect(after[id], id).not.toBe(before[id])
    expect((await changed(page)).sort()).toEqual([...ids].sort())
    expect(await page.locator('[data-figure="count"]').textContent()).toMatch(/before 6 → now\s+7$/)
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.waitForFunction(() => document.querySelectorAll('[data-ply]').length === 7)
    expect(await margins(page)).toEqual(before)
    await page.close()
  })

  test('the dial turns a ply under the hand, and comes to rest at 45', async () => {
    const page = await app.open('/plies')
    await page.locator('[data-ply="P5"] button[aria-pressed]').click()
    const before = await margins(page)
    await page.getByRole('slider').scrollIntoViewIfNeeded()
    const dial = await middleOf(page, '[role="slider"]')
    await dragBy(page, { x: dial.x + 60, y: dial.y }, -16, 46)
    await page.waitForFunction(() => document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow') === '45')
    await page.mouse.up()
    const after = await margins(page)
    expect(after.flutter).not.toBe(before.flutter)
    expect(after.mass).toBe(before.mass)
    expect(await page.getByLabel('Angle of the warp', { exact: true }).inputValue()).toBe('45 deg')
    await page.keyboard.press('Control+z')
    await page.waitForFunction(() => document.querySelector('[role="slider"]')?.getAttribute('aria-valuenow') === '0')
    await page.close()
  })

  test('a ply is dragged to another place in one step of undo', async () => {
    const page = await app.open('/plies')
    const angles = (): Promise<string[]> =>
      page.locator('[data-ply]').evaluateAll((rows) => rows.map((row) => row.textContent ?? ''))
    const before = await angles()
    const grip = await middleOf(page, '[data-ply="P2"] [data-grip]')
    await dragBy(page, grip, 0, 3 * 46)
    await page.mouse.up()
    const after = await angles()
    expect(after.map((words) => /\+45/.test(words))).toEqual([false, false, true, false, true, false, false])
    await page.keyboard.press('Control+z')
    await page.waitForFunction(() => /\+45/.test(document.querySelectorAll('[data-ply]')[1]?.textContent ?? ''))
    expect(await angles()).toEqual(before)
    await page.close()
  })

  test('by keys alone: a ply moves and turns, and the focus goes with it', async () => {
    const page = await app.open('/plies')
    await page.locator('[data-ply="P2"] [data-grip]').focus()
    await page.keyboard.press('ArrowUp')
    expect(await page.evaluate(() => document.activeElement?.getAttribute('aria-label'))).toMatch(
      /^Move P1, ply 1 of 7/,
    )
    expect(await page.getByText('P2 is now ply 1 of 7 from the core.').count()).toBe(1)
    expect(await page.locator('[data-ply="P1"]').textContent()).toContain('+45°')
    await page.getByRole('slider').focus()
    for (const key of ['PageUp', 'ArrowRight', 'ArrowRight']) await page.keyboard.press(key)
    expect(await page.getByLabel('Angle of the warp', { exact: true }).inputValue()).toBe('62 deg')
    await page.close()
  })

  test('what is under the hand on the list lights up on the bay map, and the other way round', async () => {
    const page = await app.open('/plies')
    const outline = (): Promise<string | null> => page.getByTestId('ply-in-hand').getAttribute('d')
    const P1 = await outline()
    await page.locator('[data-ply="P4"]').hover()
    expect(await outline()).not.toBe(P1)
    const map = await middleOf(page, '[data-testid="ply-in-hand"]')
    await page.mouse.move(map.x, map.y)
    await page.locator('[data-ply="P1"][data-hand]').waitFor()
    expect(await outline()).toBe(P1)
    await page.close()
  })

  test('a wrong angle is told at its field, and stays as typed', async () => {
    const page = await app.open('/plies')
    const field = page.getByLabel('Angle of the warp', { exact: true })
    await field.fill('steep')
    await field.press('Enter')
    expect(await field.getAttribute('aria-invalid')).toBe('true')
    expect(await page.locator('[data-path="plies[0].angle"]').textContent()).toContain('steep')
    expect(await field.inputValue()).toBe('steep')
    await page.close()
  })

  test('two schedules: the other is kept, compared, adopted, and undone', async () => {
    const page = await app.open('/plies')
    await page.getByRole('button', { name: 'Keep a copy to compare with' }).click()
    await page.locator('[data-ply="P2"] button[aria-pressed]').click()
    await page.getByRole('button', { name: 'Take out' }).click()
    const table = page.getByRole('region', { name: 'Two schedules compared' })
    await page.getByText('After adopting, the present one is kept').waitFor({ timeout: 60_000 })
    const row = async (): Promise<string[]> =>
      table.getByRole('row').filter({ hasText: 'Plies that stay' }).getByRole('cell').allInnerTexts()
    expect(await row()).toEqual(['Plies that stay, a face', '5', '6'])
    await page.getByRole('button', { name: 'Adopt the other' }).click()
    expect(await page.locator('[data-ply]').count()).toBe(7)
    await page.getByText('After adopting, the present one is kept').waitFor({ timeout: 60_000 })
    expect(await row()).toEqual(['Plies that stay, a face', '6', '5'])
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.waitForFunction(() => document.querySelectorAll('[data-ply]').length === 6)
    await page.getByText('After adopting, the present one is kept').waitFor({ timeout: 60_000 })
    expect(await row()).toEqual(['Plies that stay, a face', '5', '6'])
    await page.close()
  })

  test.each(['light', 'dark'] as const)('axe finds nothing, %s, at three widths', async (theme) => {
    const page = await app.open('/plies', undefined, theme)
    await expectRightAtEveryWidth(page)
    await page.close()
  })
})
