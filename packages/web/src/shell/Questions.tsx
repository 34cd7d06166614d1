/** The questions a builder asks are the way around. */
import { Link, useLocation } from 'wouter'
import { pages } from '../pages.ts'
import styles from './Questions.module.css'

export function Questions() {
  const [path] = useLocation()
  return (
    <nav className={styles.questions} aria-label="Questions">
      <ul>
        {pages.map(({ path: to, question, short }) =>
          short === undefined ? null : (
            <li key={to}>
              <Link href={to} className={styles.question} aria-current={path === to ? 'page' : undefined}>
                <span className={styles.long}>{question}</span>
                <span className={styles.short} aria-hidden="true">
                  {short}
                </span>
              </Link>
            </li>
          ),
        )}
      </ul>
    </nav>
  )
}
