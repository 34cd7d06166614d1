/** Who may ask, and what never happens: other sites, other names, other methods, paths that climb. */
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs'
import { connect } from 'node:net'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { api } from '../src/app.ts'
import { guard, ownHosts } from '../src/http/guard.ts'
import { Refusal } from '../src/http/refusal.ts'
import type { Serving } from '../src/serve.ts'
import { asking, raw, started, temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
const web = temporaryFolder()
let serving: Serving
let own: { host: string; origin: string }
beforeAll(async () => {
  mkdirSync(join(web.path, 'assets'))
  writeFileSync(join(web.path, 'index.html'), '<!doctype html><title>app</title>')
  writeFileSync(join(web.path, 'assets', 'app-Ab12Cd34.js'), 'export {}')
  writeFileSync(join(web.path, 'secret.key'), 'no known type')
  writeFileSync(join(folder.path, 'outside.txt'), 'outside')
  symlinkSync(join(folder.path, 'outside.txt'), join(web.path, 'link.txt'))
  serving = await started(join(folder.path, 'data'), { web: web.path })
  own = { host: `127.0.0.1:${serving.port}`, origin: `http://127.0.0.1:${serving.port}` }
})
afterAll(async () => {
  await serving.close()
  folder.remove()
  web.remove()
})

const body = JSON.stringify({ from: { kind: 'example', name: 'demo' } })
const sent = (headers: { [name: string]: string }, method = 'POST', path = '/api/plans') =>
  raw({ port: serving.port, method, path, headers: { 'content-type': 'application/json', ...headers }, body })
const codeOf = (reply: { body: string }) => JSON.parse(reply.body).issues[0].code
const count = () => serving.services.ledger.heads('plan').length

describe('who may ask', () => {
  test('this page may', async () => {
    expect((await sent(own)).status).toBe(201)
    expect((await sent({ host: `localhost:${serving.port}`, origin: `http://localhost:${serving.port}` })).status).toBe(
      201,
    )
    expect((await sent({ ...own, 'sec-fetch-site': 'same-origin' })).status).toBe(201)
  })

  const others: readonly (readonly [
    string,
    (own: { host: string; origin: string }) => { [name: string]: string },
    number,
    string,
  ])[] = [
    ['another site', ({ host }) => ({ host, origin: 'https://example.com' }), 403, 'server/origin'],
    ['another port of this machine', ({ host }) => ({ host, origin: 'http://127.0.0.1:1' }), 403, 'server/origin'],
    [
      'the other name of this machine',
      ({ host, origin }) => ({ host, origin: origin.replace('127.0.0.1', 'localhost') }),
      403,
      'server/origin',
    ],
    ['a page without a name', ({ host }) => ({ host, origin: 'null' }), 403, 'server/origin'],
    ['nobody in particular', ({ host }) => ({ host }), 403, 'server/origin'],
    [
      'a name that leads here',
      () => ({ host: 'attacker.example', origin: 'http://attacker.example' }),
      421,
      'server/host',
    ],
    [
      'a name that leads here, with the port',
      ({ host }) => ({ host: host.replace('127.0.0.1', 'attacker.example'), origin: 'http://attacker.example' }),
      421,
      'server/host',
    ],
    [
      'a page that the browser says is another site',
      (mine) => ({ ...mine, 'sec-fetch-site': 'cross-site' }),
      403,
      'server/other-site',
    ],
  ]

  test.each(others)('%s may not change anything', async (_, headers, status, code) => {
    const before = count()
    for (const address of Object.keys(api)) {
      const [method, path] = address.split(' ') as [string, string]
      if (method === 'GET') continue
      const reply = await sent(headers(own), method, path)
      expect([address, reply.status, codeOf(reply)]).toEqual([address, status, code])
    }
    expect(count()).toBe(before)
  })

  test('another name or site may not read either', async () => {
    const read = (headers: { [name: string]: string }) =>
      raw({ port: serving.port, method: 'GET', path: '/api/plans', headers })
    expect((await read({ host: 'attacker.example' })).status).toBe(421)
    expect((await read({})).status).toBeGreaterThanOrEqual(400)
    expect((await read({ host: own.host, 'sec-fetch-site': 'cross-site' })).status).toBe(403)
    expect(
      (await read({ host: own.host, origin: 'https://example.com' })).headers['access-control-allow-origin'],
    ).toBeUndefined()
  })

  test('a link on another site opens the app, and nothing else', async () => {
    const linked = (path: string, mode = 'navigate') =>
      raw({
        port: serving.port,
        method: 'GET',
        path,
        headers: { host: own.host, 'sec-fetch-site': 'cross-site', 'sec-fetch-mode': mode },
      })
    expect((await linked('/')).status).toBe(200)
    expect((await linked('/', 'no-cors')).status).toBe(403)
    expect((await linked('/api/plans')).status).toBe(403)
  })

  test('a form of another kind than JSON is refused', async () => {
    const reply = await sent({ ...own, 'content-type': 'text/plain' })
    expect([reply.status, codeOf(reply)]).toEqual([415, 'server/not-json'])
  })

  test('a preflight gets nothing', async () => {
    const reply = await sent(
      { host: own.host, origin: 'https://example.com', 'access-control-request-method': 'POST' },
      'OPTIONS',
    )
    expect(reply.status).toBe(403)
    expect(Object.keys(reply.headers).filter((name) => name.startsWith('access-control'))).toEqual([])
  })

  test('the guard has teeth', () => {
    const headers = { host: '127.0.0.1:80', origin: 'http://127.0.0.1:80' }
    expect(() => guard({ method: 'POST', path: '/', headers }, 80)).not.toThrow()
    expect(() => guard({ method: 'POST', path: '/', headers }, 81)).toThrow(Refusal)
    expect(ownHosts(80)).toContain('localhost')
  })
})

describe('where it listens', () => {
  test('on the loopback address alone', async () => {
    const { networkInterfaces } = await import('node:os')
    const outer = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter(({ internal, family }) => !internal && family === 'IPv4')
    for (const { address } of outer) {
      const refused = await new Promise((resolve) => {
        const socket = connect(serving.port, address, () => resolve(false))
        socket.on('error', () => resolve(true))
      })
      expect(refused).toBe(true)
    }
    expect(serving.address).toBe(`http://127.0.0.1:${serving.port}/`)
  })
})

describe('what is served', () => {
  const get = (path: string) => raw({ port: serving.port, method: 'GET', path, headers: { host: own.host } })

  test('files from the fixed map, pages of the app, nothing else', async () => {
    expect((await get('/')).body).toContain('<title>app</title>')
    expect((await get('/plies/3')).body).toContain('<title>app</title>')
    const asset = await get('/assets/app-Ab12Cd34.js')
    expect([asset.status, asset.headers['cache-control']]).toEqual([200, 'public, max-age=31536000, immutable'])
    for (const path of ['/secret.key', '/link.txt', '/assets/none.js', '/index.html.bak'])
      expect((await get(path)).status).toBe(404)
  })

  const climbing = [
    '/../package.json',
    '/..%2f..%2fpackage.json',
    '/assets/../../data/finwright.db',
    '/%2e%2e/%2e%2e/etc/passwd',
    '//etc/passwd',
    '/assets/%00.js',
    '/assets\\..\\x.js',
    '/api/plans/..%2f..%2fx',
    '/api/plans/%E0%A4%A',
    '/%',
  ]

  test.each(climbing)('%s leads to nothing outside', async (path) => {
    const reply = await get(path)
    expect(reply.status === 404 || reply.status === 400 || reply.body.includes('<title>app</title>')).toBe(true)
    expect(reply.body).not.toMatch(/root:|SQLite|finwright-workspace/)
  })

  test('every reply carries the policy', async () => {
    for (const path of ['/', '/api', '/api/none', '/assets/app-Ab12Cd34.js']) {
      const { headers } = await get(path)
      expect(headers['content-security-policy']).toContain("default-src 'none'; script-src 'self'")
      expect(headers['content-security-policy']).toContain("frame-ancestors 'none'")
      expect([headers['x-content-type-options'], headers['cross-origin-resource-policy']]).toEqual([
        'nosniff',
        'same-origin',
      ])
    }
  })

  test('without an app, a plain page that says so', async () => {
    const plain = await started(join(folder.path, 'plain'))
    const { body: page } = await asking(plain).get<string>('/')
    expect(page).toContain('The app is not part of this checkout')
    expect(page).toContain('POST /api/plans/:id/commands')
    await plain.close()
  })
})
