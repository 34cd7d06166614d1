/** What waits for the server when its window closes: the next window goes on with it, once, and says what no longer fits. */
import { readFileSync } from 'node:fs'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { describe, expect, test } from 'vitest'
import type { PlanServer, Reply } from '../src/server/client.ts'
import { localServer } from '../src/server/local.ts'
import { planDocument } from '../src/state/document.ts'
import { browserKeeper, type Places } from '../src/state/keeper.ts'

const demo = JSON.parse(readFileSync('examples/demo.fincan.json', 'utf8')) as JsonObject

/** A browser: one storage, and locks that are let go when the window that holds them closes. */
function aBrowser() {
  const kept = new Map<string, string>()
  const store = new Proxy({} as Storage, {
    get: (_, name) =>
      ({
        getItem: (key: string) => kept.get(key) ?? null,
        setItem: (key: string, text: string) => void kept.set(key, text),
        removeItem: (key: string) => void kept.delete(key),
      })[name as string],
    ownKeys: () => [...kept.keys()],
    getOwnPropertyDescriptor: () => ({ enumerable: true, configurable: true }),
  })
  const lines = new Map<string, Promise<unknown>>()
  const held = new Map<string, () => void>()
  const request = (name: string, work: () => Promise<unknown>): Promise<unknown> => {
    const turn = (lines.get(name) ?? Promise.resolve()).then(() =>
      Promise.race([work(), new Promise<void>((done) => held.set(name, done))]),
    )
    lines.set(name, turn)
    return turn
  }
  const places: Places = { store, locks: { request } as unknown as LockManager, written: () => undefined }
  return { kept, places, close: (window: string) => held.get(`finwright.window.${window}`)?.() }
}

type Browser = ReturnType<typeof aBrowser>

const soon = (ms = 20): Promise<void> => new Promise((done) => setTimeout(done, ms))

/** A window with a line of its own to the server, which can be cut. */
async function opened(server: PlanServer, window: string, { places, close }: Browser) {
  const line = { cut: false }
  const over =
    <A extends unknown[], T>(ask: (...of: A) => Promise<Reply<T>>) =>
    async (...of: A): Promise<Reply<T>> =>
      line.cut ? { kind: 'gone' } : ask(...of)
  const { standing, send, undo, redo, news, fileText, keepFile, listen } = server
  const mine: PlanServer = {
    ...{ standing: over(standing), send: over(send), undo: over(undo), redo: over(redo), news: over(news) },
    fileText: over(fileText),
    keepFile: over(keepFile),
    listen: (told) => listen((event) => !line.cut && told(event)),
  }
  const document = planDocument(mine, window, browserKeeper(window, places))
  await document.start()
  await soon()
  const at = (...path: (string | number)[]): unknown => valueAt(document.get().draft?.record.plan, path)
  const set = (path: (string | number)[], value: string) =>
    document.enter({ name: 'field.set', payload: { path, value } })
  const ends = (): void => {
    line.cut = true
    close(window)
  }
  return { document, line, at, set, ends }
}

const started = () => localServer({ record: { kind: 'plan', plan: demo, files: {} }, files: {} })

describe('what waits when its window closes', () => {
  test('is gone on with by the next window, and then forgotten', async () => {
    const [server, browser] = [started(), aBrowser()]
    const first = await opened(server, 'first-window', browser)
    first.line.cut = true
    first.set(['tube', 'wall'], '2.4 mm')
    first.set(['plies', 1, 'angle'], '30 deg')
    await soon()
    expect(browser.kept.size).toBe(1)
    first.ends()
    const second = await opened(server, 'second-window', browser)
    expect([second.at('tube', 'wall'), second.at('plies', 1, 'angle')]).toEqual(['2.4 mm', '30 deg'])
    expect(second.document.get().draft?.confirmed.revision).toBe(2)
    expect(second.document.get().dropped).toEqual([])
    expect(browser.kept.size).toBe(0)
  })

  test('is left alone while its window lives, and taken up when it has closed', async () => {
    const [server, browser] = [started(), aBrowser()]
    const first = await opened(server, 'first-window', browser)
    first.line.cut = true
    first.set(['tube', 'wall'], '2.4 mm')
    const second = await opened(server, 'second-window', browser)
    expect([second.at('tube', 'wall'), browser.kept.size]).toEqual(['2.0 mm', 1])
    first.ends()
    await soon()
    expect([second.at('tube', 'wall'), browser.kept.size]).toEqual(['2.4 mm', 0])
    expect(second.document.get().draft?.confirmed.revision).toBe(1)
  })

  test('what the server took before the window closed is not done twice', async () => {
    const [server, browser] = [started(), aBrowser()]
    const first = await opened(server, 'first-window', browser)
    first.document.enter({ name: 'plies.duplicate', payload: { at: 0 } })
    // closed before the answer came: it still stands as waiting
    const [[name, text]] = [...browser.kept.entries()] as [[string, string]]
    await soon()
    first.ends()
    browser.kept.set(name, text)
    const second = await opened(server, 'second-window', browser)
    expect((second.at('plies') as unknown[]).length).toBe((demo.plies as unknown[]).length + 1)
    expect(second.document.get().draft?.confirmed.revision).toBe(1)
    expect([second.document.get().dropped, browser.kept.size]).toEqual([[], 0])
  })

  test('follows its ply when another window moved it, and is told where it no longer fits', async () => {
    const [server, browser] = [started(), aBrowser()]
    const first = await opened(server, 'first-window', browser)
    const other = await opened(server, 'other-window', browser)
    first.line.cut = true
    first.set(['plies', 1, 'angle'], '30 deg')
    first.set(['tube', 'wall'], '2.4 mm')
    other.document.enter({ name: 'plies.move', payload: { from: 1, to: 3 } })
    other.set(['tube', 'wall'], '2.6 mm')
    await soon(50)
    other.ends()
    first.ends()
    const second = await opened(server, 'second-window', browser)
    expect([second.at('plies', 3, 'angle'), second.at('tube', 'wall')]).toEqual(['30 deg', '2.6 mm'])
    const { dropped } = second.document.get()
    expect(dropped.map(({ issues }) => issues.map(({ code, path }) => `${code} ${path}`))).toEqual([
      ['command/conflict tube.wall'],
    ])
  })

  test('what is not readable is put away', async () => {
    const [server, browser] = [started(), aBrowser()]
    browser.kept.set('finwright.waiting.broken-window', '{"entries":')
    await opened(server, 'second-window', browser)
    expect(browser.kept.size).toBe(0)
  })

  test('undo with the server gone says why nothing happens', async () => {
    const first = await opened(started(), 'first-window', aBrowser())
    first.set(['tube', 'wall'], '2.4 mm')
    await soon()
    first.line.cut = true
    await first.document.undo()
    expect(first.at('tube', 'wall')).toBe('2.4 mm')
    expect(first.document.get().dropped.map(({ issues }) => issues[0]?.code)).toEqual(['server/gone'])
  })
})
