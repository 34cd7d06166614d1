/** Ctrl+Z and Ctrl+Shift+Z (⌘ on a Mac), but in a field where text was typed and not yet taken in: there they are the field's own. */
import { useEffect } from 'react'
import { useSession } from '../state/use.ts'

export function UndoKeys() {
  const { document: plan } = useSession()
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return
      const key = event.key.toLowerCase()
      if (key !== 'z' && key !== 'y') return
      if (event.target instanceof HTMLElement && event.target.closest('[data-unsaved]') !== null) return
      event.preventDefault()
      void (key === 'y' || event.shiftKey ? plan.redo() : plan.undo())
    }
    addEventListener('keydown', listen)
    return () => removeEventListener('keydown', listen)
  }, [plan])
  return null
}
