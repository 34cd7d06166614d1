/** `?field=fins.core.thickness` brings that field into sight and gives it the focus; of a list, the whole entry where the field is closed. */
import { useEffect } from 'react'
import { useSearch } from 'wouter'

export function useFieldInAddress(): void {
  const field = new URLSearchParams(useSearch()).get('field')
  useEffect(() => {
    if (field === null) return
    const row = nearest(field)
    if (row === null) return
    row.closest('details')?.setAttribute('open', '')
    // an entry's fields are there once it is open
    let found = row
    const timer = setTimeout(() => {
      found = nearest(field) ?? row
      found.dataset.found = ''
      found.scrollIntoView({ block: 'center' })
      found.querySelector<HTMLElement>('input, select')?.focus({ preventScroll: true })
    }, 60)
    return () => {
      clearTimeout(timer)
      delete found.dataset.found
    }
  }, [field])
}

function nearest(path: string): HTMLElement | null {
  for (let name = path; name !== ''; name = name.replace(/(\.[^.[]+|\[\d+\]|^[^.[]+)$/, '')) {
    const row = document.querySelector<HTMLElement>(`[data-path="${CSS.escape(name)}"]`)
    if (row !== null) return row
  }
  return null
}
