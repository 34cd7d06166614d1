/**
 * Ctrl+Z and Ctrl+Shift+Z (⌘ on a Mac). In a field they are the field's own where text was typed and not yet taken in, and where what is
 * typed is none of the plan's: an answer of the start, the name of a printer.
 */
import { useEffect } from 'react'
import { useSession } from '../state/use.ts'

export function UndoKeys() {
  const { document: plan } = useSession()
  useEffect(() => {
    const listen = (event: KeyboardEvent): void => {
      if (!(event.ctrlKey || event.metaKey) || event.altKey) return
      const key = event.key.toLowerCase()
      if (key !== 'z' && key !== 'y') return
      if (isOwn(event.target)) return
      event.preventDefault()
      void (key === 'y' || event.shiftKey ? plan.redo() : plan.undo())
    }
    addEventListener('keydown', listen)
    return () => removeEventListener('keydown', listen)
  }, [plan])
  return null
}

const isOwn = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  target.matches('input:is(:not([type]), [type="text"], [type="search"]), textarea') &&
  target.matches('[data-unsaved], :not([data-of-plan])')
