/** Every relative link in the documentation leads to a file that is there. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join, relative } from 'node:path'
import { describe, expect, test } from 'vitest'
import { root } from './command.ts'

const pages = [
  join(root, 'README.md'),
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join(root, 'docs', name)),
]

const linksOf = (text: string): string[] =>
  [...text.matchAll(/\]\(([^)\s]+)\)/g)]
    .map((match) => (match[1] as string).split('#')[0] as string)
    .filter((link) => link !== '' && !/^[a-z]+:/.test(link))

describe('documentation', () => {
  test('has pages and links', () => {
    expect(pages.length).toBeGreaterThan(10)
    expect(pages.flatMap((page) => linksOf(readFileSync(page, 'utf8'))).length).toBeGreaterThan(5)
  })

  test.each(pages.map((page) => [relative(root, page), page]))('%s leads nowhere wrong', (_, page) => {
    const broken = linksOf(readFileSync(page, 'utf8')).filter((link) => !existsSync(join(dirname(page), link)))
    expect(broken).toEqual([])
  })
})
