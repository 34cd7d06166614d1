/** What was entered and could not be kept, and what keeps the present plan from being worked out. Nothing typed is lost. */
import type { Issue } from '@finwright/core/issue.ts'
import { Link } from 'wouter'
import { fieldHref } from '../features/plan/field-place.ts'
import { Button } from '../parts/Button.tsx'
import { useFaults, useSelected, useSession } from '../state/use.ts'
import styles from './Notices.module.css'

export function Notices() {
  const dropped = useSelected(useSession().document, (state) => state.dropped)
  const faults = useFaults()
  const { document: plan } = useSession()
  return (
    <div className={styles.notices} role="status">
      {dropped.map(({ id, name, payload, issues: reasons }) => (
        <div key={id} className={styles.notice}>
          <div>
            {payload === null ? (
              <p>
                <strong>{name === 'undo' ? 'Nothing was undone.' : 'Nothing was redone.'}</strong>
              </p>
            ) : (
              <p>
                <strong>A change was not kept.</strong> You entered: <q>{entered(payload)}</q>
              </p>
            )}
            {reasons.map((issue) => (
              <IssueLine
                key={`${issue.code} ${issue.path}`}
                issue={payload === null ? { ...issue, path: '' } : issue}
              />
            ))}
          </div>
          <Button onPress={() => plan.dismiss(id)}>Put away</Button>
        </div>
      ))}
      {faults.length > 0 && (
        <div className={styles.notice}>
          <div>
            <p>
              <strong>The plan cannot be worked out as it stands</strong>; the numbers are those of the last plan that
              could.
            </p>
            {faults.map((issue) => (
              <IssueLine key={`${issue.code} ${issue.path}`} issue={issue} />
            ))}
          </div>
        </div>
      )}
    </div>
  )
}

function IssueLine({ issue: { path, message, hint } }: { readonly issue: Issue }) {
  return (
    <p>
      {message} {hint} {path !== '' && <Link href={fieldHref(path)}>Go to the field</Link>}
    </p>
  )
}

function entered(payload: unknown): string {
  const value =
    typeof payload === 'object' && payload !== null && 'value' in payload
      ? (payload as { value: unknown }).value
      : payload
  return typeof value === 'string' ? value : JSON.stringify(value)
}
