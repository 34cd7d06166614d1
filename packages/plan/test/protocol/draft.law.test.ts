/**
 * Windows and a server, with orders and delays drawn at random: in the end every window shows what the server keeps, and
 * every command that was entered is either kept or said to be dropped. Nothing vanishes.
 */
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { applyBound, bindCommand } from '../../src/protocol/apply.ts'
import {
  type Draft,
  type Dropped,
  draftOf,
  enter,
  heard,
  type News,
  next,
  refusedByServer,
} from '../../src/protocol/draft.ts'
import { rebase } from '../../src/protocol/rebase.ts'
import type { PlanRecord } from '../../src/protocol/record.ts'
import { demoRecord } from './records.ts'

/** As the server takes commands, without its database. */
class PlainServer {
  record: PlanRecord = demoRecord()
  readonly revisions: News['since'][number][] = []

  take(sent: NonNullable<ReturnType<typeof next>>) {
    const read = bindCommand(sent)
    if (!read.ok) return { ok: false as const, issues: read.issues }
    const since = this.revisions.slice(sent.base).flatMap(({ changes }) => changes)
    const carried = rebase(read.bound, since, this.record)
    if (!carried.ok) return { ok: false as const, issues: [carried.issue] }
    const made = applyBound(carried.bound, this.record)
    if (!made.ok) return made
    this.record = made.record
    this.revisions.push({ revision: this.revisions.length + 1, id: sent.id, changes: made.changes })
    return { ok: true as const }
  }

  news(base: number): News {
    return { revision: this.revisions.length, record: this.record, since: this.revisions.slice(base) }
  }
}

interface Window {
  draft: Draft
  readonly dropped: Dropped[]
  readonly entered: string[]
}

const place = fc.nat(6)
const angle = fc.integer({ min: 0, max: 90 }).map((deg) => `${deg} deg`)
const intent = fc.oneof(
  fc.record({
    name: fc.constant('field.set'),
    payload: fc.record({ path: place.map((i) => ['plies', i, 'angle']), value: angle }),
  }),
  fc.record({
    name: fc.constant('field.set'),
    payload: fc.record({ path: fc.constantFrom(['name'], ['note']), value: fc.constantFrom('x', 'y') }),
  }),
  fc.record({ name: fc.constant('plies.move'), payload: fc.record({ from: place, to: place }) }),
  fc.record({ name: fc.constantFrom('plies.remove', 'plies.duplicate'), payload: fc.record({ at: place }) }),
  fc.record({
    name: fc.constant('plies.insert'),
    payload: fc.record({ at: place, entry: angle.map((a) => ({ cloth: 'glass-plain-200', angle: a })) }),
  }),
)
const step = fc.record({
  window: fc.nat(2),
  act: fc.constantFrom('enter', 'enter', 'send', 'hear', 'lose the reply'),
  intent,
})

function settle(server: PlainServer, window: Window): void {
  const { draft, dropped } = heard(window.draft, server.news(window.draft.confirmed.revision))
  window.draft = draft
  window.dropped.push(...dropped)
}

function send(server: PlainServer, window: Window, replyArrives: boolean): void {
  const first = next(window.draft)
  if (first === null) return
  const known = server.revisions.some(({ id }) => id === first.id)
  const reply = known ? { ok: true as const } : server.take(first)
  if (!replyArrives) return
  if (reply.ok) {
    settle(server, window)
    return
  }
  const { draft, dropped } = refusedByServer(window.draft, first.id, reply.issues)
  window.draft = draft
  window.dropped.push(...dropped)
}

describe('windows on one plan', () => {
  test('agree in the end, and lose nothing unsaid', () => {
    let kept = 0
    let refused = 0
    fc.assert(
      fc.property(fc.array(step, { minLength: 5, maxLength: 40 }), (steps) => {
        const server = new PlainServer()
        const windows: Window[] = [0, 1, 2].map(() => ({
          draft: draftOf({ revision: 0, record: server.record }),
          dropped: [],
          entered: [],
        }))
        steps.forEach(({ window: w, act, intent: { name, payload } }, i) => {
          const window = windows[w]!
          if (act === 'enter') {
            const entered = enter(window.draft, { id: `command-${i}`, name, payload })
            if (!entered.ok) return
            window.draft = entered.draft
            window.entered.push(`command-${i}`)
          } else if (act === 'hear') settle(server, window)
          else send(server, window, act === 'send')
        })
        for (const window of windows) {
          for (let guard = 0; window.draft.waiting.length > 0 && guard < 100; guard += 1) {
            send(server, window, true)
            settle(server, window)
          }
        }
        for (const window of windows) {
          settle(server, window)
          expect(window.draft.waiting).toEqual([])
          expect(window.draft.record).toEqual(server.record)
          const told = new Set(window.dropped.map(({ id }) => id))
          const taken = new Set(server.revisions.map(({ id }) => id))
          expect(window.entered.filter((id) => !told.has(id) && !taken.has(id))).toEqual([])
          kept += window.entered.filter((id) => taken.has(id)).length
          refused += told.size
        }
      }),
      { numRuns: 400, seed: 5 },
    )
    expect(kept).toBeGreaterThan(1000)
    expect(refused).toBeGreaterThan(50)
  })
})
