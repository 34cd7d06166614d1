import { Page } from '../../parts/Page.tsx'

export default function CutPage() {
  return (
    <Page question="What do I cut?" needs={['pattern', 'nest']}>
      {() => null}
    </Page>
  )
}
