/** The client of the local server: the addresses of docs/server.md, and nothing else in the app asks the network. */
import type { Issue } from '@finwright/core/issue.ts'
import type { FileReference } from '@finwright/plan/protocol/record.ts'
import type { NewsReply, PlanList, Refused, ServerEvent, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import type { PlanServer, Reply } from './client.ts'

/** No answer within this counts as nobody there, ms. */
const patience = 15_000

export function httpServer(): PlanServer {
  return {
    standing: async () => {
      const list = await ask<PlanList>('GET', '/api/plans')
      if (list.kind !== 'answer') return list
      const id = list.value.open ?? list.value.plans[0]?.id
      if (id !== undefined) return ask<StandingPlan>('GET', `/api/plans/${id}`)
      return ask<StandingPlan>('POST', '/api/plans', { from: { kind: 'example', name: 'demo' } })
    },
    send: (plan, command) => ask<NewsReply>('POST', `/api/plans/${plan}/commands`, command),
    undo: (plan, step) => ask<NewsReply>('POST', `/api/plans/${plan}/undo`, step),
    redo: (plan, step) => ask<NewsReply>('POST', `/api/plans/${plan}/redo`, step),
    news: (plan, since) => ask<NewsReply>('GET', `/api/plans/${plan}/changes?since=${since}`),
    fileText: async (_, { sha256 }) => {
      const reply = await reach('GET', `/api/files/${sha256}`)
      return reply === null ? gone : reply.ok ? { kind: 'answer', value: await reply.text() } : refusal(reply)
    },
    keepFile: async (text) => {
      const reply = await reach('POST', '/api/files', new Blob([text], { type: 'application/octet-stream' }))
      return reply === null
        ? gone
        : reply.ok
          ? { kind: 'answer', value: (await reply.json()) as FileReference }
          : refusal(reply)
    },
    listen,
  }
}

const gone = { kind: 'gone' } as const

export async function ask<T>(method: string, address: string, body?: unknown): Promise<Reply<T>> {
  const reply = await reach(method, address, body)
  if (reply === null) return gone
  return reply.ok ? { kind: 'answer', value: (await reply.json()) as T } : refusal(reply)
}

async function reach(method: string, address: string, body?: unknown): Promise<Response | null> {
  const sent =
    body === undefined
      ? {}
      : body instanceof Blob
        ? { body }
        : { body: JSON.stringify(body), headers: { 'content-type': 'application/json' } }
  try {
    return await fetch(address, { method, ...sent, signal: AbortSignal.timeout(patience) })
  } catch {
    return null
  }
}

/** A fault of the server's own is no refusal: what was asked is kept and asked again. */
async function refusal(reply: Response): Promise<Reply<never>> {
  if (reply.status >= 500) return gone
  const body = (await reply.json().catch(() => null)) as Refused | null
  return { kind: 'refused', issues: body?.issues ?? [unreadable(reply.status)] }
}

const unreadable = (status: number): Issue => ({
  code: 'server/unreadable',
  path: '',
  value: status,
  message: `The server answered ${status} and did not say why.`,
  hint: 'Reload the page; if it stays, start the server again.',
})

function listen(told: Parameters<PlanServer['listen']>[0]): () => void {
  const stream = new EventSource('/api/events')
  const kinds: readonly ServerEvent['kind'][] = ['hello', 'revision', 'shelf', 'plans', 'open', 'job']
  for (const kind of kinds)
    stream.addEventListener(kind, (event) => {
      // the stream's own `open`, when the connection stands, has the name of the server's and no data
      const { data } = event as MessageEvent<string | undefined>
      told(data === undefined ? { kind: 'back' } : (JSON.parse(data) as ServerEvent))
    })
  stream.addEventListener('error', () => told({ kind: 'gone' }))
  return () => stream.close()
}
