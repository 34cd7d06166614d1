/**
 * Pictures of every page of the app at three widths, on the demo: `node scripts/screens.mjs [FOLDER] [light|dark]`. The app must have been
 * built. Without a folder those in docs/screens are taken anew, with docs/screens.md that shows them.
 */
import { spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { chromium } from 'playwright-core'

const documents = 'docs/screens'
const [folder = documents, theme = 'light'] = process.argv.slice(2)
const sizes = [
  { width: 1440, height: 900 },
  { width: 820, height: 1180 },
  { width: 360, height: 800 },
]
/** A long page is cut after so many windows. */
const most = 2.5

/** Paths and questions as the app lists them. */
const listed = readFileSync('packages/web/src/pages.ts', 'utf8').matchAll(/path: '([^']+)',\s*question: '([^']+)'/g)
const pages = [
  ...[...listed].map(([, path, question]) => ({ path, question, name: path === '/' ? 'plan' : path.slice(1) })),
  { path: '/hold?why=flutter.ratio', question: 'Why that number?', name: 'why' },
]

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
const fileOf = (name, { width }) => `${name}-${width}-${theme}.jpg`
for (const { name, path } of pages) {
  await page.setViewportSize(sizes[0])
  await page.goto(address + path)
  await page.locator('[data-answers="fresh"]').waitFor({ timeout: 180_000 })
  for (const size of sizes) {
    await page.setViewportSize(size)
    await page.waitForTimeout(600)
    const whole = await page.evaluate(() => document.documentElement.scrollHeight)
    const height = name === 'why' ? size.height : Math.min(whole, most * size.height)
    const file = join(folder, fileOf(name, size))
    const clip = { x: 0, y: 0, width: size.width, height }
    await page.screenshot({ path: file, type: 'jpeg', quality: 62, fullPage: name !== 'why', clip })
    console.log(file)
  }
}
await browser.close()
server.kill()
rmSync(data, { recursive: true, force: true })

if (folder === documents) {
  const shown = (name, size) => `<img src="screens/${fileOf(name, size)}" width="${Math.round(size.width / 4)}" alt="">`
  const rows = pages.map(
    ({ name, question }) => `| ${question} | ${sizes.map((size) => shown(name, size)).join(' | ')} |`,
  )
  const head = [
    '# Every page',
    '',
    'On the demo, whose numbers and names are invented, in windows 1440, 820 and 360 wide; long pages are cut. Made by `node scripts/screens.mjs`.',
    '',
    `| question | ${sizes.map(({ width }) => width).join(' | ')} |`,
    '| --- | --- | --- | --- |',
  ]
  writeFileSync('docs/screens.md', `${[...head, ...rows].join('\n')}\n`)
}
