import { Page } from '../../parts/Page.tsx'

export default function HoldPage() {
  return (
    <Page question="Will it hold?" needs={['flutter', 'strength', 'bond', 'structure']}>
      {() => null}
    </Page>
  )
}
