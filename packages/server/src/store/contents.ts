/** Bytes of files, kept once each under their SHA-256, as rows of the database. */
import { createHash } from 'node:crypto'
import type { FileReference } from '@finwright/plan/protocol/record.ts'
import type { Database } from './database.ts'

export interface Contents {
  readonly keep: (bytes: Uint8Array) => FileReference
  readonly read: (sha256: string) => Uint8Array | undefined
  /** Of those named, the ones that are not kept, or are of another size. */
  readonly missing: (files: readonly FileReference[]) => readonly FileReference[]
  /** From now on used by the record, for as long as it is kept. */
  readonly use: (record: string, files: readonly FileReference[]) => void
  /** Takes away what was uploaded longer ago than a day and never used. */
  readonly sweep: () => void
}

const day = 24 * 3600 * 1000

export function contentsIn(database: Database, now: () => Date): Contents {
  const sizeOf = (sha256: string): number | undefined =>
    database.one<{ size: number }>('SELECT size FROM contents WHERE sha256 = ?', sha256)?.size
  return {
    keep: (bytes) => {
      const sha256 = createHash('sha256').update(bytes).digest('hex')
      if (sizeOf(sha256) === undefined) {
        const values = [sha256, bytes.length, now().toISOString(), bytes] as const
        database.run('INSERT INTO contents (sha256, size, added, bytes) VALUES (?, ?, ?, ?)', ...values)
      }
      return { sha256, size: bytes.length }
    },
    read: (sha256) => database.one<{ bytes: Buffer }>('SELECT bytes FROM contents WHERE sha256 = ?', sha256)?.bytes,
    missing: (files) => files.filter(({ sha256, size }) => sizeOf(sha256) !== size),
    use: (record, files) => {
      for (const { sha256 } of files) {
        database.run('INSERT OR IGNORE INTO uses (record, sha256) VALUES (?, ?)', record, sha256)
      }
    },
    sweep: () => {
      const before = new Date(now().getTime() - day).toISOString()
      database.run('DELETE FROM contents WHERE added < ? AND sha256 NOT IN (SELECT sha256 FROM uses)', before)
    },
  }
}
