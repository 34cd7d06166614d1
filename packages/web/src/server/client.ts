/** What the app asks of the server that keeps its plans. Everything goes through here; replies are those of `plan/protocol`. */
import type { Issue } from '@finwright/core/issue.ts'
import type { FileReference } from '@finwright/plan/protocol/record.ts'
import type {
  CommandRequest,
  NewsReply,
  ServerEvent,
  StandingPlan,
  StepRequest,
} from '@finwright/plan/protocol/wire.ts'

/** How a request ended: answered, refused for a reason that will not change by asking again, or nobody there. */
export type Reply<T> =
  | { readonly kind: 'answer'; readonly value: T }
  | { readonly kind: 'refused'; readonly issues: readonly Issue[] }
  | { readonly kind: 'gone' }

export interface PlanServer {
  /** The plan that is open; a server without plans opens the demo. */
  readonly standing: () => Promise<Reply<StandingPlan>>
  readonly send: (plan: string, command: CommandRequest) => Promise<Reply<NewsReply>>
  readonly undo: (plan: string, step: StepRequest) => Promise<Reply<NewsReply>>
  readonly redo: (plan: string, step: StepRequest) => Promise<Reply<NewsReply>>
  readonly news: (plan: string, since: number) => Promise<Reply<NewsReply>>
  readonly fileText: (plan: string, reference: FileReference) => Promise<Reply<string>>
  /** Puts a text on the server, to be attached to a plan by its reference. */
  readonly keepFile: (text: string) => Promise<Reply<FileReference>>
  /** Events are hints that something is new; `gone` and `back` say how the connection fares. Returns how to stop. */
  readonly listen: (told: (event: ServerEvent | { readonly kind: 'gone' | 'back' }) => void) => () => void
}
