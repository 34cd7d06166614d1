/** The plans' API. */
import type { PlanList, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import { createRequest, openRequest } from '@finwright/plan/protocol/wire.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import { strToU8, zipSync } from 'fflate'
import { attachmentNamed } from '../files/handlers.ts'
import { notFound } from '../http/refusal.ts'
import { act, change, json, type Question, query, type Reply, type RouteTable } from '../http/route.ts'
import type { Services } from '../services.ts'
import { type Head, summaryOf } from '../store/ledger.ts'
import { createPlan } from './create.ts'
import { planHead } from './plan-head.ts'
import { recordRoutes } from './record-routes.ts'

export const planRoutes: RouteTable = {
  'GET /api/plans': query((_, services) => json(listPlans(services))),
  'POST /api/plans': change(createRequest, ({ from }, _, services) => made(createPlan(from, services), services)),
  'PUT /api/open': change(openRequest, ({ id }, _, services) => openPlan(id, services)),
  'DELETE /api/plans/:id': act(removePlan),
  'POST /api/plans/:id/bring-back': act(bringBack),
  'GET /api/plans/:id/plan.fincan.json': query(planFile),
  'GET /api/plans/:id/plan.zip': query(planWithFiles),
  ...recordRoutes('/api/plans/:id', planHead),
}

export function listPlans({ ledger, settings }: Services): PlanList {
  const summary = (head: Head) => summaryOf(head, ledger.standing(head).record)
  const heads = ledger.heads('plan')
  return {
    open: settings.open(),
    plans: heads.filter(({ removed }) => removed === null).map(summary),
    removed: heads.filter(({ removed }) => removed !== null).map(summary),
  }
}

/** A new plan is the open one. */
function made(id: string, services: Services): Reply {
  const { ledger, settings, events } = services
  settings.setOpen(id)
  events.tell({ kind: 'plans' })
  events.tell({ kind: 'open', open: id })
  const head = ledger.find(id, 'plan')!
  const plan: StandingPlan = { id, ...ledger.standing(head) }
  return json(plan, 201)
}

function openPlan(id: string | null, { ledger, settings, events }: Services): Reply {
  const head = id === null ? null : ledger.find(id, 'plan')
  if (head === undefined || (head !== null && head.removed !== null)) {
    throw notFound('plan', id ?? '', 'GET /api/plans lists those that are there.')
  }
  settings.setOpen(id)
  events.tell({ kind: 'open', open: id })
  return json({ open: id })
}

function removePlan(question: Question, services: Services): Reply {
  const { id } = planHead(question, services)
  const { ledger, settings, events, jobs } = services
  ledger.setRemoved(id, true)
  jobs.cancelOf(id)
  if (settings.open() === id) {
    settings.setOpen(null)
    events.tell({ kind: 'open', open: null })
  }
  events.tell({ kind: 'plans' })
  return json(listPlans(services))
}

function bringBack(question: Question, services: Services): Reply {
  services.ledger.setRemoved(planHead(question, services, true).id, false)
  services.events.tell({ kind: 'plans' })
  return json(listPlans(services))
}

function planFile(question: Question, services: Services): Reply {
  const head = planHead(question, services)
  const { plan } = services.ledger.standing(head).record
  return {
    bytes: planText(plan),
    headers: {
      'content-type': 'application/json; charset=utf-8',
      'content-disposition': attachmentNamed(`${fileStem(head.name)}.fincan.json`),
    },
  }
}

/** The plan file with the files beside it, as a folder would hold them. */
function planWithFiles(question: Question, services: Services): Reply {
  const head = planHead(question, services)
  const { plan, files } = services.ledger.standing(head).record
  const stem = fileStem(head.name)
  const entries: { [name: string]: Uint8Array } = { [`${stem}.fincan.json`]: strToU8(planText(plan)) }
  for (const [name, { sha256 }] of Object.entries(files)) {
    const bytes = services.contents.read(sha256)
    if (bytes !== undefined) entries[name] = bytes
  }
  return { bytes: zipSync(entries, { mtime: new Date(head.changed) }), headers: zipHeaders(stem) }
}

export const zipHeaders = (stem: string) => ({
  'content-type': 'application/zip',
  'content-disposition': attachmentNamed(`${stem}.zip`),
})

/** A name that every file system takes. */
export const fileStem = (name: string): string =>
  name
    .normalize('NFKD')
    .replace(/[^A-Za-z0-9]+/g, '-')
    .replace(/^-+|-+$/g, '')
    .toLowerCase()
    .slice(0, 60) || 'plan'
