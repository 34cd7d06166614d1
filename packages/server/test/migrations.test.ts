/** What a database file is like before and after it is opened, literally. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import Libsql from 'libsql'
import { afterAll, describe, expect, test } from 'vitest'
import { openDatabase } from '../src/store/database.ts'
import { DatabaseTooNew, migrations } from '../src/store/migrations.ts'
import { temporaryFolder } from './serving.ts'

const folder = temporaryFolder()
afterAll(() => folder.remove())
const file = (name: string) => join(folder.path, name)

interface Shape {
  readonly version: number
  readonly tables: { readonly [name: string]: readonly string[] }
}

/** Read without our own code. */
function shapeOf(path: string): Shape {
  const db = new Libsql(path)
  try {
    const names = db.prepare("SELECT name FROM sqlite_schema WHERE type = 'table' ORDER BY name").all() as {
      name: string
    }[]
    const { user_version: version } = db.prepare('PRAGMA user_version').get() as { user_version: number }
    const columns = (name: string) =>
      (db.prepare(`PRAGMA table_info(${name})`).all() as { name: string; type: string }[]).map(
        (column) => `${column.name} ${column.type}`,
      )
    return { version, tables: Object.fromEntries(names.map(({ name }) => [name, columns(name)])) }
  } finally {
    db.close()
  }
}

const version1: Shape = {
  version: 1,
  tables: {
    contents: ['sha256 TEXT', 'size INTEGER', 'added TEXT', 'bytes BLOB'],
    records: ['id TEXT', 'kind TEXT', 'name TEXT', 'revision INTEGER', 'created TEXT', 'changed TEXT', 'removed TEXT'],
    revisions: [
      'record TEXT',
      'revision INTEGER',
      'at TEXT',
      'kind TEXT',
      'label TEXT',
      'client TEXT',
      'command TEXT',
      'gesture TEXT',
      'changes TEXT',
      'content BLOB',
    ],
    settings: ['name TEXT', 'value TEXT'],
    steps: [
      'record TEXT',
      'step INTEGER',
      'before INTEGER',
      'after INTEGER',
      'label TEXT',
      'client TEXT',
      'gesture TEXT',
      'undone INTEGER',
    ],
    uses: ['record TEXT', 'sha256 TEXT'],
  },
}

describe('opening', () => {
  test('an empty file makes it version 1', () => {
    writeFileSync(file('empty.db'), '')
    expect(shapeOf(file('empty.db'))).toEqual({ version: 0, tables: {} })
    openDatabase(file('empty.db')).close()
    expect(shapeOf(file('empty.db'))).toEqual(version1)
    expect(migrations).toHaveLength(version1.version)
  })

  test('a file of version 1 changes nothing in it', () => {
    const first = openDatabase(file('one.db'))
    first.run("INSERT INTO settings VALUES ('open', 'x')")
    first.close()
    const again = openDatabase(file('one.db'))
    expect(again.all('SELECT name, value FROM settings')).toEqual([{ name: 'open', value: 'x' }])
    again.close()
    expect(shapeOf(file('one.db'))).toEqual(version1)
  })

  test('a step that fails leaves the file as it was', () => {
    const path = file('half.db')
    const db = new Libsql(path)
    db.exec('CREATE TABLE steps (other TEXT)')
    db.close()
    expect(() => openDatabase(path)).toThrow(/steps/)
    expect(shapeOf(path)).toEqual({ version: 0, tables: { steps: ['other TEXT'] } })
  })

  test('a file of a newer version is refused and left alone', () => {
    const path = file('newer.db')
    const db = new Libsql(path)
    db.exec('PRAGMA user_version = 7')
    db.close()
    expect(() => openDatabase(path)).toThrow(DatabaseTooNew)
    expect(shapeOf(path)).toEqual({ version: 7, tables: {} })
  })

  test('every commit reaches the disk before it returns, as the file says', () => {
    const one = openDatabase(file('held.db'))
    expect(one.one('PRAGMA journal_mode')).toMatchObject({ journal_mode: 'wal' })
    expect(one.one('PRAGMA synchronous')).toMatchObject({ synchronous: 2 })
    expect(one.one('PRAGMA foreign_keys')).toMatchObject({ foreign_keys: 1 })
    one.close()
  })

  test('a transaction that throws leaves nothing', () => {
    const db = openDatabase(file('thrown.db'))
    const fail = () =>
      db.transaction(() => {
        db.run("INSERT INTO settings VALUES ('a', 'b')")
        throw new Error('stop')
      })
    expect(fail).toThrow('stop')
    expect(db.all('SELECT * FROM settings')).toEqual([])
    db.close()
  })
})
