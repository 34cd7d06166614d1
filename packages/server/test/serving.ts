/** A real server on a real file in a folder of its own, and a browser's way of asking it. */
import { mkdtempSync, rmSync } from 'node:fs'
import { request } from 'node:http'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Refused, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import { type ServeOptions, type Serving, serve } from '../src/serve.ts'

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..')
export const examples = join(root, 'examples')

export function temporaryFolder(): { readonly path: string; readonly remove: () => void } {
  const path = mkdtempSync(join(tmpdir(), 'finwright-server-'))
  return { path, remove: () => rmSync(path, { recursive: true, force: true }) }
}

/** No package is made with this; tests that make one give the bundled thread. */
const noThread = new URL('file:///no-thread.js')

export const started = (data: string, options: Partial<ServeOptions> = {}): Promise<Serving> =>
  serve({ data, port: 0, examples, thread: noThread, ...options })

export interface Answer<T> {
  readonly status: number
  readonly headers: Headers
  readonly body: T
}

export interface Asking {
  readonly get: <T>(path: string) => Promise<Answer<T>>
  readonly send: <T = Refused>(method: string, path: string, body?: unknown) => Promise<Answer<T>>
  readonly bytes: (path: string, body: Uint8Array) => Promise<Answer<{ sha256: string; size: number } & Refused>>
}

export function asking({ address }: { readonly address: string }): Asking {
  const at = (path: string) => new URL(path, address)
  const origin = new URL(address).origin
  const answer = async <T>(response: Response): Promise<Answer<T>> => {
    const json = response.headers.get('content-type')?.startsWith('application/json') === true
    return {
      status: response.status,
      headers: response.headers,
      body: (json ? await response.json() : await response.text()) as T,
    }
  }
  return {
    get: async (path) => answer(await fetch(at(path))),
    send: async (method, path, body) => {
      const headers = { origin, ...(body === undefined ? {} : { 'content-type': 'application/json' }) }
      return answer(
        await fetch(at(path), { method, headers, ...(body === undefined ? {} : { body: JSON.stringify(body) }) }),
      )
    },
    bytes: async (path, body) =>
      answer(await fetch(at(path), { method: 'POST', headers: { origin }, body: Buffer.from(body) })),
  }
}

/** A copy of an example, made and opened. */
export async function openExample(ask: Asking, name = 'demo'): Promise<StandingPlan> {
  const made = await ask.send<StandingPlan>('POST', '/api/plans', { from: { kind: 'example', name } })
  if (made.status !== 201) throw new Error(JSON.stringify(made.body))
  return made.body
}

export interface RawRequest {
  readonly port: number
  readonly method: string
  readonly path: string
  readonly headers: { readonly [name: string]: string }
  readonly body?: Uint8Array | string
}

/** A request with headers that `fetch` would not send; resolves to status and body. */
export function raw({
  port,
  method,
  path,
  headers,
  body,
}: RawRequest): Promise<{ status: number; body: string; headers: NodeJS.Dict<string | string[]> }> {
  return new Promise((resolve, reject) => {
    const length =
      body === undefined || 'transfer-encoding' in headers ? {} : { 'content-length': String(Buffer.byteLength(body)) }
    const sent = request(
      { host: '127.0.0.1', port, method, path, headers: { ...headers, ...length }, setHost: false },
      (reply) => {
        const chunks: Buffer[] = []
        reply.on('data', (chunk: Buffer) => chunks.push(chunk))
        reply.on('end', () =>
          resolve({ status: reply.statusCode ?? 0, body: Buffer.concat(chunks).toString(), headers: reply.headers }),
        )
      },
    )
    sent.on('error', reject)
    sent.end(body)
  })
}

let commands = 0
/** A request of a window, with an id of its own. */
export const command = (
  base: number,
  name: string,
  payload: unknown,
  more: { client?: string; id?: string; gesture?: string } = {},
) => {
  commands += 1
  return { id: `command-${commands}`, client: 'window-one', base, name, payload, ...more }
}

export const step = (base: number, more: { client?: string; id?: string } = {}) => {
  commands += 1
  return { id: `step-of-${commands}`, client: 'window-one', base, ...more }
}

export const setField = (path: readonly (string | number)[], value: unknown) => ['field.set', { path, value }] as const
