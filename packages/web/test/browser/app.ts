/** The built app, served by the real server from a folder of its own, in headless Chromium. */
import { type ChildProcess, execFileSync, spawn } from 'node:child_process'
import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { createRequire } from 'node:module'
import { tmpdir } from 'node:os'
import { delimiter, join } from 'node:path'
import { type Browser, chromium, type Page } from 'playwright-core'

export interface RunningServer {
  readonly address: string
  readonly stop: () => Promise<void>
}

export function buildApp(): void {
  execFileSync(process.execPath, ['node_modules/vite/bin/vite.js', 'build', 'packages/web', '--logLevel', 'error'], {
    stdio: ['ignore', 'inherit', 'inherit'],
  })
}

export const freshFolder = (): string => mkdtempSync(join(tmpdir(), 'finwright-web-'))

export const removeFolder = (folder: string): void => rmSync(folder, { recursive: true, force: true })

export async function startServer(data: string, port = 0): Promise<RunningServer> {
  const program = 'packages/server/bin/finwright-server.js'
  const options = ['--data', data, '--web', 'packages/web/dist', '--port', String(port), '--demo']
  const child = spawn(process.execPath, [program, ...options], { stdio: ['ignore', 'pipe', 'pipe'] })
  const address = await printedAddress(child)
  const ended = new Promise<void>((done) => child.once('exit', () => done()))
  return {
    address,
    stop: async () => {
      child.kill('SIGTERM')
      await ended
    },
  }
}

function printedAddress(child: ChildProcess): Promise<string> {
  return new Promise((found, failed) => {
    let text = ''
    const read = (chunk: Buffer): void => {
      text += chunk.toString()
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(text)?.[0]
      if (address !== undefined) found(address)
    }
    child.stdout?.on('data', read)
    child.stderr?.on('data', read)
    child.once('exit', (code) => failed(new Error(`the server ended with ${code}: ${text}`)))
  })
}

/** The program that FINWRIGHT_CHROMIUM names, else one on the path. */
export function chromiumProgram(): string {
  const named = process.env.FINWRIGHT_CHROMIUM
  if (named !== undefined) return named
  const folders = (process.env.PATH ?? '').split(delimiter)
  const found = folders
    .flatMap((folder) => ['chromium', 'chromium-browser', 'google-chrome'].map((name) => join(folder, name)))
    .find((path) => existsSync(path))
  if (found === undefined)
    throw new Error(
      'No Chromium on the path. Install it (on Debian: apt-get install chromium) or name it in FINWRIGHT_CHROMIUM.',
    )
  return found
}

export const openBrowser = (): Promise<Browser> =>
  chromium.launch({ executablePath: chromiumProgram(), args: ['--no-sandbox'] })

/** Waits until every number belongs to the present plan. */
export async function atRest(page: Page): Promise<void> {
  await page.waitForFunction(() => document.querySelector('[data-answers="fresh"]') !== null, null, {
    timeout: 180_000,
  })
}

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8')

/** Waits until no colour is on its way to another one. */
const colouredThrough = (page: Page): Promise<unknown> =>
  page.evaluate(() =>
    Promise.allSettled(
      document
        .getAnimations()
        .filter((one) => one instanceof CSSTransition)
        .map(({ finished }) => finished),
    ),
  )

/** Rules broken on the page as it stands, with the place of each. */
export async function accessibilityFaults(page: Page): Promise<readonly string[]> {
  await page.evaluate(axe)
  await colouredThrough(page)
  return page.evaluate(async () => {
    const run = (globalThis as unknown as { axe: { run: (root: Document) => Promise<AxeResult> } }).axe.run
    const { violations } = await run(document)
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ target, failureSummary }) => `${id}: ${target.join(' ')}: ${failureSummary}`),
    )
  })
}

interface AxeResult {
  readonly violations: readonly {
    readonly id: string
    readonly nodes: readonly { readonly target: readonly string[]; readonly failureSummary: string }[]
  }[]
}
