/** Every page under its question in the browser's history and tabs, with the plan's name. */
import { useEffect } from 'react'
import { useLocation } from 'wouter'
import { pages } from '../pages.ts'
import { useTyped } from '../state/use.ts'

export function PageTitle() {
  const [path] = useLocation()
  const name = useTyped(['name'])
  const question = pages.find((page) => page.path === path)?.question
  useEffect(() => {
    const parts = [question, typeof name === 'string' && name !== '' ? name : undefined, 'Finwright']
    document.title = parts.filter((part) => part !== undefined).join(' · ')
  }, [question, name])
  return null
}
