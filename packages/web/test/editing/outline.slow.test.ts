/** The outline under the hand, under the keys, and out of a file, in a browser. */
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import {
  type App,
  changed,
  dragBy,
  expectAccessible,
  expectRightAtEveryWidth,
  margins,
  middleOf,
  startApp,
} from './browser.ts'

let app: App
beforeAll(async () => {
  app = await startApp()
})
afterAll(() => app.close())

const square = `<svg xmlns="http://www.w3.org/2000/svg" width="200mm" viewBox="0 0 200 100"><polygon points="0,100 60,0 180,0 200,100"/></svg>`

// A second try where a busy machine was slower than the hand: every test opens a page of its own.
describe('the outline', { retry: 2 }, () => {
  test('the tip is dragged: the plan and the margins follow, in one step of undo', async () => {
    const page = await app.open('/shape')
    const before = await margins(page)
    const from = await middleOf(page, '[data-point="1"] circle:last-child')
    await dragBy(page, from, 37, 40)
    const span = page.getByLabel('Span', { exact: true })
    expect(await span.inputValue()).not.toBe('110 mm')
    expect(await page.locator('path[stroke-dasharray], [class*="before"]').count()).toBeGreaterThan(0)
    await page.mouse.up()
    const after = await margins(page)
    for (const id of ['flutter', 'frequency', 'mass']) expect(after[id], id).not.toBe(before[id])
    expect(await changed(page)).toContain('mass')
    expect(Number.parseFloat(await span.inputValue()) % 1).toBe(0)
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.waitForFunction(
      () => document.querySelector<HTMLInputElement>('[data-path="fins.outline.span"] input')?.value === '110 mm',
    )
    expect(await margins(page)).toEqual(before)
    await page.close()
  })

  test('by keys alone: points are moved, put in and taken out', async () => {
    const page = await app.open('/shape')
    const span = page.getByLabel('Span', { exact: true })
    await page.locator('[data-point="2"]').focus()
    await page.keyboard.press('ArrowUp')
    await page.keyboard.press('Shift+ArrowUp')
    expect(await span.inputValue()).toBe('121 mm')
    await page.getByRole('button', { name: 'leading edge', exact: true }).focus()
    await page.keyboard.press('Enter')
    expect(await page.locator('[data-point]').count()).toBe(5)
    await page.locator('[data-point="1"]').focus()
    await page.keyboard.press('ArrowLeft')
    expect(await page.locator('[data-path="fins.outline.points[1][0]"] input').inputValue()).toBe('74 mm')
    await page.keyboard.press('Delete')
    expect(await page.locator('[data-point]').count()).toBe(4)
    await page.getByRole('button', { name: 'Edit as a trapezoid' }).click()
    expect(await span.inputValue()).toBe('121 mm')
    await page.close()
  })

  test('sweep is typed, and moves the tip', async () => {
    const page = await app.open('/shape')
    const sweep = page.getByLabel('Sweep of the leading edge')
    await sweep.fill('45')
    await sweep.press('Enter')
    expect(await page.locator('[data-path="fins.outline.tipOffset"] input').inputValue()).toBe('110 mm')
    await page.close()
  })

  test('a drawing is seen before it is taken; a bad one changes nothing', async () => {
    const page = await app.open('/shape')
    const file = page.locator('input[type="file"]')
    const fin = (): Promise<string | null> => page.getByTestId('fin').getAttribute('d')
    const before = await fin()
    await file.setInputFiles({ name: 'broken.dxf', mimeType: 'image/vnd.dxf', buffer: Buffer.from('0\nSECTION\nfin') })
    expect(await page.getByRole('alert').textContent()).toMatch(/broken\.dxf: .*Nothing was changed\./)
    await file.setInputFiles({ name: 'broken.svg', mimeType: 'image/svg+xml', buffer: Buffer.from('<svg><path d=') })
    // Files are read in their own time: the first one's words stand until the second one's come.
    await page.getByRole('alert').filter({ hasText: 'no SVG drawing' }).waitFor()
    expect(await fin()).toBe(before)
    await file.setInputFiles({ name: 'fin.svg', mimeType: 'image/svg+xml', buffer: Buffer.from(square) })
    await page.getByText('As the file says.').waitFor()
    await expectAccessible(page)
    expect(await fin()).toBe(before)
    await page.getByRole('button', { name: 'Take this outline' }).click()
    expect(await fin()).not.toBe(before)
    expect(await page.locator('[data-path="fins.outline.points[3][0]"] input').inputValue()).toBe('200 mm')
    await margins(page)
    await page.getByRole('button', { name: /^Undo/ }).click()
    await page.waitForFunction((d) => document.querySelector('[data-testid="fin"]')?.getAttribute('d') === d, before)
    await page.close()
  })

  test.each(['light', 'dark'] as const)('axe finds nothing, %s, at three widths', async (theme) => {
    const page = await app.open('/shape', undefined, theme)
    await expectRightAtEveryWidth(page)
    await page.close()
  })
})
