/** Whatever is sent: an answer in the one shape, never a fault of the server, and the plan stays readable. */

import { recordIssues } from '@finwright/plan/protocol/apply.ts'
import { commands } from '@finwright/plan/protocol/commands.ts'
import type { StandingPlan } from '@finwright/plan/protocol/wire.ts'
import fc from 'fast-check'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { api } from '../src/app.ts'
import type { Serving } from '../src/serve.ts'
import { type Asking, asking, openExample, raw, started, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
let serving: Serving
let ask: Asking
let plan: StandingPlan
beforeAll(async () => {
  serving = await started(folder.path)
  ask = asking(serving)
  plan = await openExample(ask)
})
afterAll(async () => {
  await serving.close()
  folder.remove()
})

interface Sent {
  readonly method: string
  readonly path: string
  readonly headers?: { readonly [name: string]: string }
  readonly body: string | Uint8Array
}

/** The status; whatever is refused must be so with issues of five keys. */
async function answered({ method, path, headers = {}, body }: Sent): Promise<number> {
  const own = {
    host: `127.0.0.1:${serving.port}`,
    origin: `http://127.0.0.1:${serving.port}`,
    'content-type': 'application/json',
  }
  const sent = method === 'GET' || method === 'HEAD' ? {} : { body }
  const reply = await raw({ port: serving.port, method, path, headers: { ...own, ...headers }, ...sent })
  if (reply.status >= 400 && method !== 'HEAD') {
    const { issues } = JSON.parse(reply.body) as { issues: object[] }
    expect(issues.length).toBeGreaterThan(0)
    for (const issue of issues) expect(Object.keys(issue).sort()).toEqual(['code', 'hint', 'message', 'path', 'value'])
  }
  return reply.status
}

const segment = fc.oneof(
  fc.constantFrom('plan', 'none', '..', '%2e%2e', 'shelf', '1', '0', '-1', '1e9', '__proto__', 'constructor', ''),
  fc.string({ maxLength: 12 }).map(encodeURIComponent),
)
const number = fc.constantFrom(
  '',
  '?since=x',
  '?since=-1',
  '?since=99999999',
  '?before=0&limit=0',
  '?paper=a3',
  '?revision=x',
)
/** Streams stay open, and packages would be made: those two are asked elsewhere. */
const addresses = Object.keys(api).filter((address) => !/events|package\.zip|package$/.test(address))
const address = fc.oneof(
  fc.tuple(fc.constantFrom(...addresses), segment, segment, number).map(([one, a, b, search]) => {
    const [method, path] = one.split(' ') as [string, string]
    const filled = path.replace(':id', a === 'plan' ? plan.id : a).replace(/:\w+/g, b)
    return { method, path: `${filled}${search}` }
  }),
  fc.record({
    method: fc.constantFrom('GET', 'POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'HEAD'),
    path: segment.map((one) => `/${one}`),
  }),
)
const jsonBody = fc.jsonValue({ maxDepth: 4 }).map((value) => JSON.stringify(value))
const anyBody = fc.oneof(
  jsonBody,
  fc.string(),
  fc.uint8Array({ maxLength: 200 }).map((bytes) => Buffer.from(bytes)),
  fc.constant('['.repeat(100_000)),
)

test('any request', async () => {
  let tried = 0
  await fc.assert(
    fc.asyncProperty(address, anyBody, async ({ method, path }, body) => {
      tried += 1
      expect(await answered({ method, path, body })).not.toBe(500)
    }),
    { numRuns: 600, seed: 11 },
  )
  expect(tried).toBe(600)
})

const place = fc.array(
  fc.oneof(
    fc.constantFrom('plies', 'fins', 'outline', 'stepBack', 'angle', 'name', '__proto__', 'stock', 'rolls'),
    fc.nat(9),
    fc.string({ maxLength: 5 }),
  ),
  { maxLength: 5 },
)
const odd = fc.oneof(
  fc.constantFrom('3 mm', '45 deg', 'x', '', null, -1, 1e308, [], {}, true),
  fc.jsonValue({ maxDepth: 3 }),
)
const payload = fc.oneof(
  fc.record({ path: place, value: odd }),
  fc.record({ at: fc.oneof(fc.nat(9), odd), entry: odd }),
  fc.record({ from: fc.oneof(fc.nat(9), odd), to: fc.nat(9) }),
  fc.record({ name: fc.string(), file: odd, units: odd, plan: odd, points: odd }, { requiredKeys: [] }),
  fc.jsonValue(),
)

/** Near enough to what a window sends that some are taken. */
const sensible = fc.oneof(
  fc.tuple(
    fc.constant('field.set'),
    fc.record({
      path: fc.nat(8).map((i) => ['plies', i, 'angle']),
      value: fc.constantFrom('0 deg', '45 deg', '1e9 deg'),
    }),
  ),
  fc.tuple(
    fc.constantFrom('plies.remove', 'plies.duplicate', 'rolls.duplicate', 'cans.remove'),
    fc.record({ at: fc.nat(5) }),
  ),
  fc.tuple(fc.constantFrom('plies.move', 'rolls.move'), fc.record({ from: fc.nat(5), to: fc.nat(5) })),
)

test('any command: refused, or the plan stays one whose every field can be read', async () => {
  let [taken, refused] = [0, 0]
  await fc.assert(
    fc.asyncProperty(
      fc.oneof(fc.tuple(fc.constantFrom(...Object.keys(commands), 'none', '__proto__'), payload), sensible),
      fc.nat(3),
      async ([name, given], behind) => {
        const head = serving.services.ledger.find(plan.id, 'plan')!
        const base = Math.max(0, head.revision - behind)
        const body = JSON.stringify({
          id: `garbage-${taken + refused}`,
          client: 'window-one',
          base,
          name,
          payload: given,
        })
        const status = await answered({ method: 'POST', path: `/api/plans/${plan.id}/commands`, body })
        expect([200, 400, 409, 422]).toContain(status)
        if (status === 200) taken += 1
        else refused += 1
        const now = serving.services.ledger.find(plan.id, 'plan')!
        expect(recordIssues(serving.services.ledger.standing(now).record)).toEqual([])
      },
    ),
    { numRuns: 800, seed: 3 },
  )
  expect(taken).toBeGreaterThan(30)
  expect(refused).toBeGreaterThan(300)
})

test('it still answers', async () => {
  expect((await ask.get('/api/plans')).status).toBe(200)
})
