import type { ReactNode } from 'react'
import { Button as AriaButton, type ButtonProps as AriaButtonProps } from 'react-aria-components'
import styles from './Button.module.css'

interface ButtonProps extends Omit<AriaButtonProps, 'className' | 'style' | 'children'> {
  /** `plain` for what a page is about, `quiet` beside text. */
  readonly kind?: 'plain' | 'quiet'
  readonly children: ReactNode
}

export function Button({ kind = 'plain', children, ...rest }: ButtonProps) {
  return (
    <AriaButton {...rest} className={`${styles.button} ${styles[kind]}`}>
      {children}
    </AriaButton>
  )
}
