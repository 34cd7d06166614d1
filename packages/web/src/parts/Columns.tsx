/** Things side by side where there is room, one under another where not. */
import type { ReactNode } from 'react'
import styles from './Columns.module.css'

export function Columns({ children, wide = false }: { readonly children: ReactNode; readonly wide?: boolean }) {
  return (
    <div className={styles.columns} data-wide={wide || undefined}>
      {children}
    </div>
  )
}
