/** All addresses of the server in one application: guarded, answered, and refused in one shape. */
import { Hono } from 'hono'
import { eventRoutes } from './events/handlers.ts'
import { exampleRoutes } from './examples/handlers.ts'
import { fileRoutes } from './files/handlers.ts'
import { guard, guarded, isApi, securityHeaders } from './http/guard.ts'
import { notFound, Refusal, refusedBody } from './http/refusal.ts'
import type { Reply, RouteTable } from './http/route.ts'
import { packageRoutes } from './package/handlers.ts'
import { planRoutes } from './plans/handlers.ts'
import type { Services } from './services.ts'
import { shelfRoutes } from './shelf/handlers.ts'
import { type StaticFiles, staticFileAt } from './web/static-files.ts'

export const api: RouteTable = {
  ...planRoutes,
  ...shelfRoutes,
  ...fileRoutes,
  ...packageRoutes,
  ...exampleRoutes,
  ...eventRoutes,
}

interface AppOptions {
  readonly services: Services
  readonly files: StaticFiles
  readonly port: number
  /** What `GET /api` says besides the addresses. */
  readonly about: { readonly name: string; readonly version: string; readonly instance: string }
}

export function application({ services, files, port, about }: AppOptions): Hono {
  const app = new Hono()
  app.use(async ({ req }, next) => {
    const { method, path } = req
    const headers = Object.fromEntries(guarded.map((name) => [name, req.header(name)]))
    guard({ method, path, headers }, port)
    await next()
  })
  app.get('/api', () => responseOf({ json: { ...about, api: Object.keys(api) } }))
  for (const [address, { answer }] of Object.entries(api)) {
    const [method, path] = address.split(' ') as [string, string]
    app.on(method, path, async ({ req }) => {
      const search = new URL(req.url).searchParams
      return responseOf(await answer({ param: (name) => req.param(name) ?? '', search }, req.raw, services))
    })
  }
  app.all('*', ({ req }) => {
    if (isApi(req.path)) throw noSuchAddress(req.method, req.path)
    const file = req.method === 'GET' || req.method === 'HEAD' ? staticFileAt(files, req.path) : undefined
    if (file === undefined) throw noSuchAddress(req.method, req.path)
    return responseOf(file)
  })
  app.onError((problem) => refusalResponse(problem))
  return app
}

/** A refusal as it is sent; anything else is a fault of ours, told to the terminal. */
export function refusalResponse(problem: unknown): Response {
  if (problem instanceof Refusal) return responseOf({ json: refusedBody(problem), status: problem.status })
  if (problem instanceof URIError) return refusalResponse(badAddress())
  console.error(problem)
  return responseOf({ json: refusedBody(fault()), status: 500 })
}

function responseOf(reply: Reply): Response {
  if ('stream' in reply) {
    return respond(reply.stream, 200, { 'content-type': 'text/event-stream', 'cache-control': 'no-store' })
  }
  if ('json' in reply) {
    const headers = { 'content-type': 'application/json; charset=utf-8', 'cache-control': 'no-store' }
    return respond(JSON.stringify(reply.json), reply.status ?? 200, headers)
  }
  return respond(reply.bytes, reply.status ?? 200, reply.headers)
}

type Body = string | Uint8Array | ReadableStream<Uint8Array>

const respond = (body: Body, status: number, headers: { readonly [name: string]: string }): Response =>
  new Response(body as string | ReadableStream, { status, headers: { ...securityHeaders, ...headers } })

const noSuchAddress = (method: string, path: string): Refusal =>
  notFound('address', `${method} ${path}`, 'GET /api lists those that there are.')

const badAddress = (): Refusal =>
  new Refusal(400, [
    {
      code: 'server/bad-address',
      path: '',
      value: null,
      message: 'The address of the request cannot be read: its % signs do not stand for UTF-8.',
      hint: 'Encode names in addresses.',
    },
  ])

const fault = (): Refusal =>
  new Refusal(500, [
    {
      code: 'server/fault',
      path: '',
      value: null,
      message: 'The server failed at this request, which is a fault of ours; nothing was changed.',
      hint: 'The terminal that Finwright runs in shows more.',
    },
  ])
