/** Plans the server keeps beside the open one: listed, opened, made, taken away and brought back; and what was done to one. */
import type { Example, History, PlanList, PlanSummary, StandingPlan } from '@finwright/plan/protocol/wire.ts'
import type { Reply } from './client.ts'
import { ask } from './http.ts'

export type { Example, HistoryEntry, PlanList, PlanSummary } from '@finwright/plan/protocol/wire.ts'

/** A file chosen on this machine: a plan, and what it names. */
export interface PlanFile {
  readonly text: string
  readonly files: readonly { readonly name: string; readonly base64: string }[]
}

export const listPlans = (): Promise<Reply<PlanList>> => ask('GET', '/api/plans')

export const listExamples = (): Promise<Reply<{ readonly examples: readonly Example[] }>> => ask('GET', '/api/examples')

export const openPlan = (id: string): Promise<Reply<{ readonly open: string }>> => ask('PUT', '/api/open', { id })

/** Made plans are the open one. */
export const planFromExample = (name: string): Promise<Reply<StandingPlan>> =>
  ask('POST', '/api/plans', { from: { kind: 'example', name } })

export const copyOfPlan = (id: string): Promise<Reply<StandingPlan>> =>
  ask('POST', '/api/plans', { from: { kind: 'copy', id } })

export const planFromFile = ({ text, files }: PlanFile): Promise<Reply<StandingPlan>> =>
  ask('POST', '/api/plans', { from: { kind: 'file', text, files } })

export const takeAway = ({ id }: PlanSummary): Promise<Reply<PlanList>> => ask('DELETE', `/api/plans/${id}`)

export const bringBack = ({ id }: PlanSummary): Promise<Reply<PlanList>> => ask('POST', `/api/plans/${id}/bring-back`)

export const historyOf = (id: string, before?: number): Promise<Reply<History>> =>
  ask('GET', `/api/plans/${id}/history?limit=20${before === undefined ? '' : `&before=${before}`}`)

export const revisionOf = (id: string, revision: number): Promise<Reply<Pick<StandingPlan, 'record'>>> =>
  ask('GET', `/api/plans/${id}/revisions/${revision}`)

export const planFileAddress = (id: string): string => `/api/plans/${id}/plan.fincan.json`
export const planZipAddress = (id: string): string => `/api/plans/${id}/plan.zip`
