/** Plans made, opened, taken away and brought back; files beside them; import and export. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { NewsReply, PlanList, Refused, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'
import { unzipSync } from 'fflate'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Serving } from '../src/serve.ts'
import {
  type Asking,
  asking,
  command,
  examples,
  openExample,
  raw,
  setField,
  started,
  temporaryFolder,
} from './serving.ts'

const folder = temporaryFolder()
let serving: Serving
let ask: Asking
beforeAll(async () => {
  serving = await started(folder.path, { demo: true })
  ask = asking(serving)
})
afterAll(async () => {
  await serving.close()
  folder.remove()
})

const demoText = readFileSync(join(examples, 'demo.fincan.json'), 'utf8')
const thrustText = readFileSync(join(examples, 'demo-thrust.csv'))
const list = async () => (await ask.get<PlanList>('/api/plans')).body
const file = (text: string, files?: unknown) => ({
  from: { kind: 'file', text, ...(files === undefined ? {} : { files }) },
})
const zipOf = async (path: string) =>
  unzipSync(new Uint8Array(await (await fetch(new URL(path, serving.address))).arrayBuffer()))

describe('plans', () => {
  test('start with a copy of the demo, open, with the file that it names', async () => {
    const { plans, open } = await list()
    expect(plans.map(({ name, kind, id }) => [name, kind, id === open])).toEqual([
      ['Four-fin supersonic demo', 'can', true],
    ])
    const standing = (await ask.get<StandingPlan>(`/api/plans/${open}`)).body
    expect(Object.keys(standing.record.files)).toEqual(['demo-thrust.csv'])
  })

  test('every example can be copied', async () => {
    const { body } = await ask.get<{ examples: { name: string; title: string }[] }>('/api/examples')
    const there = readdirSync(examples).filter((name) => name.endsWith('.fincan.json'))
    expect(there.length).toBeGreaterThanOrEqual(5)
    expect(body.examples.map(({ name }) => `${name}.fincan.json`)).toEqual(there.sort())
    for (const { name, title } of body.examples) expect((await openExample(ask, name)).record.plan.name).toBe(title)
  })

  test('are opened, copied, taken away and brought back', async () => {
    const one = await openExample(ask)
    await ask.send('POST', `/api/plans/${one.id}/commands`, command(1, 'plan.rename', { name: 'Mine' }))
    const copy = await ask.send<StandingPlan>('POST', '/api/plans', { from: { kind: 'copy', id: one.id } })
    expect([copy.body.record.plan.name, copy.body.undo, (await list()).open]).toEqual(['Mine', null, copy.body.id])
    expect((await ask.send('DELETE', `/api/plans/${copy.body.id}`)).status).toBe(200)
    const without = await list()
    expect([
      without.open,
      without.removed.map(({ id }) => id),
      without.plans.some(({ id }) => id === copy.body.id),
    ]).toEqual([null, [copy.body.id], false])
    expect((await ask.get(`/api/plans/${copy.body.id}`)).status).toBe(404)
    expect((await ask.send('PUT', '/api/open', { id: copy.body.id })).status).toBe(404)
    await ask.send('POST', `/api/plans/${copy.body.id}/bring-back`)
    expect((await ask.get(`/api/plans/${copy.body.id}`)).status).toBe(200)
    expect((await ask.send<{ open: string }>('PUT', '/api/open', { id: one.id })).body).toEqual({ open: one.id })
  })
})

describe('import and export', () => {
  test('a plan file with the files it names comes in, and goes out as it came', async () => {
    const sent = file(demoText, [{ name: 'demo-thrust.csv', base64: thrustText.toString('base64') }])
    const made = await ask.send<StandingPlan>('POST', '/api/plans', sent)
    expect(made.status).toBe(201)
    const at = `/api/plans/${made.body.id}`
    const out = await fetch(new URL(`${at}/plan.fincan.json`, serving.address))
    expect(out.headers.get('content-disposition')).toBe(
      "attachment; filename*=UTF-8''four-fin-supersonic-demo.fincan.json",
    )
    expect(JSON.parse(await out.text())).toEqual(JSON.parse(demoText))
    const zip = await zipOf(`${at}/plan.zip`)
    expect(Object.keys(zip)).toEqual(['four-fin-supersonic-demo.fincan.json', 'demo-thrust.csv'])
    const read = readPlan({
      text: new TextDecoder().decode(zip['four-fin-supersonic-demo.fincan.json']),
      readAttachment: (name) => ({ ok: true, text: new TextDecoder().decode(zip[name]) }),
    })
    expect(read.ok ? [] : read.issues).toEqual([])
  })

  const bad: readonly (readonly [string, unknown, number, string])[] = [
    ['no JSON', file('time (s), thrust (N)'), 422, 'json/syntax'],
    ['no plan', file('{}'), 422, 'plan/format'],
    ['a newer version', file('{"format":"finwright/plan","version":99}'), 422, 'plan/version'],
    ['a wrong unit', file(demoText.replace('"2.0 mm"', '"2.0 kg"')), 422, 'quantity/wrong-dimension'],
    ['an unknown name', file(demoText.replace('"tube"', '"tubes"')), 422, 'plan/unknown-key'],
    ['a bad file name beside it', file(demoText, [{ name: '../../x.csv', base64: '' }]), 422, 'command/payload'],
    ['no text', { from: { kind: 'file' } }, 400, 'command/payload'],
    ['an example that is none', { from: { kind: 'example', name: '../demo' } }, 404, 'server/not-found'],
    ['a plan that is none', { from: { kind: 'copy', id: 'none' } }, 404, 'server/not-found'],
  ]

  test.each(bad)('%s is refused and leaves everything as it was', async (_, body, status, code) => {
    const before = [await list(), rows()]
    const reply = await ask.send<Refused>('POST', '/api/plans', body)
    expect([reply.status, reply.body.issues.map((issue) => issue.code)]).toEqual([
      status,
      expect.arrayContaining([code]),
    ])
    expect([await list(), rows()]).toEqual(before)
  })

  test('a bad plan in place of a good one is refused too', async () => {
    const one = await openExample(ask)
    const plan = { ...one.record.plan, tube: { wall: '2 mm' } }
    const reply = await ask.send('POST', `/api/plans/${one.id}/commands`, command(1, 'plan.replace', { plan }))
    expect(reply.status).toBe(422)
    expect((await ask.get<StandingPlan>(`/api/plans/${one.id}`)).body).toEqual(one)
  })
})

/** Rows of every table: nothing is left behind by what was refused. */
function rows(): unknown {
  const tables = ['records', 'revisions', 'steps', 'contents', 'uses', 'settings']
  return tables.map((table) => serving.services.database.one<{ n: number }>(`SELECT count(*) AS n FROM ${table}`)?.n)
}

describe('files beside a plan', () => {
  test('are uploaded, attached, read, undone', async () => {
    const one = await openExample(ask, 'small-us')
    const at = `/api/plans/${one.id}`
    const bytes = new TextEncoder().encode('time (s), thrust (N)\n0, 100\n1, 0\n')
    const up = await ask.bytes('/api/files', bytes)
    expect(up).toMatchObject({ status: 201, body: { size: bytes.length } })
    const { sha256, size } = up.body
    const attached = await ask.send<NewsReply>(
      'POST',
      `${at}/commands`,
      command(1, 'files.attach', { name: 'my thrust.csv', file: { sha256, size } }),
    )
    expect(attached.body.record.files['my thrust.csv']).toEqual({ sha256, size })
    const down = await fetch(new URL(`${at}/files/my%20thrust.csv`, serving.address))
    expect([down.status, down.headers.get('content-type'), down.headers.get('content-disposition')]).toEqual([
      200,
      'text/csv; charset=utf-8',
      "attachment; filename*=UTF-8''my%20thrust.csv",
    ])
    expect(new Uint8Array(await down.arrayBuffer())).toEqual(bytes)
    const same = await fetch(new URL(`/api/files/${sha256}`, serving.address))
    expect([same.headers.get('content-type'), await same.text()]).toEqual([
      'application/octet-stream',
      new TextDecoder().decode(bytes),
    ])
    expect((await ask.get(`/api/files/${'0'.repeat(64)}`)).status).toBe(404)
    await ask.send('POST', `${at}/undo`, { id: 'undo-of-attach', client: 'window-one', base: 2 })
    expect((await ask.get(`${at}/files/my%20thrust.csv`)).status).toBe(404)
    expect((await ask.get(`${at}/files/my%20thrust.csv?revision=2`)).status).toBe(200)
  })

  test('that were not uploaded cannot be attached', async () => {
    const one = await openExample(ask)
    const { status, body } = await ask.send(
      'POST',
      `/api/plans/${one.id}/commands`,
      command(1, 'files.attach', { name: 'a.csv', file: { sha256: 'a'.repeat(64), size: 3 } }),
    )
    expect([status, body.issues[0]?.code]).toEqual([422, 'server/content-missing'])
  })

  test('uploads are bounded, stated or not', async () => {
    const big = Buffer.alloc(16 * 2 ** 20 + 1)
    const stated = await ask.bytes('/api/files', big)
    expect([stated.status, stated.body.issues?.[0]?.code]).toEqual([413, 'server/too-large'])
    const headers = {
      host: `127.0.0.1:${serving.port}`,
      origin: `http://127.0.0.1:${serving.port}`,
      'transfer-encoding': 'chunked',
    }
    const chunked = await raw({ port: serving.port, method: 'POST', path: '/api/files', headers, body: big })
    expect([chunked.status, JSON.parse(chunked.body).issues[0].code]).toEqual([413, 'server/too-large'])
    const plan = await ask.send<Refused>('POST', '/api/plans', file('x'.repeat(25 * 2 ** 20)))
    expect(plan.status).toBe(413)
    expect((await ask.get('/api/plans')).status).toBe(200)
  })

  test('what was uploaded and never used is swept away after a day', async () => {
    const { body } = await ask.bytes('/api/files', new TextEncoder().encode('never used'))
    await serving.close()
    serving = await started(folder.path, { now: () => new Date(Date.now() + 25 * 3600 * 1000) })
    ask = asking(serving)
    expect(serving.services.contents.read(body.sha256)).toBeUndefined()
    const { plans } = await list()
    expect(plans.length).toBeGreaterThan(3)
    const one = plans.find(({ name }) => name === 'Four-fin supersonic demo')!
    expect((await ask.get(`/api/plans/${one.id}/files/demo-thrust.csv`)).status).toBe(200)
  })
})

test('text as typed is kept to the letter', async () => {
  const one = await openExample(ask)
  const { body } = await ask.send<NewsReply>(
    'POST',
    `/api/plans/${one.id}/commands`,
    command(1, ...setField(['fins', 'core', 'thickness'], '  1/8  in')),
  )
  expect((body.record.plan.fins as { core: unknown }).core).toEqual({
    material: 'g10',
    thickness: '  1/8  in',
    grain: '0 deg',
  })
})
