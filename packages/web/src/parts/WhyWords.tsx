/** The last part of a page: how its numbers were made and how far they carry, in the words of the printed sheets. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { Why } from '@finwright/sheets/sheets/hold/why.ts'
import styles from './WhyWords.module.css'

export function WhyWords({ why, sources }: { readonly why: Why; readonly sources: Assessment['sources'] }) {
  const methods = sources.filter(({ section, value }) => why.sections.includes(section) && value === 'method')
  return (
    <div className={styles.why}>
      <List title="How this was computed" items={why.how} />
      <List title="How far to trust it" items={why.trust} />
      {methods.length > 0 && (
        <details className={styles.sources}>
          <summary>Sources of these methods</summary>
          <dl>
            {methods.map(({ quantity, source, confidence }) => (
              <div key={quantity}>
                <dt>{quantity}</dt>
                <dd>
                  {source} <span className={styles.confidence}>({confidence})</span>
                </dd>
              </div>
            ))}
          </dl>
        </details>
      )}
    </div>
  )
}

function List({ title, items }: { readonly title: string; readonly items: readonly string[] }) {
  if (items.length === 0) return null
  return (
    <div>
      <h3 className={styles.title}>{title}</h3>
      <ul className={styles.list}>
        {items.map((item) => (
          <li key={item}>{item}</li>
        ))}
      </ul>
    </div>
  )
}
