/** Which derivation is open: a part of the address, so that it can be linked to and the back button closes it. */
import { useLocation, useSearch } from 'wouter'

export interface OpenWhy {
  readonly id: string | null
  readonly open: (id: string) => void
  readonly close: () => void
  readonly hrefTo: (id: string) => string
}

export function useWhy(): OpenWhy {
  const search = useSearch()
  const [path, navigate] = useLocation()
  const query = new URLSearchParams(search)
  const at = (id: string | null): string => {
    const next = new URLSearchParams(query)
    if (id === null) next.delete('why')
    else next.set('why', id)
    const text = next.toString()
    return text === '' ? path : `${path}?${text}`
  }
  return {
    id: query.get('why'),
    open: (id) => navigate(at(id)),
    close: () => navigate(at(null)),
    hrefTo: at,
  }
}
