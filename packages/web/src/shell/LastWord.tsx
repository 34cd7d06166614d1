/** What stands in a field when the window closes is taken in, as when the field is left. */
import { useEffect } from 'react'

export function LastWord() {
  useEffect(() => {
    const leave = (): void => {
      if (document.activeElement instanceof HTMLElement) document.activeElement.blur()
    }
    addEventListener('pagehide', leave)
    return () => removeEventListener('pagehide', leave)
  }, [])
  return null
}
