/** Puts text on the clipboard and says so. */
import { useEffect, useState } from 'react'
import { Button } from './Button.tsx'

interface CopyButtonProps {
  readonly text: () => string
  readonly label: string
  /** What is copied, for a reader who does not see it. */
  readonly of: string
}

export function CopyButton({ text, label, of }: CopyButtonProps) {
  const [said, setSaid] = useState<string | null>(null)
  useEffect(() => {
    if (said === null) return
    const timer = setTimeout(() => setSaid(null), 2000)
    return () => clearTimeout(timer)
  }, [said])
  const copy = async (): Promise<void> => {
    try {
      await navigator.clipboard.writeText(text())
      setSaid('Copied')
    } catch {
      setSaid('Not allowed')
    }
  }
  return (
    <Button kind="quiet" onPress={() => void copy()} aria-label={`${label}: ${of}`}>
      {said ?? label}
    </Button>
  )
}
