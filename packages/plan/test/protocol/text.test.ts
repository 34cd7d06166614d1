/** Plans as text: the examples come out as they are; reading back gives the same; the browser can build all of it. */
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { importedPlan } from '../../src/protocol/import.ts'
import { planText } from '../../src/text/write-plan.ts'
import { exampleNames, exampleText } from '../demo.ts'

describe('a plan as text', () => {
  test.each(exampleNames)('%s is written as it stands', (name) => {
    const text = exampleText(name)
    /** A plain number is kept as a number: 1.0 is 1. */
    const plain = text.replace(/\b(\d+)\.0(?=[,\]}]| })/g, '$1')
    expect(planText(JSON.parse(text))).toBe(plain)
  })

  test('any JSON reads back the same', () => {
    fc.assert(
      fc.property(fc.jsonValue({ depthSize: 'medium' }), (value) => {
        expect(JSON.parse(planText(value))).toEqual(JSON.parse(JSON.stringify(value)))
      }),
    )
  })
})

describe('a plan file taken in', () => {
  const codes = (text: string) => {
    const read = importedPlan(text)
    return read.ok ? [] : read.issues.map(({ code }) => code)
  }

  test('is told from what is none', () => {
    expect(codes(exampleText('demo.fincan.json'))).toEqual([])
    expect(codes('time (s), thrust (N)\n')).toEqual(['json/syntax'])
    expect(codes('{}')).toEqual(['plan/format'])
    expect(codes('{"format":"finwright/plan","version":9}')).toEqual(['plan/version'])
    expect(codes(exampleText('demo.fincan.json').replace('"2.0 mm"', '"2.0"'))).toEqual(['quantity/missing-unit'])
    expect(codes(' '.repeat(2 ** 21 + 1))).toEqual(['command/plan-too-long'])
  })
})

test('protocol, plan and core build for the browser, without anything of Node', async () => {
  const source = (name: string) => fileURLToPath(new URL(`../../src/protocol/${name}.ts`, import.meta.url))
  const { outputFiles, metafile } = await build({
    entryPoints: ['commands', 'draft', 'import', 'wire', 'work'].map(source),
    bundle: true,
    splitting: true,
    outdir: '/none',
    format: 'esm',
    platform: 'browser',
    write: false,
    metafile: true,
    logLevel: 'silent',
  })
  expect(outputFiles.length).toBeGreaterThanOrEqual(5)
  expect(Object.keys(metafile.inputs).filter((name) => name.startsWith('packages/core/src/')).length).toBeGreaterThan(
    100,
  )
  for (const { text } of outputFiles)
    expect(text).not.toMatch(/from "node:|require\("(node:|fs|path)|\bprocess\.(env|cwd)/)
})
