/**
 * The embedded database behind a small port of ours: SQLite through libsql, write-ahead log, every commit on the disk before
 * it is acknowledged.
 */
import Libsql from 'libsql'
import { migrate } from './migrations.ts'

export type Value = string | number | null | Uint8Array

export interface Database {
  readonly run: (sql: string, ...values: readonly Value[]) => void
  readonly one: <T>(sql: string, ...values: readonly Value[]) => T | undefined
  readonly all: <T>(sql: string, ...values: readonly Value[]) => readonly T[]
  /** All of it or nothing. Not to be nested. */
  readonly transaction: <T>(work: () => T) => T
  readonly close: () => void
}

export function openDatabase(file: string): Database {
  const db = open(file)
  const statements = new Map<string, Libsql.Statement>()
  const prepared = (sql: string): Libsql.Statement => {
    const known = statements.get(sql)
    if (known !== undefined) return known
    const made = db.prepare(sql)
    statements.set(sql, made)
    return made
  }
  const database: Database = {
    run: (sql, ...values) => void prepared(sql).run(...values.map(bound)),
    one: <T>(sql: string, ...values: readonly Value[]) => prepared(sql).get(...values.map(bound)) as T | undefined,
    all: <T>(sql: string, ...values: readonly Value[]) => prepared(sql).all(...values.map(bound)) as T[],
    transaction: (work) => {
      db.exec('BEGIN IMMEDIATE')
      try {
        const result = work()
        db.exec('COMMIT')
        return result
      } catch (problem) {
        if (db.inTransaction) db.exec('ROLLBACK')
        throw problem
      }
    },
    close: () => void db.close(),
  }
  migrate(database, (sql) => void db.exec(sql))
  return database
}

function open(file: string): Libsql.Database {
  const db = new Libsql(file)
  db.pragma('journal_mode = WAL')
  db.pragma('synchronous = FULL')
  db.pragma('foreign_keys = ON')
  db.pragma('busy_timeout = 5000')
  return db
}

/** libsql takes buffers for bytes. */
const bound = (value: Value): Exclude<Value, Uint8Array> | Buffer =>
  value instanceof Uint8Array ? Buffer.from(value.buffer, value.byteOffset, value.byteLength) : value
