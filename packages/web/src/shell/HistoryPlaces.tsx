/**
 * What the browser's own buttons expect of a window that never loads anew: a new page is seen from its top, and the back button returns to
 * the place that was left. Pages grow while they are drawn, so that place is asked for until it is there or the reader moves on.
 */
import { useEffect } from 'react'
import { freshName } from '../state/names.ts'

/** How long a page may take to grow to its place, ms. */
const patience = 3000

/** Places remembered over a reload. */
const kept = 100

/** By entry of the history; a page loaded anew finds them in the session's storage. */
const storage = 'finwright.places'

export function HistoryPlaces() {
  useEffect(watchPlaces, [])
  return null
}

/** Of an entry of the history; entries are named when they are first left or scrolled. */
function entryName(): string {
  const state = (history.state ?? {}) as { readonly place?: string }
  if (state.place !== undefined) return state.place
  const place = freshName()
  history.replaceState({ ...state, place }, '')
  return place
}

function watchPlaces(): () => void {
  history.scrollRestoration = 'manual'
  const left = new Map<string, number>(JSON.parse(sessionStorage.getItem(storage) ?? '[]'))
  let entry = entryName()
  let stop = left.has(entry) ? goTo(left.get(entry)!) : () => undefined
  let path = location.pathname
  const scrolled = (): void => {
    if (entry === (history.state as { place?: string } | null)?.place) left.set(entry, scrollY)
  }
  const moved = (): void => {
    stop()
    const known = (history.state as { place?: string } | null)?.place
    const elsewhere = location.pathname !== path
    // The page that is left still stands; its last scrolling may not have been told yet.
    if (elsewhere) left.set(entry, scrollY)
    entry = entryName()
    path = location.pathname
    if (known !== undefined) stop = goTo(left.get(known) ?? 0)
    else if (elsewhere && location.hash === '') scrollTo(0, 0)
  }
  const leaves = (): void => sessionStorage.setItem(storage, JSON.stringify([...left].slice(-kept)))
  const yielded = (): void => stop()
  const hands = ['wheel', 'touchstart', 'pointerdown', 'keydown'] as const
  // The router tells of its own steps by events of these names.
  const steps = ['popstate', 'pushState'] as const
  addEventListener('scroll', scrolled, { passive: true })
  addEventListener('pagehide', leaves)
  for (const hand of hands) addEventListener(hand, yielded, { passive: true })
  for (const step of steps) addEventListener(step, moved)
  return () => {
    stop()
    removeEventListener('scroll', scrolled)
    removeEventListener('pagehide', leaves)
    for (const hand of hands) removeEventListener(hand, yielded)
    for (const step of steps) removeEventListener(step, moved)
  }
}

/**
 * Goes there, and there again: right after the step the page before still stands, then comes the new one, and grows. Returns how to give
 * up. A field that the address names has the say where it is.
 */
function goTo(y: number): () => void {
  if (new URLSearchParams(location.search).has('field')) return () => undefined
  const until = performance.now() + patience
  let frame = 0
  const look = (): void => {
    if (Math.abs(scrollY - y) > 1) scrollTo(0, y)
    if (performance.now() < until) frame = requestAnimationFrame(look)
  }
  look()
  return () => cancelAnimationFrame(frame)
}
