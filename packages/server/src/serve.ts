/** The server started: database opened, examples and app read, listening on the loopback address and no other. */
import { randomUUID } from 'node:crypto'
import { mkdirSync } from 'node:fs'
import { createServer, type Server } from 'node:http'
import type { AddressInfo, Socket } from 'node:net'
import { join } from 'node:path'
import { getRequestListener } from '@hono/node-server'
import { api, application, refusalResponse } from './app.ts'
import { eventStreams } from './events/events.ts'
import { examplesIn } from './examples/examples.ts'
import { Refusal, refusedBody } from './http/refusal.ts'
import { packageJobs } from './package/jobs.ts'
import { createPlan } from './plans/create.ts'
import type { Services } from './services.ts'
import { contentsIn } from './store/contents.ts'
import { openDatabase } from './store/database.ts'
import { hold } from './store/hold.ts'
import { ledgerIn } from './store/ledger.ts'
import { settingsIn } from './store/settings.ts'
import { plainPage } from './web/plain-page.ts'
import { hasApp, staticFilesIn } from './web/static-files.ts'

export const version = '0.1.0'
const loopback = '127.0.0.1'

export interface ServeOptions {
  /** Folder of the database; made if it is not there. */
  readonly data: string
  /** 0 takes any that is free. */
  readonly port: number
  /** Folder of the example plans. */
  readonly examples: string
  /** Folder of the built app. */
  readonly web?: string | undefined
  /** The bundled thread that makes packages. */
  readonly thread: URL
  /** With no plan there yet, a copy of the demo is made and opened. */
  readonly demo?: boolean | undefined
  readonly now?: () => Date
}

export interface Serving {
  readonly address: string
  readonly port: number
  readonly services: Services
  readonly close: () => Promise<void>
}

/** Throws `FolderInUse`, `DatabaseTooNew`, or the system's error when the port is taken or the folder cannot be written. */
export async function serve(options: ServeOptions): Promise<Serving> {
  mkdirSync(options.data, { recursive: true, mode: 0o700 })
  let answer: Answer = () => refusalResponse(starting())
  const server = createServer(
    getRequestListener((request) => answer(request), {
      errorHandler: (problem) => refusalResponse(asRefusal(problem)),
      overrideGlobalObjects: false,
    }),
  )
  server.on('clientError', (problem, socket) => unreadableRequest(problem, socket as Socket))
  const port = await listening(server, options.port)
  const address = `http://${loopback}:${port}/`
  const instance = randomUUID()
  let release: () => void = () => undefined
  try {
    release = await hold(options.data, { address, token: instance })
    const services = servicesOf(options)
    const files =
      options.web !== undefined && hasApp(options.web) ? staticFilesIn(options.web) : plainPage(Object.keys(api))
    const app = application({ services, files, port, about: { name: 'finwright', version, instance } })
    if (options.demo === true && services.ledger.heads('plan').length === 0) {
      services.settings.setOpen(createPlan({ kind: 'example', name: 'demo' }, services))
    }
    answer = (request) => app.fetch(request)
    return { address, port, services, close: () => closed(server, services, release) }
  } catch (problem) {
    server.close()
    server.closeAllConnections()
    release()
    throw problem
  }
}

type Answer = (request: Request) => Response | Promise<Response>

function servicesOf({ data, examples, thread, now = () => new Date() }: ServeOptions): Services {
  const database = openDatabase(join(data, 'finwright.db'))
  const contents = contentsIn(database, now)
  contents.sweep()
  const events = eventStreams()
  const newId = () => randomUUID()
  const jobs = packageJobs({
    thread,
    newId,
    onChange: ({ id: job, plan, state, step }) => events.tell({ kind: 'job', job, plan, state, step }),
  })
  const ledger = ledgerIn({ database, contents, now })
  return {
    database,
    ledger,
    contents,
    settings: settingsIn(database),
    examples: examplesIn(examples),
    events,
    jobs,
    newId,
  }
}

const listening = (server: Server, port: number): Promise<number> =>
  new Promise((resolve, reject) => {
    server.once('error', reject)
    server.listen(port, loopback, () => resolve((server.address() as AddressInfo).port))
  })

async function closed(server: Server, { events, jobs, database }: Services, release: () => void): Promise<void> {
  events.close()
  jobs.close()
  const done = new Promise<void>((resolve) => server.close(() => resolve()))
  server.closeAllConnections()
  await done
  database.close()
  release()
}

/** What cannot even be made a request of: a Host header or address that no browser sends. */
const asRefusal = (problem: unknown): unknown =>
  problem instanceof Error && problem.name === 'RequestError' ? badRequest(400, problem.message) : problem

/** What is no HTTP at all. */
function unreadableRequest({ code, message }: NodeJS.ErrnoException, socket: Socket): void {
  if (!socket.writable || code === 'ECONNRESET') {
    socket.destroy()
    return
  }
  const body = JSON.stringify(refusedBody(badRequest(400, message)))
  const head = [
    'HTTP/1.1 400 Bad Request',
    'Content-Type: application/json; charset=utf-8',
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Connection: close',
  ]
  socket.end(`${head.join('\r\n')}\r\n\r\n${body}`)
}

const badRequest = (status: number, why: string): Refusal =>
  new Refusal(status, [
    {
      code: 'server/bad-request',
      path: '',
      value: why,
      message: `The request cannot be read: ${why}.`,
      hint: 'Open Finwright by the address that it prints when it starts.',
    },
  ])

const starting = (): Refusal =>
  new Refusal(503, [
    {
      code: 'server/starting',
      path: '',
      value: null,
      message: 'The server has not read its data yet.',
      hint: 'Try again in a moment.',
    },
  ])
