/** What goes over the wire between the app and its server: requests as zod reads them, replies as they are sent. */
import type { Issue } from '@finwright/core/issue.ts'
import { z } from 'zod'
import type { News } from './draft.ts'
import type { Conflict } from './rebase.ts'
import { jsonShape, type PlanRecord } from './record.ts'

/** Of a command, a window, a gesture: made by whoever sends it. */
export const ownName = z.string().regex(/^[\w-]{8,64}$/, '8 to 64 letters, digits, - or _')

const base = z.int().min(0)

export const commandRequest = z.strictObject({
  /** Of the command: sent twice, it counts once. */
  id: ownName,
  /** Of the window. */
  client: ownName,
  base,
  name: z.string().max(60),
  payload: jsonShape,
  gesture: ownName.optional(),
})

export const stepRequest = z.strictObject({ id: ownName, client: ownName, base })

const importedFile = z.strictObject({ name: z.string().max(200), base64: z.base64() })

export const createRequest = z.strictObject({
  from: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('example'), name: z.string().max(80) }),
    z.strictObject({ kind: z.literal('copy'), id: z.string().max(64) }),
    z.strictObject({ kind: z.literal('file'), text: z.string(), files: z.array(importedFile).max(50).optional() }),
  ]),
})

export const openRequest = z.strictObject({ id: z.string().max(64).nullable() })

export const packageRequest = z.strictObject({ paper: z.enum(['a4', 'letter', 'both']).optional() })

export type CommandRequest = z.infer<typeof commandRequest>
export type StepRequest = z.infer<typeof stepRequest>
export type CreateRequest = z.infer<typeof createRequest>
export type OpenRequest = z.infer<typeof openRequest>
export type PackageRequest = z.infer<typeof packageRequest>

/** Every refusal, whatever the status. `conflict` stands beside a 409 of two windows that met. */
export interface Refused {
  readonly issues: readonly Issue[]
  readonly conflict?: Conflict
}

export interface PlanSummary {
  readonly id: string
  readonly name: string
  readonly kind: 'can' | 'study'
  readonly revision: number
  /** ISO time. */
  readonly created: string
  readonly changed: string
}

export interface PlanList {
  readonly open: string | null
  readonly plans: readonly PlanSummary[]
  /** Taken away, and can be brought back. */
  readonly removed: readonly PlanSummary[]
}

export interface Standing {
  readonly revision: number
  readonly record: PlanRecord
  /** What undo and redo would do now; null when there is nothing. */
  readonly undo: string | null
  readonly redo: string | null
  readonly changed: string
}

export interface StandingPlan extends Standing {
  readonly id: string
}

/** Reply to a command, to undo and redo, and to the question what has changed since a revision. */
export interface NewsReply extends News {
  readonly undo: string | null
  readonly redo: string | null
  readonly changed: string
}

export interface HistoryEntry {
  readonly revision: number
  readonly at: string
  readonly kind: 'made' | 'command' | 'undo' | 'redo'
  readonly label: string
  readonly client: string
  /** Whether the record of this revision is kept; within a gesture only the last is. */
  readonly kept: boolean
}

export interface History {
  readonly entries: readonly HistoryEntry[]
  /** Ask with `before=` this for older ones; null at the beginning. */
  readonly older: number | null
}

export interface Example {
  readonly name: string
  readonly title: string
  readonly note: string
}

/** State of a package being made. */
export interface Job {
  readonly id: string
  readonly plan: string
  readonly revision: number
  readonly paper: 'a4' | 'letter' | 'both'
  readonly state: 'waiting' | 'working' | 'done' | 'cancelled' | 'failed'
  /** What is being made now, in words. */
  readonly step: string
  /** Documents made so far, and in all; in all is null until it is known. */
  readonly made: number
  readonly of: number | null
  readonly issues: readonly Issue[]
  readonly files: readonly { readonly path: string; readonly size: number }[]
  readonly documents: readonly PreviewDocument[]
}

/** Pages of one document as they will print, asked for one by one as SVG. */
export interface PreviewDocument {
  readonly path: string
  readonly what: string
  /** mm. */
  readonly pages: readonly { readonly title: string; readonly width: number; readonly height: number }[]
}

/** Events of the stream. They are hints: what is true is asked for. */
export type ServerEvent =
  | { readonly kind: 'hello'; readonly open: string | null }
  | { readonly kind: 'revision'; readonly plan: string; readonly revision: number; readonly client: string }
  | { readonly kind: 'shelf'; readonly revision: number; readonly client: string }
  | { readonly kind: 'plans' }
  | { readonly kind: 'open'; readonly open: string | null }
  | {
      readonly kind: 'job'
      readonly job: string
      readonly plan: string
      readonly state: Job['state']
      readonly step: string
    }
