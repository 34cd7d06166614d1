/** One of few, all in sight. */
import { useId } from 'react'
import styles from './Choice.module.css'

interface ChoiceProps<V extends string> {
  readonly label: string
  readonly value: V
  readonly options: readonly { readonly value: V; readonly label: string }[]
  readonly onChange: (value: V) => void
}

export function Choice<V extends string>({ label, value, options, onChange }: ChoiceProps<V>) {
  const name = useId()
  return (
    <fieldset className={styles.choice}>
      <legend className={styles.label}>{label}</legend>
      {options.map((option) => (
        <label key={option.value} className={styles.option} data-chosen={option.value === value || undefined}>
          <input
            className="unseen"
            type="radio"
            name={name}
            checked={option.value === value}
            onChange={() => onChange(option.value)}
          />
          {option.label}
        </label>
      ))}
    </fieldset>
  )
}
