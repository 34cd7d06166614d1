/** The shelf's API: cloth, resin and hardener in stock, shared by all plans. A plan takes from it what it wants to count with. */
import { emptyShelf } from '@finwright/plan/protocol/record.ts'
import type { RouteTable } from '../http/route.ts'
import { recordRoutes } from '../plans/record-routes.ts'
import type { Services } from '../services.ts'
import type { Head } from '../store/ledger.ts'

export const shelfRoutes: RouteTable = { ...recordRoutes('/api/shelf', (_, services) => shelfHead(services)) }

const shelfId = 'shelf'

function shelfHead({ ledger, database }: Services): Head {
  const found = ledger.find(shelfId, 'shelf')
  if (found !== undefined) return found
  database.transaction(() => ledger.make(shelfId, emptyShelf, 'empty'))
  return ledger.find(shelfId, 'shelf')!
}
