/**
 * The shape of the database, version by version: `PRAGMA user_version` says which one a file has, each step brings it to the
 * next, all of it in one transaction. A step is never changed once it has been released; the next one is added.
 */
import { invariant } from '@finwright/core/issue.ts'
import type { Database } from './database.ts'

export const migrations: readonly string[] = [
  `
  CREATE TABLE records (
    id       TEXT PRIMARY KEY,
    kind     TEXT NOT NULL CHECK (kind IN ('plan', 'shelf')),
    name     TEXT NOT NULL,
    revision INTEGER NOT NULL,
    created  TEXT NOT NULL,
    changed  TEXT NOT NULL,
    removed  TEXT
  ) STRICT;

  CREATE TABLE revisions (
    record   TEXT NOT NULL REFERENCES records (id),
    revision INTEGER NOT NULL,
    at       TEXT NOT NULL,
    kind     TEXT NOT NULL CHECK (kind IN ('made', 'command', 'undo', 'redo')),
    label    TEXT NOT NULL,
    client   TEXT NOT NULL,
    command  TEXT NOT NULL,
    gesture  TEXT,
    changes  TEXT NOT NULL,
    content  BLOB,
    PRIMARY KEY (record, revision)
  ) STRICT;
  CREATE UNIQUE INDEX revision_of_command ON revisions (record, command);

  CREATE TABLE steps (
    record  TEXT NOT NULL REFERENCES records (id),
    step    INTEGER NOT NULL,
    before  INTEGER NOT NULL,
    after   INTEGER NOT NULL,
    label   TEXT NOT NULL,
    client  TEXT NOT NULL,
    gesture TEXT,
    undone  INTEGER NOT NULL CHECK (undone IN (0, 1)),
    PRIMARY KEY (record, step)
  ) STRICT;

  CREATE TABLE contents (
    sha256 TEXT PRIMARY KEY,
    size   INTEGER NOT NULL,
    added  TEXT NOT NULL,
    bytes  BLOB NOT NULL
  ) STRICT;

  CREATE TABLE uses (
    record TEXT NOT NULL REFERENCES records (id),
    sha256 TEXT NOT NULL REFERENCES contents (sha256),
    PRIMARY KEY (record, sha256)
  ) STRICT;

  CREATE TABLE settings (
    name  TEXT PRIMARY KEY,
    value TEXT NOT NULL
  ) STRICT;
  `,
]

/** The file was written by a newer Finwright. */
export class DatabaseTooNew extends Error {
  readonly version: number
  constructor(version: number) {
    super(`version ${version}`)
    this.version = version
  }
}

export function migrate(database: Database, execute: (sql: string) => void): void {
  const version = versionOf(database)
  if (version > migrations.length) throw new DatabaseTooNew(version)
  if (version === migrations.length) return
  database.transaction(() => {
    for (const step of migrations.slice(version)) execute(step)
    execute(`PRAGMA user_version = ${migrations.length}`)
  })
  invariant(versionOf(database) === migrations.length, `the database is of version ${migrations.length} now`)
}

const versionOf = (database: Database): number =>
  database.one<{ user_version: number }>('PRAGMA user_version')?.user_version ?? 0
