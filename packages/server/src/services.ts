/** What handlers work with. */

import type { Events } from './events/events.ts'
import type { ExamplePlan } from './examples/examples.ts'
import type { Jobs } from './package/jobs.ts'
import type { Contents } from './store/contents.ts'
import type { Database } from './store/database.ts'
import type { Ledger } from './store/ledger.ts'
import type { Settings } from './store/settings.ts'

export interface Services {
  readonly database: Database
  readonly ledger: Ledger
  readonly contents: Contents
  readonly settings: Settings
  readonly examples: readonly ExamplePlan[]
  readonly events: Events
  readonly jobs: Jobs
  readonly newId: () => string
}
