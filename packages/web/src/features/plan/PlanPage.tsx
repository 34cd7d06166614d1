import { PageHead } from '../../parts/Page.tsx'

export default function PlanPage() {
  return <PageHead question="The plan" answer="" />
}
