/** The plan's page in headless Chromium: a flight's points, a CSV file, cans, a material's own value. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { type App, changed, expectAccessible, expectRightAtEveryWidth, margins, startApp } from './browser.ts'

let app: App
const folder = mkdtempSync(join(tmpdir(), 'finwright-csv-'))

beforeAll(async () => {
  app = await startApp()
}, 120_000)
afterAll(async () => {
  await app.close()
  rmSync(folder, { recursive: true, force: true })
})

function csv(name: string, text: string): string {
  const path = join(folder, name)
  writeFileSync(path, text)
  return path
}

const flown = [
  'time (s),altitude (ft),speed (ft/s)',
  ...Array.from({ length: 61 }, (_, i) => `${i / 10},${650 + 66 * i + i * i},${Math.min(50 * i, 2000)}`),
].join('\n')

const field = (page: Page, path: string) => page.locator(`[data-path="${path}"]`)
const undo = (page: Page) => page.getByRole('button', { name: /^Undo:/ })

describe('the plan’s page', { retry: 1, timeout: 180_000 }, () => {
  test('a point of the thrust curve moves the margins; a point that falls back says so', async () => {
    const page = await app.open('/')
    const before = await margins(page)
    await field(page, 'flight.thrust').getByRole('button', { name: 'Edit the points here' }).click()
    const cell = field(page, 'flight.thrust[3][1]').locator('input')
    await expect.poll(() => cell.inputValue()).toBe('2110 N')
    await cell.fill('3000')
    await cell.press('Enter')
    await expect.poll(() => cell.inputValue()).toBe('3000 N')
    await expect.poll(async () => (await margins(page)).flutter, { timeout: 60_000 }).not.toBe(before.flutter)
    expect(await changed(page)).toContain('flutter')
    await cell.press('Control+z')
    await expect.poll(() => cell.inputValue()).toBe('2110 N')
    await expect.poll(async () => (await margins(page)).flutter, { timeout: 60_000 }).toBe(before.flutter)
    const time = field(page, 'flight.thrust[3][0]').locator('input')
    await time.fill('0.1')
    await time.press('Enter')
    await expect
      .poll(() => field(page, 'flight.thrust[3][0]').textContent(), { timeout: 60_000 })
      .toMatch(/Time is 0\.1 s, not above the row before.*Sort the rows/s)
    await time.fill('soon')
    await time.press('Enter')
    await expect.poll(() => field(page, 'flight.thrust[3][0]').textContent()).toMatch(/soon.*Allowed: 0 s to 1000 s/s)
    await time.press('Escape')
    await undo(page).click()
    await expect.poll(() => time.inputValue()).toBe('0.6 s')
    await page.getByRole('button', { name: 'Insert a point after 4', exact: true }).first().click()
    await expect.poll(() => field(page, 'flight.thrust[4][0]').locator('input').inputValue()).toBe('0.9 s')
    await page.getByRole('button', { name: 'Take out point 5', exact: true }).first().click()
    await expect.poll(() => field(page, 'flight.thrust[4][0]').locator('input').inputValue()).toBe('1.2 s')
    await page.close()
  })

  test('a CSV file is seen before it is taken; a bad one changes nothing', async () => {
    const page = await app.open('/')
    const before = await margins(page)
    await page.getByRole('button', { name: 'Change how the flight is known' }).click()
    await page.getByText('flown elsewhere').click()
    const choose = page.locator('.unseen[type="file"]').first()
    await choose.setInputFiles(csv('bad.csv', 'time,altitude (m),speed (m/s)\n0,1,2\n0,x,3\n'))
    const bad = page.getByRole('region', { name: 'What stands in bad.csv' })
    await expect.poll(() => bad.textContent()).toMatch(/line 1: the column 'time' has no unit.*Write 'time \(s\)'/s)
    expect(await bad.getByRole('button', { name: 'Take this flight' }).count()).toBe(0)
    await choose.setInputFiles(csv('flown.csv', flown))
    const seen = page.getByRole('region', { name: 'What stands in flown.csv' })
    await expect.poll(() => seen.textContent()).toMatch(/61 points, 0 to 6 s/)
    expect(await seen.locator('svg').count()).toBe(2)
    await expectAccessible(page)
    expect(await field(page, 'flight.thrust').count()).toBe(1)
    await seen.getByRole('button', { name: 'Take this flight' }).click()
    await expect.poll(() => field(page, 'flight.history').textContent()).toMatch(/flown\.csv: 61 points/)
    await expect.poll(async () => (await margins(page)).flutter, { timeout: 60_000 }).not.toBe(before.flutter)
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Flown history: download as CSV' }).click()
    expect(readFileSync(await (await download).path(), 'utf8')).toBe(flown)
    await undo(page).click()
    await expect.poll(() => field(page, 'flight.thrust').count()).toBe(1)
    expect((await margins(page)).flutter).toBe(before.flutter)
    await page.close()
  })

  test('rows are pasted as a spreadsheet copies them', async () => {
    const page = await app.open('/')
    await page.getByRole('button', { name: 'Drag table: attach a CSV file' }).click()
    const drag = field(page, 'flight.drag')
    await drag.getByRole('button', { name: 'or paste rows' }).click()
    await drag.getByRole('textbox', { name: /Heading and rows/ }).fill('Mach\tCd\n0\t0.5\n1\t0.8\n2\t0.6\n')
    await drag.getByRole('button', { name: 'Look at it' }).click()
    await drag.getByRole('button', { name: 'Take it into the plan' }).click()
    await expect
      .poll(() => drag.textContent())
      .toMatch(/drag\.csv: 3 points, Mach 0 to 2; drag coefficient 0\.5 to 0\.8/)
    await page.close()
  })

  test('a can is put in, renamed and taken out', async () => {
    const page = await app.open('/')
    const cans = field(page, 'cans')
    await page.getByRole('button', { name: 'Add a can' }).click()
    const letter = page.getByLabel('Letter of can C')
    await letter.fill('a')
    await letter.press('Enter')
    await expect.poll(() => cans.textContent()).toMatch(/letter 'A' is taken by another can.*such as 'D'/s)
    await letter.fill('k')
    await letter.press('Enter')
    await page.getByLabel('What can K is for').selectOption('practice')
    await expect.poll(() => undo(page).getAttribute('aria-label')).toBe('Undo: can K: purpose (Ctrl+Z)')
    await page.getByRole('button', { name: 'Take out can K' }).click()
    await expect.poll(() => cans.locator('tbody tr').count()).toBe(2)
    await expect.poll(() => undo(page).getAttribute('aria-label')).toBe('Undo: can K taken out (Ctrl+Z)')
    await undo(page).click()
    await expect.poll(() => cans.locator('tbody tr').count()).toBe(3)
    expect(await page.getByLabel('What can K is for').inputValue()).toBe('practice')
    await page.close()
  })

  test('a material’s own value takes the library’s place, and gives it back', async () => {
    const page = await app.open('/?field=materials.g10.E1')
    const before = await margins(page)
    const modulus = field(page, 'materials.g10.E1')
    const input = modulus.locator('input')
    await expect.poll(() => input.inputValue()).toBe('18.6 GPa')
    await expect.poll(() => modulus.textContent()).toMatch(/library’s value, NEMA/)
    await input.fill('40 GPa')
    await input.press('Enter')
    await expect.poll(async () => (await margins(page)).flutter, { timeout: 60_000 }).not.toBe(before.flutter)
    expect(await modulus.textContent()).toMatch(/in place of 18\.6 GPa, the library’s value, NEMA/)
    await modulus.getByRole('button', { name: /back to the library’s/ }).click()
    await expect.poll(() => input.inputValue()).toBe('18.6 GPa')
    await expect.poll(async () => (await margins(page)).flutter, { timeout: 60_000 }).toBe(before.flutter)
    await page.close()
  })

  test('plies are named as on every sheet, in buttons and in undo', async () => {
    const page = await app.open('/')
    await page.locator('summary', { hasText: 'V1' }).click()
    await page.getByRole('button', { name: 'V1: take out' }).click()
    await expect.poll(() => undo(page).getAttribute('aria-label')).toBe('Undo: V1 taken out (Ctrl+Z)')
    expect(await page.locator('ol summary').allInnerTexts()).toHaveLength(6)
    await page.close()
  })

  test.each(['light', 'dark'] as const)('%s: right at every width, with all of it open', async (theme) => {
    const page = await app.open('/', { width: 1440, height: 900 }, theme)
    await field(page, 'flight.thrust').getByRole('button', { name: 'Edit the points here' }).click()
    await page.locator('[data-path="materials.glass-plain-200"] summary').click()
    await page.getByRole('button', { name: 'Thrust curve: attach a CSV file' }).click()
    await page.getByRole('button', { name: 'Add a section' }).click()
    await margins(page)
    await expectRightAtEveryWidth(page)
    await page.close()
  })
})
