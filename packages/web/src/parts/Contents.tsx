/** What stands on a long page, to jump to. */
import styles from './Contents.module.css'

export function Contents({
  sections,
}: {
  readonly sections: readonly { readonly id: string; readonly title: string }[]
}) {
  return (
    <nav className={styles.contents} aria-label="On this page">
      {sections.map(({ id, title }) => (
        <a key={id} href={`#${id}`}>
          {title}
        </a>
      ))}
    </nav>
  )
}
