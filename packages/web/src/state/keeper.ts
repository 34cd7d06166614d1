/**
 * What waits for the server, kept in this browser, so that a window closed meanwhile loses nothing: whichever window is open next goes on
 * with it. A window that lives holds a lock of its name; who gets that lock knows that the window is gone. Written at once with every
 * change, since a closing window has no time left.
 */
import type { Kept } from '@finwright/plan/protocol/draft.ts'

export interface KeptWork extends Kept {
  readonly plan: string
}

export interface Keeper {
  /** All that waits in this window; null when nothing does. */
  readonly keep: (work: KeptWork | null) => void
  /** Tells what closed windows left, one after the other. It is forgotten when `take` says that it took it. */
  readonly left: (take: (work: KeptWork) => Promise<boolean>) => void
}

export const noKeeper: Keeper = { keep: () => undefined, left: () => undefined }

const prefix = 'finwright.waiting.'
const lockOf = (window: string): string => `finwright.window.${window}`

export interface Places {
  readonly store: Storage
  /** Without them (an old browser) every other window counts as closed: a command sent by two counts once. */
  readonly locks: LockManager | undefined
  /** Tells when another window wrote, with the name it wrote under. */
  readonly written: (told: (name: string) => void) => void
}

export function browserKeeper(window: string, { store, locks, written }: Places): Keeper {
  void locks?.request(lockOf(window), () => new Promise(() => undefined))
  const mine = prefix + window
  const asked = new Set([mine])
  let standing: { readonly revision: object; readonly text: string } | null = null
  let holds = false

  /** The confirmed record stays the same while commands come and go. */
  const textOf = ({ plan, confirmed, entries }: KeptWork): string => {
    if (standing?.revision !== confirmed) standing = { revision: confirmed, text: JSON.stringify(confirmed) }
    return `{"plan":${JSON.stringify(plan)},"entries":${JSON.stringify(entries)},"confirmed":${standing.text}}`
  }

  async function takeOver(name: string, take: (work: KeptWork) => Promise<boolean>): Promise<void> {
    const text = store.getItem(name)
    const work = text === null ? null : readWork(text)
    if (text !== null && (work === null || (await take(work)))) store.removeItem(name)
  }

  return {
    keep: (work) => {
      if (work === null && !holds) return
      holds = work !== null
      try {
        if (work === null) store.removeItem(mine)
        else store.setItem(mine, textOf(work))
      } catch {
        // no room: it waits in the window alone
      }
    },
    left: (take) => {
      const ask = (name: string): void => {
        if (!name.startsWith(prefix) || asked.has(name)) return
        asked.add(name)
        const turn = async (): Promise<void> => {
          await takeOver(name, take)
          asked.delete(name)
        }
        void (locks === undefined ? turn() : locks.request(lockOf(name.slice(prefix.length)), turn))
      }
      for (const name of Object.keys(store)) ask(name)
      written(ask)
    },
  }
}

function readWork(text: string): KeptWork | null {
  try {
    const read = JSON.parse(text) as KeptWork
    return Array.isArray(read.entries) && typeof read.confirmed?.revision === 'number' ? read : null
  } catch {
    return null
  }
}

export const thisBrowser = (): Places => ({
  store: localStorage,
  locks: navigator.locks as LockManager | undefined,
  written: (told) => addEventListener('storage', ({ key, newValue }) => key !== null && newValue !== null && told(key)),
})
