/** Words of caution, at the step they belong to. */
import type { ReactNode } from 'react'
import styles from './Caution.module.css'

export function Caution({ children }: { readonly children: ReactNode }) {
  return (
    <p className={styles.caution} role="note">
      <strong>Caution.</strong> {children}
    </p>
  )
}
