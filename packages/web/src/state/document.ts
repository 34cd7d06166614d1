/**
 * The plan as this window works on it: what was entered applies at once, waits for the server in order, and is told when it cannot
 * be kept. With the server gone it goes on waiting; nothing typed is lost.
 */
import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import {
  type Draft,
  type Dropped,
  draftOf,
  enter,
  heard,
  keptOf,
  type Moved,
  next,
  refusedByServer,
  resumed,
} from '@finwright/plan/protocol/draft.ts'
import { sameJson } from '@finwright/plan/protocol/record.ts'
import type { NewsReply } from '@finwright/plan/protocol/wire.ts'
import type { PlanServer, Reply } from '../server/client.ts'
import { type Keeper, type KeptWork, noKeeper } from './keeper.ts'
import { freshName } from './names.ts'
import { cell, type Store } from './store.ts'

export interface DocumentState {
  /** On the server; null until the first plan is there. */
  readonly id: string | null
  readonly draft: Draft | null
  /** What the buttons would do; null where there is nothing. */
  readonly undo: string | null
  readonly redo: string | null
  readonly connection: 'here' | 'gone'
  /** Entered and not kept after all, newest last; shown until dismissed. */
  readonly dropped: readonly Dropped[]
}

export type Entered = { readonly ok: true } | { readonly ok: false; readonly issues: readonly Issue[] }

export interface PlanDocumentStore extends Store<DocumentState> {
  /** Applies here at once. Entries of one `gesture` are undone in one step. */
  readonly enter: (intent: Intent, gesture?: string) => Entered
  readonly undo: () => Promise<void>
  readonly redo: () => Promise<void>
  readonly dismiss: (id: string) => void
  readonly start: () => Promise<void>
  /** Told right before an entry applies, with what it will be called. */
  readonly beforeEntry: (told: (gesture: string) => void) => () => void
}

const empty: DocumentState = { id: null, draft: null, undo: null, redo: null, connection: 'here', dropped: [] }

/** Before trying again what did not get through, ms. */
const patience = 1500

export function planDocument(server: PlanServer, client = freshName(), keeper: Keeper = noKeeper): PlanDocumentStore {
  const state = cell<DocumentState>(empty)
  const entryWatchers = new Set<(gesture: string) => void>()
  let sending = false
  let steps = Promise.resolve()
  let again: ReturnType<typeof setTimeout> | null = null

  const change = (part: Partial<DocumentState>): void => {
    const before = state.get().draft
    state.set({ ...state.get(), ...part })
    const { id, draft } = state.get()
    if (id !== null && draft !== null && draft !== before) {
      const kept = keptOf(draft)
      keeper.keep(kept === null ? null : { plan: id, ...kept })
    }
  }

  const moved = ({ draft, dropped }: Moved, more: Partial<DocumentState> = {}): void =>
    change({ ...more, draft: settled(draft, state.get().draft), dropped: [...state.get().dropped, ...dropped] })

  const hear = (news: NewsReply): void => {
    const { draft } = state.get()
    if (draft === null) return
    moved(heard(draft, news), { undo: news.undo, redo: news.redo, connection: 'here' })
  }

  const later = (): void => {
    change({ connection: 'gone' })
    if (again === null)
      again = setTimeout(() => {
        again = null
        void flush()
      }, patience)
  }

  /** Sends what waits, one after the other; true when nothing waits any more. */
  async function flush(): Promise<boolean> {
    if (sending) return false
    sending = true
    try {
      for (;;) {
        const { id, draft } = state.get()
        const entry = draft === null ? null : next(draft)
        if (id === null || entry === null) return true
        const reply = await server.send(id, { ...entry, client, payload: entry.payload as never })
        if (!taken(reply, (issues) => moved(refusedByServer(state.get().draft!, entry.id, issues)))) return false
      }
    } finally {
      sending = false
    }
  }

  /** False when nobody was there. */
  function taken(reply: Reply<NewsReply>, refused: (issues: readonly Issue[]) => void): boolean {
    if (reply.kind === 'gone') {
      later()
      return false
    }
    if (reply.kind === 'answer') hear(reply.value)
    else refused(reply.issues)
    return true
  }

  /** One after the other, however fast the keys are pressed: each is made on what the one before came to. */
  const inTurn = (way: 'undo' | 'redo'): Promise<void> => {
    const go = (): Promise<void> => step(way)
    steps = steps.then(go, go)
    return steps
  }

  async function step(way: 'undo' | 'redo'): Promise<void> {
    while (sending) await new Promise((done) => setTimeout(done, 20))
    if (!(await flush())) {
      tell(way, [serverGone(way)])
      return
    }
    const { id, draft } = state.get()
    if (id === null || draft === null || state.get()[way] === null) return
    for (const told of entryWatchers) told(freshName())
    const reply = await server[way](id, { id: freshName(), client, base: draft.confirmed.revision })
    if (!taken(reply, (issues) => tell(way, issues))) tell(way, [serverGone(way)])
  }

  /** Said once, however often it is asked for. */
  const tell = (name: string, issues: readonly Issue[]): void => {
    const others = state.get().dropped.filter((one) => one.payload !== null || one.name !== name)
    change({ dropped: [...others, { id: freshName(), name, payload: null, issues }] })
  }

  /** What a closed window left waiting for this plan; it comes after what waits here. False when it is not of this plan. */
  async function takeUp(kept: KeptWork): Promise<boolean> {
    for (;;) {
      const { id, draft } = state.get()
      if (id !== kept.plan || draft === null) return false
      const reply = (await flush()) ? await server.news(id, kept.confirmed.revision) : gone
      if (reply.kind === 'refused') {
        for (const { id: entry, name, payload } of kept.entries)
          change({ dropped: [...state.get().dropped, { id: entry, name, payload, issues: reply.issues }] })
        return true
      }
      if (reply.kind === 'answer' && state.get().draft?.waiting.length === 0) {
        const { undo, redo } = reply.value
        moved(resumed(kept, reply.value), { undo, redo, connection: 'here' })
        void flush()
        return true
      }
      await new Promise((done) => setTimeout(done, patience))
    }
  }

  async function ask(): Promise<void> {
    const { id, draft } = state.get()
    if (id === null || draft === null) return
    const reply = await server.news(id, draft.confirmed.revision)
    taken(reply, () => undefined)
    if (reply.kind === 'answer') void flush()
  }

  return {
    get: state.get,
    watch: state.watch,
    beforeEntry: (told) => {
      entryWatchers.add(told)
      return () => entryWatchers.delete(told)
    },
    enter: (intent, gesture = freshName()) => {
      const { draft } = state.get()
      if (draft === null) return { ok: false, issues: [] }
      const made = enter(draft, { id: freshName(), ...intent, gesture })
      if (!made.ok) return made
      for (const told of entryWatchers) told(gesture)
      change({ draft: made.draft })
      void flush()
      return { ok: true }
    },
    undo: () => inTurn('undo'),
    redo: () => inTurn('redo'),
    dismiss: (gone) => change({ dropped: state.get().dropped.filter(({ id }) => id !== gone) }),
    start: async () => {
      let reply = await server.standing()
      while (reply.kind !== 'answer') {
        change({ connection: 'gone' })
        await new Promise((done) => setTimeout(done, patience))
        reply = await server.standing()
      }
      const { id, record, revision, undo, redo } = reply.value
      change({ id, draft: draftOf({ revision, record }), undo, redo, connection: 'here' })
      keeper.left(takeUp)
      server.listen((event) => {
        if (event.kind === 'gone') change({ connection: 'gone' })
        else if (event.kind === 'back') void ask()
        else if (event.kind === 'revision' && event.client !== client) void ask()
      })
    },
  }
}

const gone = { kind: 'gone' } as const

/** The record as it was where it reads the same, so that no view is made anew for a confirmation. */
function settled(draft: Draft, before: Draft | null): Draft {
  return before !== null && draft.record !== before.record && sameJson(draft.record, before.record)
    ? { ...draft, record: before.record }
    : draft
}

const serverGone = (way: 'undo' | 'redo'): Issue => ({
  code: 'server/gone',
  path: '',
  value: null,
  message: `The server keeps the steps that can be ${way === 'undo' ? 'undone' : 'redone'}, and it does not answer now.`,
  hint: 'Nothing was changed. Try again when it is back; what you enter meanwhile waits here and is kept.',
})
