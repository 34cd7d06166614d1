/** What is wrong and what to do, as a list; each says what it is about. */
import type { Issue } from '@finwright/core/issue.ts'
import styles from './Faults.module.css'

export function Faults({ issues, then = '' }: { readonly issues: readonly Issue[]; readonly then?: string }) {
  return (
    <div className={styles.faults} role="alert">
      <ul>
        {issues.map(({ code, path, message, hint }, i) => (
          <li key={`${code} ${path} ${i.toString()}`}>
            {message} {hint}
          </li>
        ))}
      </ul>
      {then !== '' && <p>{then}</p>}
    </div>
  )
}
