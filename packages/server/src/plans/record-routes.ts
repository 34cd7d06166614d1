/** What a plan and the shelf have in common: standing, commands, undo and redo, what changed, history. */
import { commandRequest, stepRequest } from '@finwright/plan/protocol/wire.ts'
import { notFound, Refusal } from '../http/refusal.ts'
import { change, json, type Question, query, type Reply, type RouteTable, wholeNumber } from '../http/route.ts'
import type { Services } from '../services.ts'
import type { Head, Taken } from '../store/ledger.ts'

type FindHead = (question: Question, services: Services) => Head

export function recordRoutes(address: string, find: FindHead): RouteTable {
  return {
    [`GET ${address}`]: query((question, services) => {
      const head = find(question, services)
      return json({ id: head.id, ...services.ledger.standing(head) })
    }),
    [`POST ${address}/commands`]: change(commandRequest, (request, question, services) => {
      const head = find(question, services)
      return replied(services.ledger.take(head, request), head, request.client, services)
    }),
    [`POST ${address}/undo`]: change(stepRequest, (request, question, services) => {
      const head = find(question, services)
      return replied(services.ledger.undo(head, request), head, request.client, services)
    }),
    [`POST ${address}/redo`]: change(stepRequest, (request, question, services) => {
      const head = find(question, services)
      return replied(services.ledger.redo(head, request), head, request.client, services)
    }),
    [`GET ${address}/changes`]: query((question, services) => {
      const since = wholeNumber(question.search.get('since'), 0)
      if (since === null) throw noNumber('since', question)
      return replied(services.ledger.news(find(question, services), since))
    }),
    [`GET ${address}/history`]: query((question, services) => {
      const before = wholeNumber(question.search.get('before'), 1_000_000_000)
      const limit = wholeNumber(question.search.get('limit'), 100)
      if (before === null || limit === null) throw noNumber(before === null ? 'before' : 'limit', question)
      return json(services.ledger.history(find(question, services), before, Math.min(limit, 1000)))
    }),
    [`GET ${address}/revisions/:revision`]: query((question, services) => {
      const text = question.param('revision')
      const revision = wholeNumber(text, 0)
      const record = revision === null ? undefined : services.ledger.at(find(question, services), revision)
      if (record === undefined) throw notFound('kept revision', text, 'The history tells which revisions are kept.')
      return json({ revision, record })
    }),
  }
}

function replied(taken: Taken, head?: Head, client = '', services?: Services): Reply {
  if (!taken.ok) throw new Refusal(taken.status, taken.issues, taken.conflict)
  if (taken.fresh && head !== undefined) {
    const { revision } = taken.news
    const own = { revision, client }
    services?.events.tell(
      head.kind === 'shelf' ? { kind: 'shelf', ...own } : { kind: 'revision', plan: head.id, ...own },
    )
  }
  return json(taken.news)
}

const noNumber = (name: string, { search }: Question): Refusal =>
  new Refusal(400, [
    {
      code: 'server/no-number',
      path: name,
      value: (search.get(name) ?? '').slice(0, 40),
      message: `'${name}' in the address is '${(search.get(name) ?? '').slice(0, 40)}'; it must be a whole number.`,
      hint: `Write ${name}=0, for example.`,
    },
  ])
