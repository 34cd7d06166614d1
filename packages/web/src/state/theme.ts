/** Light or dark: as the machine says until the user says otherwise. Kept in this browser. */
import { cell } from './store.ts'

export type Theme = 'light' | 'dark'

const key = 'finwright.theme'
const machine = globalThis.matchMedia?.('(prefers-color-scheme: dark)')

const wanted = (): Theme => {
  const kept = globalThis.localStorage?.getItem(key)
  if (kept === 'light' || kept === 'dark') return kept
  return machine?.matches ? 'dark' : 'light'
}

export const theme = cell<Theme>(wanted())

export function showTheme(): void {
  const show = (): void => {
    document.documentElement.dataset.theme = theme.get()
  }
  show()
  theme.watch(show)
  machine?.addEventListener('change', () => theme.set(wanted()))
}

export function chooseTheme(next: Theme): void {
  localStorage.setItem(key, next)
  theme.set(next)
}
