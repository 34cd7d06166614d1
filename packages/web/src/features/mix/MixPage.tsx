import { Page } from '../../parts/Page.tsx'

export default function MixPage() {
  return (
    <Page question="What do I mix, and when?" needs={['resin']}>
      {() => null}
    </Page>
  )
}
