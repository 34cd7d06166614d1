/** What the bench of the app looks at inside the page: when each number turned stale, and when it was drawn fresh again. */
import type { Browser, Page } from 'playwright-core'

export interface Load {
  /** From the start of the navigation, ms. */
  readonly interactive: number
  readonly quick: number
  readonly margins: number
  readonly longest: number
}

export interface Edit {
  /** From the key's event, ms, to the frame in which it was seen. */
  readonly stale: number
  readonly quick: number
  readonly strength: number
  readonly flutter: number
  readonly margins: number
  readonly whole: number
  readonly longTasks: readonly number[]
}

interface Seen {
  readonly freshAt: Record<string, number>
  staleAt: number
  wholeAt: number
  interactiveAt: number
  pressedAt: number
  /** The margins are marked in the trace. */
  marked: boolean
  readonly long: number[]
  /** Called once all of it is fresh. */
  told: () => void
  /** Called once every margin is. */
  toldMargins: () => void
}

declare global {
  interface Window {
    seen: Seen
  }
}

const patience = 120_000

/** From the last margin to the next key, ms. */
const soon = 120

/** Of a drag. */
export const moves = 24

/** Where the schedule's page has its angle: an arrow key turns the ply by one degree. */
const angle = '[data-path="plies[1].angle"] input'

/** Runs in the page before anything of the app. */
function install(): void {
  const seen: Seen = {
    freshAt: {},
    staleAt: 0,
    wholeAt: 0,
    interactiveAt: 0,
    pressedAt: 0,
    marked: false,
    long: [],
    told: () => undefined,
    toldMargins: () => undefined,
  }
  window.seen = seen
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) seen.long.push(duration)
  }).observe({ type: 'longtask', buffered: true })
  const press = (event: Event): void => {
    seen.pressedAt = event.timeStamp
    performance.mark('pressed')
  }
  addEventListener('keydown', press, true)
  addEventListener('pointerdown', press, true)
  addEventListener('pointermove', (event) => event.buttons > 0 && press(event), true)
  const look = (now: number): void => {
    for (const cell of document.querySelectorAll<HTMLElement>('[data-margin]')) {
      const { margin = '' } = cell.dataset
      if (cell.dataset.stale !== undefined) delete seen.freshAt[margin]
      else seen.freshAt[margin] ??= now
    }
    if (seen.staleAt === 0 && document.querySelector('[data-margin][data-stale]') !== null) seen.staleAt = now
    const fresh = document.querySelector('[data-answers="fresh"]') !== null
    seen.wholeAt = !fresh ? 0 : seen.wholeAt || now
    const cells = document.querySelectorAll('[data-margin]').length
    if (cells > 0 && Object.keys(seen.freshAt).length === cells && seen.staleAt > 0 && !seen.marked) {
      seen.marked = true
      performance.mark('margins')
      seen.toldMargins()
    }
    if (cells > 0 && seen.wholeAt > 0 && Object.keys(seen.freshAt).length === cells) seen.told()
    if (seen.interactiveAt === 0 && document.querySelector('main h1') !== null) seen.interactiveAt = now
  }
  const watcher = new MutationObserver(() => {
    // the frame that shows it: right before it is drawn, and a task after
    requestAnimationFrame(() => {
      const { port1, port2 } = new MessageChannel()
      port1.onmessage = () => look(performance.now())
      port2.postMessage(null)
    })
  })
  watcher.observe(document, { subtree: true, childList: true, attributes: true, characterData: true })
}

const allFresh = (): boolean => {
  const cells = document.querySelectorAll('[data-margin]')
  return cells.length > 0 && Object.keys(window.seen.freshAt).length === cells.length && window.seen.wholeAt > 0
}

export async function firstLoad(browser: Browser, address: string): Promise<Load> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } })
  await page.addInitScript(install)
  await page.goto(address, { waitUntil: 'commit' })
  await page.waitForFunction(allFresh, null, { timeout: patience })
  const { freshAt, interactiveAt, long } = await page.evaluate(() => window.seen)
  await page.close()
  return {
    interactive: interactiveAt,
    quick: Math.max(freshAt.mass ?? 0, freshAt.thickness ?? 0),
    margins: Math.max(...Object.values(freshAt)),
    longest: Math.max(0, ...long),
  }
}

/**
 * A page ready to be edited. With `/plies` a key turns a ply; on other pages Ctrl+Z and Ctrl+Shift+Z take such an edit back and do it again,
 * which the server has to answer first.
 */
export async function watchEdits(page: Page, address: string, path: string) {
  await page.addInitScript(install)
  await page.goto(`${address}/plies`)
  await page.waitForFunction(allFresh, null, { timeout: patience })
  await page.locator('[data-ply="P2"] button[aria-pressed]').click()
  if (path !== '/plies') {
    await page.locator(angle).press('ArrowUp')
    await page.locator(`nav a[href="${path}"]`).first().click()
    await page.waitForFunction(allFresh, null, { timeout: patience })
  }
  let turn = 0
  const forget = (): Promise<void> =>
    page.evaluate(() => {
      Object.assign(window.seen, { freshAt: {}, staleAt: 0, wholeAt: 0, pressedAt: 0, marked: false })
      window.seen.long.length = 0
    })
  const done = (): Promise<void> =>
    page.evaluate(
      () =>
        new Promise((told) => {
          window.seen.told = () => window.seen.staleAt > 0 && told()
        }),
    )
  const dragged = async (
    what: string,
    at: (x: number, y: number, share: number) => [number, number],
  ): Promise<Edit> => {
    const box = await page.locator(what).boundingBox()
    if (box === null) throw new Error(`${what} is not in sight`)
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2]
    await forget()
    await page.mouse.move(...at(x, y, 0))
    await page.mouse.down()
    for (let i = 1; i <= moves; i++) {
      await page.mouse.move(...at(x, y, i / moves))
      await page.waitForTimeout(30)
    }
    const whole = done()
    await page.mouse.up()
    await whole
    return edited(page)
  }
  const marginsDone = (): Promise<void> =>
    page.evaluate(
      () =>
        new Promise((told) => {
          window.seen.toldMargins = told
        }),
    )
  return {
    /** Before all else is worked out, which takes longer than the margins: as one edits who looks at the margins alone. */
    byKeySoon: async (): Promise<Edit> => {
      await page.waitForTimeout(soon)
      await forget()
      const margins = marginsDone()
      await page.locator(angle).press('ArrowUp')
      await margins
      return edited(page)
    },
    byKey: async (): Promise<Edit> => {
      await forget()
      const whole = done()
      turn++
      if (path === '/plies') await page.locator(angle).press('ArrowUp')
      else await page.keyboard.press(turn % 2 === 1 ? 'Control+z' : 'Control+Shift+z')
      await whole
      return edited(page)
    },
    /** The dial round by 70 degrees. */
    byDial: () =>
      dragged('[role="slider"]', (x, y, share) => {
        const turn = ((8 + 70 * share) * Math.PI) / 180
        return [x + 60 * Math.cos(turn), y + 60 * Math.sin(turn)]
      }),
    /** A corner of the tip, outwards and aft. */
    byTip: () => dragged('[data-point="2"] circle:last-child', (x, y, share) => [x + 30 * share, y - 30 * share]),
  }
}

async function edited(page: Page): Promise<Edit> {
  const { freshAt, staleAt, wholeAt, pressedAt, long } = await page.evaluate(() => window.seen)
  const at = (name: string): number => (freshAt[name] ?? Number.NaN) - pressedAt
  return {
    stale: staleAt - pressedAt,
    quick: Math.max(at('mass'), at('thickness')),
    strength: at('strength'),
    flutter: at('flutter'),
    margins: Math.max(...Object.values(freshAt)) - pressedAt,
    whole: wholeAt - pressedAt,
    longTasks: long,
  }
}
