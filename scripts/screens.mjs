/**
 * Pictures of every page of the app at three widths, on the demo: `node scripts/screens.mjs [FOLDER] [light|dark]`. The app must have been
 * built. They are for looking at; those that the documents show are copied by hand.
 */
import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium } from 'playwright-core'

const [folder = 'build/screens', theme = 'light'] = process.argv.slice(2)
const sizes = [
  { width: 1440, height: 900 },
  { width: 820, height: 1180 },
  { width: 360, height: 800 },
]
const pages = { plan: '/', see: '/see', hold: '/hold', cut: '/cut', mix: '/mix', why: '/hold?why=flutter.ratio' }

mkdirSync(folder, { recursive: true })
const data = mkdtempSync(join(tmpdir(), 'finwright-screens-'))
const program = 'packages/server/bin/finwright-server.js'
const server = spawn(process.execPath, [program, '--demo', '--data', data, '--web', 'packages/web/dist', '--port', '0'])
const address = await new Promise((found) => {
  server.stdout.on('data', (text) => {
    const printed = /http:\/\/127\.0\.0\.1:\d+/.exec(text)
    if (printed !== null) found(printed[0])
  })
})
const executablePath = process.env.FINWRIGHT_CHROMIUM ?? '/usr/bin/chromium'
const browser = await chromium.launch({ executablePath, args: ['--no-sandbox'] })
const page = await browser.newPage({ colorScheme: theme })
for (const [name, path] of Object.entries(pages)) {
  await page.setViewportSize(sizes[0])
  await page.goto(address + path)
  await page.locator('[data-answers="fresh"]').waitFor({ timeout: 180_000 })
  for (const size of sizes) {
    await page.setViewportSize(size)
    await page.waitForTimeout(400)
    const file = join(folder, `${name}-${size.width}-${theme}.png`)
    await page.screenshot({ path: file, fullPage: name !== 'why' })
    console.log(file)
  }
}
await browser.close()
server.kill()
rmSync(data, { recursive: true, force: true })
