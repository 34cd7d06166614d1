/** Undo steps of a record, oldest first: those done, then those undone. Commands of one gesture are one step. */
import type { Database } from './database.ts'

export interface Step {
  readonly step: number
  /** Revisions whose records lie before and after it. */
  readonly before: number
  readonly after: number
  readonly label: string
  readonly client: string
  readonly gesture: string | null
}

export interface Steps {
  /** The one that undo takes back. */
  readonly last: (record: string) => Step | undefined
  /** The one that redo does again. */
  readonly undone: (record: string) => Step | undefined
  /** Adds a step, or lengthens the last one by its gesture; then the revision that no step needs any longer, else null. */
  readonly add: (record: string, step: Omit<Step, 'step'>) => number | null
  readonly mark: (record: string, step: number, undone: boolean) => void
}

const columns = 'step, before, after, label, client, gesture'

export function stepsIn(database: Database): Steps {
  const last = (record: string): Step | undefined =>
    database.one<Step>(
      `SELECT ${columns} FROM steps WHERE record = ? AND undone = 0 ORDER BY step DESC LIMIT 1`,
      record,
    )
  return {
    last,
    undone: (record) =>
      database.one<Step>(`SELECT ${columns} FROM steps WHERE record = ? AND undone = 1 ORDER BY step LIMIT 1`, record),
    add: (record, { before, after, label, client, gesture }) => {
      database.run('DELETE FROM steps WHERE record = ? AND undone = 1', record)
      const open = last(record)
      const same = gesture !== null && open?.gesture === gesture && open.client === client && open.after === before
      if (same) {
        database.run(
          'UPDATE steps SET after = ?, label = ? WHERE record = ? AND step = ?',
          after,
          label,
          record,
          open.step,
        )
        return before
      }
      database.run(
        'INSERT INTO steps (record, step, before, after, label, client, gesture, undone) VALUES (?, ?, ?, ?, ?, ?, ?, 0)',
        record,
        (open?.step ?? 0) + 1,
        before,
        after,
        label,
        client,
        gesture,
      )
      return null
    },
    mark: (record, step, undone) =>
      database.run('UPDATE steps SET undone = ? WHERE record = ? AND step = ?', undone ? 1 : 0, record, step),
  }
}
