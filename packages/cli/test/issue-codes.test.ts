/** Every issue code in the sources is listed in the manual. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { root } from './command.ts'

const sources = ['core', 'plan', 'sheets', 'cli', 'server'].flatMap((name) => {
  const folder = join(root, 'packages', name, 'src')
  return readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => file.endsWith('.ts'))
    .map((file) => readFileSync(join(folder, file), 'utf8'))
})

const manual = ['plan-file.md', 'issue-codes.md']
  .map((page) => readFileSync(join(root, 'docs', page), 'utf8'))
  .join('\n')

const used = [
  ...new Set(sources.flatMap((text) => [...text.matchAll(/\bcode: '([a-z-]+\/[a-z-]+)'/g)].map((match) => match[1]))),
]

test('codes are found in the sources', () => {
  expect(used.length).toBeGreaterThan(80)
})

test('every code is listed in the manual', () => {
  expect(used.filter((code) => !manual.includes(`\`${code}\``)).sort()).toEqual([])
})
