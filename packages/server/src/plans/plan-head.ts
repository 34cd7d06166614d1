/** The plan that an address names. */
import { notFound } from '../http/refusal.ts'
import type { Question } from '../http/route.ts'
import type { Services } from '../services.ts'
import type { Head } from '../store/ledger.ts'

export function planHead({ param }: Question, { ledger }: Services, removedToo = false): Head {
  const id = param('id')
  const head = ledger.find(id, 'plan')
  if (head === undefined) throw notFound('plan', id, 'GET /api/plans lists those that are there.')
  if (head.removed !== null && !removedToo) {
    throw notFound('plan', id, 'It was taken away; POST /api/plans/:id/bring-back brings it back.')
  }
  return head
}
