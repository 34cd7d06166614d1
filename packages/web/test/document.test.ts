/** The document loop without a browser: what is entered applies at once, waits while the server is gone, and is undone as a whole. */
import { readFileSync } from 'node:fs'
import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { describe, expect, test } from 'vitest'
import { localServer } from '../src/server/local.ts'
import { planDocument } from '../src/state/document.ts'

const demo = JSON.parse(readFileSync('examples/demo.fincan.json', 'utf8')) as JsonObject

async function opened() {
  const server = localServer({ record: { kind: 'plan', plan: demo, files: {} }, files: {} })
  const document = planDocument(server)
  await document.start()
  const wall = (): unknown => valueAt(document.get().draft?.record.plan, ['tube', 'wall'])
  const setWall = (value: string, gesture?: string) =>
    document.enter({ name: 'field.set', payload: { path: ['tube', 'wall'], value } }, gesture)
  const settled = async (): Promise<void> => {
    for (let i = 0; i < 200 && (document.get().draft?.waiting.length ?? 0) > 0; i++)
      await new Promise((done) => setTimeout(done, 5))
  }
  return { server, document, wall, setWall, settled }
}

describe('the document loop', () => {
  test('applies at once, is kept, and undone', async () => {
    const { document, wall, setWall, settled } = await opened()
    expect(setWall('2.5 mm')).toEqual({ ok: true })
    expect(wall()).toBe('2.5 mm')
    await settled()
    expect([document.get().draft?.confirmed.revision, document.get().undo]).toEqual([1, 'tube wall'])
    await document.undo()
    expect([wall(), document.get().redo]).toEqual(['2.0 mm', 'tube wall'])
    await document.redo()
    expect(wall()).toBe('2.5 mm')
  })

  test('a gesture is undone in one step', async () => {
    const { document, wall, setWall, settled } = await opened()
    for (const value of ['2.1 mm', '2.2 mm', '2.3 mm']) setWall(value, 'one-gesture')
    await settled()
    await document.undo()
    expect([wall(), document.get().undo]).toEqual(['2.0 mm', null])
  })

  test('undo pressed three times at once takes three steps back, one by one', async () => {
    const { document, wall, setWall, settled } = await opened()
    for (const value of ['2.1 mm', '2.2 mm', '2.3 mm']) setWall(value)
    await settled()
    await Promise.all([document.undo(), document.undo(), document.undo()])
    expect([wall(), document.get().undo, document.get().dropped]).toEqual(['2.0 mm', null, []])
    await Promise.all([document.redo(), document.redo()])
    expect(wall()).toBe('2.2 mm')
  })

  test('what cannot be read is refused at once with the field and what is allowed', async () => {
    const { wall, setWall } = await opened()
    const made = setWall('2.5 lightyears')
    expect(made.ok ? [] : made.issues.map(({ path }) => path)).toEqual(['tube.wall'])
    expect(wall()).toBe('2.0 mm')
  })

  test('with the server gone entries wait, and get through when it is back', async () => {
    const { server, document, wall, setWall, settled } = await opened()
    server.fail(true)
    setWall('2.5 mm')
    setWall('2.6 mm')
    await new Promise((done) => setTimeout(done, 20))
    expect([wall(), document.get().connection, document.get().draft?.waiting.length]).toEqual(['2.6 mm', 'gone', 2])
    server.fail(false)
    await settled()
    expect([wall(), document.get().connection, document.get().draft?.confirmed.revision]).toEqual(['2.6 mm', 'here', 2])
  })

  test('another window on the same plan: its change arrives, ours stays', async () => {
    const { server, document, wall, setWall, settled } = await opened()
    const other = planDocument(server)
    await other.start()
    other.enter({ name: 'field.set', payload: { path: ['fins', 'count'], value: 3 } })
    setWall('2.5 mm')
    await settled()
    for (let i = 0; i < 50 && document.get().draft?.confirmed.revision !== 2; i++)
      await new Promise((done) => setTimeout(done, 5))
    expect(wall()).toBe('2.5 mm')
    expect(valueAt(document.get().draft?.record.plan, ['fins', 'count'])).toBe(3)
  })
})
