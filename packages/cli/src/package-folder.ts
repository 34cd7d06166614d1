/**
 * Writes the files of a package so that a folder never holds half of one: everything goes to a hidden folder beside its
 * place first, then moves in. Files of an earlier package that the new one does not have are removed; nothing else is.
 */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import { Refusal } from './outcome.ts'

export interface PackageFile {
  readonly path: string
  readonly bytes: Uint8Array | string
}

const listName = 'contents.json'

/** Throws `Refusal` when the folder cannot be written; what stood in it is untouched then. */
export function writePackage(out: string, files: readonly PackageFile[]): void {
  const folder = resolve(out)
  try {
    mkdirSync(folder, { recursive: true })
    const fresh = mkdtempSync(join(folder, '.fresh-'))
    try {
      const list = `${JSON.stringify(files.map(({ path }) => path).sort(), null, 1)}\n`
      const all = [...files, { path: listName, bytes: list }]
      for (const { path, bytes } of all) writeInto(fresh, path, bytes)
      const before = formerFiles(folder)
      for (const { path } of all) moveInto(fresh, folder, path)
      for (const path of before)
        if (!all.some((file) => file.path === path)) rmSync(join(folder, path), { force: true })
    } finally {
      rmSync(fresh, { recursive: true, force: true })
    }
  } catch (problem) {
    throw new Refusal([unwritable(out, problem as NodeJS.ErrnoException)])
  }
}

function writeInto(folder: string, path: string, bytes: Uint8Array | string): void {
  const place = join(folder, path)
  mkdirSync(dirname(place), { recursive: true })
  writeFileSync(place, bytes)
}

function moveInto(from: string, to: string, path: string): void {
  mkdirSync(dirname(join(to, path)), { recursive: true })
  renameSync(join(from, path), join(to, path))
}

/** What the folder's list of contents names, as far as it names files inside the folder. */
function formerFiles(folder: string): string[] {
  const list = join(folder, listName)
  if (!existsSync(list)) return []
  try {
    const names: unknown = JSON.parse(readFileSync(list, 'utf8'))
    const inside = (name: unknown): name is string =>
      typeof name === 'string' && resolve(folder, name).startsWith(`${folder}/`)
    return Array.isArray(names) ? names.filter(inside) : []
  } catch {
    return []
  }
}

function unwritable(out: string, { code, message }: NodeJS.ErrnoException) {
  const reasons: { readonly [code: string]: string } = {
    EACCES: 'the system does not allow writing there',
    EPERM: 'the system does not allow writing there',
    EROFS: 'the disk is read-only',
    ENOTDIR: 'part of the path is a file, not a folder',
    EEXIST: 'a file of that name stands there',
    ENOSPC: 'the disk is full',
  }
  return {
    code: 'sheets/unwritable',
    path: '--out',
    value: out,
    message: `The folder ${out} cannot be written: ${reasons[code ?? ''] ?? message}.`,
    hint: 'Give another folder with --out, or make room there.',
  }
}
