import { useWhy } from './use-why.ts'

export function WhyPanel() {
  const { id } = useWhy()
  return id === null ? null : <aside>{id}</aside>
}
