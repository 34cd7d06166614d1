/**
 * Reads JSON (RFC 8259) and says where it stops being JSON, by line and column, and which names stand twice in one object;
 * the language's own reader says neither in a way that is the same everywhere.
 */
import type { Issue } from '@finwright/core/issue.ts'
import { type Path, pathText } from '../schema/locate.ts'

export type JsonReading =
  | { readonly ok: true; readonly value: unknown; readonly repeated: readonly Issue[] }
  | { readonly ok: false; readonly issue: Issue }

export function readJson(text: string): JsonReading {
  const reader: Reader = { text, at: text.startsWith('\uFEFF') ? 1 : 0, repeated: [] }
  try {
    const value = readValue(reader, [])
    skipSpace(reader)
    if (reader.at < text.length) stop(reader, 'something follows after the end of the plan')
    return { ok: true, value, repeated: reader.repeated }
  } catch (error) {
    if (!(error instanceof Stop)) throw error
    return { ok: false, issue: syntaxIssue(text, error) }
  }
}

interface Reader {
  readonly text: string
  at: number
  readonly repeated: Issue[]
}

/** Ends the reading from any depth; never leaves this file. */
class Stop extends Error {
  readonly at: number
  constructor(at: number, message: string) {
    super(message)
    this.at = at
  }
}

function stop({ at }: Reader, message: string): never {
  throw new Stop(at, message)
}

const deepest = 40

function readValue(reader: Reader, path: Path): unknown {
  skipSpace(reader)
  if (path.length > deepest) stop(reader, `the plan is nested deeper than ${deepest} levels`)
  const character = reader.text[reader.at]
  if (character === '{') return readObject(reader, path)
  if (character === '[') return readArray(reader, path)
  if (character === '"') return readString(reader)
  return readWord(reader)
}

function readObject(reader: Reader, path: Path): Record<string, unknown> {
  const object: Record<string, unknown> = {}
  reader.at += 1
  for (let first = true; ; first = false) {
    skipSpace(reader)
    if (first && taken(reader, '}')) return object
    if (reader.text[reader.at] !== '"') stop(reader, 'a name in double quotes is expected here')
    const key = readString(reader)
    skipSpace(reader)
    if (!taken(reader, ':')) stop(reader, `a colon is expected after "${key}"`)
    const value = readValue(reader, [...path, key])
    if (Object.hasOwn(object, key)) reader.repeated.push(repeatedIssue([...path, key], value))
    Object.defineProperty(object, key, { value, enumerable: true, configurable: true, writable: true })
    skipSpace(reader)
    if (taken(reader, '}')) return object
    if (!taken(reader, ',')) stop(reader, `a comma or a closing brace is expected after the value of "${key}"`)
  }
}

function readArray(reader: Reader, path: Path): unknown[] {
  const list: unknown[] = []
  reader.at += 1
  skipSpace(reader)
  if (taken(reader, ']')) return list
  for (;;) {
    list.push(readValue(reader, [...path, list.length]))
    skipSpace(reader)
    if (taken(reader, ']')) return list
    if (!taken(reader, ',')) stop(reader, 'a comma or a closing bracket is expected here')
  }
}

// biome-ignore lint/suspicious/noControlCharactersInRegex: JSON forbids control characters inside a string
const stringAt = /"(?:[^"\\\u0000-\u001f]|\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4}))*"/y
const wordAt = /true|false|null|-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?/y
const spaceAt = /[ \t\r\n]*/y

function readString(reader: Reader): string {
  const token = tokenAt(reader, stringAt)
  if (token === null) stop(reader, 'this text has no closing quote on its line, or a character that must be escaped')
  return JSON.parse(token) as string
}

function readWord(reader: Reader): unknown {
  const token = tokenAt(reader, wordAt)
  if (token === null) {
    const ended = reader.at >= reader.text.length
    stop(
      reader,
      ended
        ? 'the plan ends too early'
        : 'a value is expected here: a text in double quotes, a number, a list or an object',
    )
  }
  return JSON.parse(token)
}

function tokenAt(reader: Reader, pattern: RegExp): string | null {
  pattern.lastIndex = reader.at
  const match = pattern.exec(reader.text)
  if (match === null) return null
  reader.at += match[0].length
  return match[0]
}

const skipSpace = (reader: Reader): void => void tokenAt(reader, spaceAt)

function taken(reader: Reader, character: string): boolean {
  if (reader.text[reader.at] !== character) return false
  reader.at += 1
  return true
}

function syntaxIssue(text: string, { at, message }: Stop): Issue {
  const before = text.slice(0, at).split('\n')
  const line = before.length
  const column = before.at(-1)!.length + 1
  const near = text.slice(at, at + 20).split('\n')[0]!
  return {
    code: 'json/syntax',
    path: '',
    value: near,
    message: `The plan is no JSON: line ${line}, column ${column}, at '${near}': ${message}.`,
    hint: 'Correct that place. Names and texts stand in double quotes, entries are separated by commas, no comma after the last.',
  }
}

const repeatedIssue = (path: Path, value: unknown): Issue => ({
  code: 'json/repeated-name',
  path: pathText(path),
  value,
  message: `The name '${path.at(-1)}' stands twice in the same object; each may stand once.`,
  hint: 'Remove one of the two.',
})
