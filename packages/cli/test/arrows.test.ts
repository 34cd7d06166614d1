/** The architecture, held by reading every import: dependencies point one way, and core stays pure. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, normalize, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import { describe, expect, test } from 'vitest'

const packagesFolder = join(dirname(fileURLToPath(import.meta.url)), '..', '..')

/** A package may import itself and those before it; an app all of these and no other app. */
const packageOrder = ['core', 'plan', 'sheets']
const apps = ['cli', 'server', 'web'].filter((app) => existsSync(join(packagesFolder, app, 'src')))

/** Inside core a folder may import itself and those before it. */
const coreOrder = [
  'numeric',
  'geometry',
  'material',
  'laminate',
  'plate',
  'air',
  'flight',
  'flutter',
  'strength',
  'bond',
  'pattern',
  'nest',
  'resin',
  'assess',
]

interface SourceFile {
  readonly name: string
  readonly pkg: string
  readonly text: string
}

const files: readonly SourceFile[] = [...packageOrder, ...apps].flatMap((pkg) =>
  readdirSync(join(packagesFolder, pkg, 'src'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name))
    .map((entry) => {
      const path = join(entry.parentPath, entry.name)
      return { name: relative(packagesFolder, path).split(sep).join('/'), pkg, text: readFileSync(path, 'utf8') }
    }),
)

/** Every specifier of a static, type-only or dynamic import, and of a re-export. */
function specifiers(text: string): string[] {
  const pattern = /\b(?:from|import)\s*\(?\s*['"]([^'"]+)['"]/g
  return [...text.matchAll(pattern)].map((match) => match[1] as string)
}

/** The file a specifier leads to, as `core/src/…`, or null for a library. */
function target({ name }: SourceFile, specifier: string): string | null {
  if (specifier.startsWith('.'))
    return normalize(join(dirname(name), specifier))
      .split(sep)
      .join('/')
  const own = /^@finwright\/(\w+)\/(.+)$/.exec(specifier)
  return own === null ? null : `${own[1]}/src/${own[2]}`
}

function upwardImport(from: string, to: string): boolean {
  const [fromPackage, , fromFolder] = from.split('/') as [string, string, string]
  const [toPackage, , toFolder] = to.split('/') as [string, string, string]
  if (fromPackage === toPackage && apps.includes(fromPackage)) return false
  if (apps.includes(toPackage)) return true
  if (apps.includes(fromPackage)) return false
  if (fromPackage !== toPackage) return packageOrder.indexOf(toPackage) > packageOrder.indexOf(fromPackage)
  if (fromPackage !== 'core') return false
  return coreOrder.indexOf(toFolder) > coreOrder.indexOf(fromFolder)
}

describe('architecture', () => {
  test('is read from real files', () => {
    expect(files.length).toBeGreaterThan(20)
    expect(new Set(files.map(({ pkg }) => pkg)).size).toBe(packageOrder.length + apps.length)
    expect(apps).toContain('server')
  })

  test('every import points downward', () => {
    const upward = files.flatMap((file) =>
      specifiers(file.text)
        .map((specifier) => target(file, specifier))
        .filter((to): to is string => to !== null && upwardImport(file.name, to))
        .map((to) => `${file.name} imports ${to}`),
    )
    expect(upward).toEqual([])
  })

  test('an upward import would be noticed', () => {
    expect(upwardImport('core/src/plate/modes.ts', 'core/src/flutter/pk.ts')).toBe(true)
    expect(upwardImport('core/src/plate/modes.ts', 'plan/src/schema.ts')).toBe(true)
    expect(upwardImport('core/src/flutter/pk.ts', 'core/src/plate/modes.ts')).toBe(false)
    expect(upwardImport('web/src/App.tsx', 'cli/src/main.ts')).toBe(true)
    expect(upwardImport('sheets/src/sheet.ts', 'web/src/pages.ts')).toBe(true)
    expect(upwardImport('web/src/App.tsx', 'sheets/src/sheet.ts')).toBe(false)
    expect(upwardImport('server/src/serve.ts', 'sheets/src/package.ts')).toBe(false)
    expect(upwardImport('server/src/serve.ts', 'cli/src/main.ts')).toBe(true)
    expect(upwardImport('web/src/main.tsx', 'server/src/app.ts')).toBe(true)
    expect(upwardImport('plan/src/protocol/wire.ts', 'server/src/app.ts')).toBe(true)
    expect(specifiers("import type { A } from '../b.ts'\nexport * from './c.ts'\nawait import('d')")).toHaveLength(3)
  })

  test('folders of core are those of the design', () => {
    const folders = files.filter(({ pkg, name }) => pkg === 'core' && name.split('/').length > 3)
    expect(folders.map(({ name }) => name.split('/')[2]).filter((f) => !coreOrder.includes(f as string))).toEqual([])
  })

  test('core and plan touch no file system, clock or unseeded randomness', () => {
    const impure = /from 'node:|\bMath\.random\b|\bDate\.now\b|\bnew Date\(\)|\bperformance\.now\b/
    const found = files.filter(({ pkg, text }) => (pkg === 'core' || pkg === 'plan') && impure.test(text))
    expect(found.map(({ name }) => name)).toEqual([])
  })

  test('what the browser loads imports nothing of Node: core, plan, and the drawing of pages', () => {
    const ofNode = /from 'node:|import\('node:/
    const drawing = ({ name }: SourceFile) => !/^sheets\/src\/(package|drawing\/(pdf|font-files))\.ts$/.test(name)
    const browser = files.filter(
      (file) => ['core', 'plan'].includes(file.pkg) || (file.pkg === 'sheets' && drawing(file)),
    )
    expect(browser.filter(({ text }) => ofNode.test(text)).map(({ name }) => name)).toEqual([])
  })

  test('files stay short: 500 lines at most, tables of data apart', () => {
    const long = files.filter(({ name, text }) => !name.endsWith('.data.ts') && text.split('\n').length > 500)
    expect(long.map(({ name }) => name)).toEqual([])
  })

  test('nothing is called after its lack of a name', () => {
    const vague = /(^|\/)(utils?|common|helpers?|misc|types)(\/|\.ts$)/
    expect(files.filter(({ name }) => vague.test(name)).map(({ name }) => name)).toEqual([])
  })
})
