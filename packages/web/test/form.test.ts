/** Every measured field that a can's plan has is shown somewhere on the plan's page, or says here where else it is. */
import { readdirSync, readFileSync } from 'node:fs'
import { fields } from '@finwright/plan/schema/fields.data.ts'
import { parsePath, pathText } from '@finwright/plan/schema/locate.ts'
import { derivationNames } from '@finwright/sheets/derivations/derivations.ts'
import { expect, test } from 'vitest'
import { margins } from '../src/features/margins/margins.ts'
import { form } from '../src/features/plan/form.data.ts'

const shown = new Set(
  form.flatMap(({ groups }) => groups.flatMap(({ rows }) => rows.map(({ path }) => path.join('.')))),
)

/** Lists, tables, wind and checks of a printer have views of their own on the page. */
const elsewhere =
  /^(study|material|plies|stock\.(rolls|layout)|flight\.(thrust|drag|states|history)|fins\.outline\.points|flight\.referenceArea|printing\.(sections|\w+Square)|loads\.wind)\b/

test('every field has its place', () => {
  const left = Object.keys(fields).filter((name) => !elsewhere.test(name) && !shown.has(name))
  expect(left).toEqual([])
  expect(shown.size).toBeGreaterThan(60)
})

test('every number that offers a why has one', () => {
  const folder = new URL('../src/', import.meta.url)
  const sources = readdirSync(folder, { recursive: true })
    .map(String)
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => readFileSync(new URL(name, folder), 'utf8'))
  const asked = sources.flatMap((text) =>
    [...text.matchAll(/why(?::|=) ?'([a-zA-Z]+\.[a-zA-Z]+)'/g)].map(([, name]) => name!),
  )
  expect(asked.length).toBeGreaterThan(15)
  expect([...asked, ...margins.map(({ why }) => why)].filter((name) => !derivationNames.includes(name))).toEqual([])
})

test('a path read from its text is that path', () => {
  for (const path of [
    ['fins', 'core', 'thickness'],
    ['plies', 2, 'stepBack', 'tip'],
    ['stock', 'rolls', 0, 'defects', 1, 2, 0],
  ])
    expect(parsePath(pathText(path))).toEqual(path)
})
