import { Link } from 'wouter'

export function NoPage() {
  return (
    <p>
      There is no page at this address. <Link href="/">Go to the plan.</Link>
    </p>
  )
}
