/** Commands, undo and redo, two windows, restarts: on a real file, through real requests. */
import type { History, NewsReply, Refused, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import { valueAt } from '@finwright/plan/schema/locate.ts'
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest'
import type { Serving } from '../src/serve.ts'
import { type Asking, asking, command, openExample, setField, started, step, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
let serving: Serving
let ask: Asking
let plan: StandingPlan
let at: string

beforeAll(async () => {
  serving = await started(folder.path)
  ask = asking(serving)
})
afterAll(async () => {
  await serving.close()
  folder.remove()
})
beforeEach(async () => {
  plan = await openExample(ask)
  at = `/api/plans/${plan.id}`
})

const wall = ['tube', 'wall']
const wallOf = ({ record }: { record: NewsReply['record'] }) => valueAt(record.plan, wall)
const take = <T = NewsReply>(body: unknown) => ask.send<T>('POST', `${at}/commands`, body)
const standing = async () => (await ask.get<StandingPlan>(at)).body

describe('a command', () => {
  test('is written as typed and confirmed with its revision', async () => {
    const { status, body } = await take(command(1, ...setField(wall, '0.08 in')))
    expect([status, body.revision, wallOf(body), body.undo, body.redo]).toEqual([200, 2, '0.08 in', 'tube wall', null])
    expect(body.since.map(({ revision, changes }) => [revision, changes])).toEqual([
      [2, [{ kind: 'value', path: wall }]],
    ])
    expect(wallOf(await standing())).toBe('0.08 in')
  })

  test('sent twice counts once', async () => {
    const once = command(1, 'plies.duplicate', { at: 0 })
    await take(once)
    const { status, body } = await take(once)
    expect([status, body.revision, (body.record.plan.plies as unknown[]).length]).toEqual([200, 2, 8])
  })

  test('that is refused changes nothing', async () => {
    const { status, body } = await take<Refused>(command(1, ...setField(wall, '2.0')))
    expect([status, body.issues.map(({ code, path }) => `${code} ${path}`)]).toEqual([
      422,
      ['quantity/missing-unit tube.wall'],
    ])
    expect(await standing()).toEqual(plan)
  })

  test('made on a revision that is not known is refused', async () => {
    const { status, body } = await take<Refused>(command(7, ...setField(wall, '3 mm')))
    expect([status, body.issues[0]?.code]).toEqual([409, 'server/unknown-revision'])
  })
})

describe('undo and redo', () => {
  test('walk back and forth, and a new command ends redo', async () => {
    await take(command(1, ...setField(wall, '3 mm')))
    await take(command(2, ...setField(wall, '4 mm')))
    const undo = async (base: number) => (await ask.send<NewsReply>('POST', `${at}/undo`, step(base))).body
    const redo = async (base: number) => (await ask.send<NewsReply>('POST', `${at}/redo`, step(base))).body
    expect(wallOf(await undo(3))).toBe('3 mm')
    const first = await undo(4)
    expect([wallOf(first), first.undo, first.redo]).toEqual(['2.0 mm', null, 'tube wall'])
    expect(wallOf(await redo(5))).toBe('3 mm')
    await take(command(6, ...setField(wall, '5 mm')))
    const none = await ask.send('POST', `${at}/redo`, step(7))
    expect([none.status, none.body.issues[0]?.code]).toEqual([409, 'server/nothing-to-redo'])
    expect(wallOf(await undo(7))).toBe('3 mm')
  })

  test('a gesture is one step, and its inner revisions keep no record', async () => {
    for (const [i, value] of ['3 mm', '3.1 mm', '3.2 mm'].entries()) {
      await take(command(1 + i, ...setField(wall, value), { gesture: 'a-drag-of-the-wall' }))
    }
    const { body } = await ask.send<NewsReply>('POST', `${at}/undo`, step(4))
    expect([body.revision, wallOf(body), body.undo]).toEqual([5, '2.0 mm', null])
    const history = (await ask.get<History>(`${at}/history`)).body
    expect(history.entries.map(({ revision, kind, kept }) => [revision, kind, kept])).toEqual([
      [5, 'undo', true],
      [4, 'command', true],
      [3, 'command', false],
      [2, 'command', false],
      [1, 'made', true],
    ])
    expect((await ask.get(`${at}/revisions/4`)).status).toBe(200)
    expect((await ask.get(`${at}/revisions/3`)).status).toBe(404)
  })

  test('of a list moves its places back for windows that wait', async () => {
    await take(command(1, 'plies.remove', { at: 0 }))
    await ask.send('POST', `${at}/undo`, step(2))
    const { body } = await take(command(2, ...setField(['plies', 0, 'angle'], '30 deg'), { client: 'window-two' }))
    expect(valueAt(body.record.plan, ['plies', 1, 'angle'])).toBe('30 deg')
  })

  test('of what a window has not seen is refused', async () => {
    await take(command(1, ...setField(wall, '3 mm')))
    const { status, body } = await ask.send('POST', `${at}/undo`, step(1, { client: 'window-two' }))
    expect([status, body.issues[0]?.code]).toEqual([409, 'server/changed-meanwhile'])
  })

  test('work after a restart', async () => {
    await take(command(1, ...setField(wall, '3 mm')))
    await take(command(2, 'plan.rename', { name: 'Renamed' }))
    await ask.send('POST', `${at}/undo`, step(3))
    await serving.close()
    serving = await started(folder.path)
    ask = asking(serving)
    const again = await standing()
    expect([again.revision, again.undo, again.redo]).toEqual([4, 'tube wall', 'name of the plan'])
    const { body } = await ask.send<NewsReply>('POST', `${at}/undo`, step(4))
    expect(body.record).toEqual(plan.record)
    const redone = await ask.send<NewsReply>('POST', `${at}/redo`, step(5))
    expect(wallOf(redone.body)).toBe('3 mm')
  })
})

describe('two windows', () => {
  test('on different fields: both are kept, and each is told what the other did', async () => {
    await take(command(1, ...setField(wall, '3 mm'), { client: 'window-one' }))
    const { status, body } = await take(command(1, 'plan.rename', { name: 'Two' }, { client: 'window-two' }))
    expect([status, body.revision, wallOf(body), body.record.plan.name]).toEqual([200, 3, '3 mm', 'Two'])
    expect(body.since.map(({ revision }) => revision)).toEqual([2, 3])
    const changes = (await ask.get<NewsReply>(`${at}/changes?since=2`)).body
    expect([changes.revision, changes.since.length]).toEqual([3, 1])
  })

  test('on one field: the second is refused with both values', async () => {
    await take(command(1, ...setField(wall, '3 mm'), { client: 'window-one' }))
    const { status, body } = await take<Refused>(command(1, ...setField(wall, '4 mm'), { client: 'window-two' }))
    expect(status).toBe(409)
    expect(body.conflict).toEqual({ path: 'tube.wall', mine: '4 mm', theirs: '3 mm' })
    expect(body.issues[0]?.message).toBe(
      'Tube wall was changed in another window meanwhile: here "4 mm", now it is "3 mm".',
    )
  })

  test('a stream tells of revisions, plans and the open one', async () => {
    const stop = new AbortController()
    const reply = await fetch(new URL('/api/events', serving.address), { signal: stop.signal })
    const reader = reply.body!.pipeThrough(new TextDecoderStream()).getReader()
    let told = ''
    await take(command(1, ...setField(wall, '3 mm')))
    await ask.send('PUT', '/api/open', { id: null })
    while (!told.includes('"open":null}')) told += (await reader.read()).value ?? ''
    stop.abort()
    expect(told).toContain(
      `event: revision\ndata: {"kind":"revision","plan":"${plan.id}","revision":2,"client":"window-one"}`,
    )
  })
})

test('the shelf is kept the same way, and by itself', async () => {
  const roll = { id: 'left over', cloth: 'glass-plain-200', width: '965 mm', length: '3 m' }
  const first = (await ask.get<StandingPlan>('/api/shelf')).body
  expect([first.revision, first.record.plan]).toEqual([1, { stock: {} }])
  const { body } = await ask.send<NewsReply>(
    'POST',
    '/api/shelf/commands',
    command(1, 'rolls.insert', { at: 0, entry: roll }),
  )
  expect(body.record.plan).toEqual({ stock: { rolls: [roll] } })
  const undone = await ask.send<NewsReply>('POST', '/api/shelf/undo', step(2))
  expect(undone.body.record.plan).toEqual({ stock: {} })
})
