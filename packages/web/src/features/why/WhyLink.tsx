/** A number that can be asked why. It opens its derivation beside the page, and the address says so. */
import type { ReactNode } from 'react'
import { useWhy } from './use-why.ts'
import styles from './WhyLink.module.css'

interface WhyLinkProps {
  readonly id: string
  readonly children: ReactNode
}

export function WhyLink({ id, children }: WhyLinkProps) {
  const why = useWhy()
  return (
    <a
      className={styles.link}
      href={why.hrefTo(id)}
      aria-current={why.id === id || undefined}
      onClick={(event) => {
        if (event.metaKey || event.ctrlKey || event.shiftKey) return
        event.preventDefault()
        why.open(id)
      }}
    >
      {children}
      <span className="unseen">, why?</span>
    </a>
  )
}
