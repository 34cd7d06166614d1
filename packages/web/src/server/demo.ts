/** The app on its own: the demo, kept in this browser. */

import type { JsonObject } from '@finwright/plan/protocol/record.ts'
import { sha256 } from '@finwright/plan/text/hash.ts'
import demo from '../../../../examples/demo.fincan.json'
import thrust from '../../../../examples/demo-thrust.csv?raw'
import type { PlanServer } from './client.ts'
import { localServer } from './local.ts'

export function demoServer(): PlanServer {
  const file = { sha256: sha256(thrust), size: thrust.length }
  return localServer({
    record: { kind: 'plan', plan: demo as unknown as JsonObject, files: { 'demo-thrust.csv': file } },
    files: { 'demo-thrust.csv': thrust },
    store: localStorage,
  })
}
