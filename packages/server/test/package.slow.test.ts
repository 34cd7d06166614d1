/** Packages made by the real thread: whole, with previews, cancelled, refused; the server answers meanwhile. */
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import type { Job, Refused } from '@finwright/plan/protocol/wire.ts'
import { unzipSync } from 'fflate'
import { afterAll, beforeAll, expect, test } from 'vitest'
// @ts-expect-error the bundler is plain JavaScript
import { serverBundle } from '../build.js'
import type { Serving } from '../src/serve.ts'
import { type Asking, asking, command, openExample, started, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
let serving: Serving
let ask: Asking
beforeAll(async () => {
  const thread = pathToFileURL(join((await serverBundle()) as string, 'thread.js'))
  serving = await started(folder.path, { thread })
  ask = asking(serving)
})
afterAll(async () => {
  await serving.close()
  folder.remove()
})

const wanted = (id: string, paper = 'a4') => ask.send<Job>('POST', `/api/plans/${id}/package`, { paper })
const job = async (id: string) => (await ask.get<Job>(`/api/jobs/${id}`)).body

async function until(id: string, met: (job: Job) => boolean): Promise<Job> {
  for (let tries = 0; tries < 600; tries += 1) {
    const now = await job(id)
    if (met(now)) return now
    await new Promise((resolve) => setTimeout(resolve, 100))
  }
  throw new Error('the job did not get there within a minute')
}

const ended = ({ state }: Job) => state !== 'waiting' && state !== 'working'

test('a package comes as a folder in a zip, each page can be looked at, and it is not made twice', async () => {
  const plan = await openExample(ask)
  const asked = await wanted(plan.id)
  expect([asked.status, asked.body.state]).toEqual([202, 'working'])
  let [longest, questions] = [0, 0]
  while (!ended(await job(asked.body.id))) {
    const before = performance.now()
    await ask.get('/api/plans')
    longest = Math.max(longest, performance.now() - before)
    questions += 1
    await new Promise((resolve) => setTimeout(resolve, 20))
  }
  expect(questions).toBeGreaterThan(20)
  expect(longest).toBeLessThan(1000)
  const done = await job(asked.body.id)
  expect([done.state, done.issues, done.made]).toEqual(['done', [], done.of])
  const paths = done.documents.map(({ path }) => path)
  expect(paths[0]).toBe('a4/01-cover.pdf')
  expect(paths.every((path) => done.files.some((file) => file.path === path))).toBe(true)

  const zip = unzipSync(
    new Uint8Array(
      await (await fetch(new URL(`/api/plans/${plan.id}/package.zip?paper=a4`, serving.address))).arrayBuffer(),
    ),
  )
  expect(Object.keys(zip).sort()).toEqual(done.files.map(({ path }) => path).sort())
  for (const [path, bytes] of Object.entries(zip))
    if (path.endsWith('.pdf')) expect(new TextDecoder().decode(bytes.slice(0, 5))).toBe('%PDF-')
  expect((await wanted(plan.id)).body.id).toBe(done.id)

  for (const [d, { pages }] of done.documents.entries()) {
    for (const [p, { width, height }] of pages.entries()) {
      const page = await ask.get<string>(`/api/jobs/${done.id}/documents/${d}/pages/${p}`)
      expect(page.headers.get('content-type')).toBe('image/svg+xml; charset=utf-8')
      expect(page.body).toContain(`viewBox="0 0 ${Number(width.toFixed(6))} ${Number(height.toFixed(6))}"`)
    }
  }
  const first = await fetch(new URL(`/api/jobs/${done.id}/files/0`, serving.address))
  expect([first.headers.get('content-type'), first.headers.get('content-disposition')]).toEqual([
    'application/pdf',
    "attachment; filename*=UTF-8''01-cover.pdf",
  ])
  expect((await ask.get(`/api/jobs/${done.id}/files/999`)).status).toBe(404)
})

test('one that is cancelled ends at once, and the next begins', async () => {
  const [one, two] = [await openExample(ask), await openExample(ask, 'study-square-plate')]
  const first = (await wanted(one.id)).body
  const second = (await wanted(two.id)).body
  expect([first.state, second.state]).toEqual(['working', 'waiting'])
  await until(first.id, ({ step }) => step !== 'Starting')
  const cancelled = await ask.send<Job>('DELETE', `/api/jobs/${first.id}`)
  expect(cancelled.body.state).toBe('cancelled')
  expect((await until(second.id, ended)).state).toBe('done')
  const zip = await ask.get<Refused>(`/api/jobs/${first.id}/package.zip`)
  expect([zip.status, zip.body.issues[0]?.code]).toEqual([409, 'server/job-not-done'])
})

test('a plan that cannot be made says why', async () => {
  const plan = await openExample(ask)
  await ask.send('POST', `/api/plans/${plan.id}/commands`, command(1, 'files.detach', { name: 'demo-thrust.csv' }))
  const { status, body } = await ask.get<Refused>(`/api/plans/${plan.id}/package.zip`)
  expect([status, body.issues.map(({ code }) => code)]).toEqual([422, ['csv/unreadable']])
})
