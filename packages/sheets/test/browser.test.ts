/** The pages of every document can be drawn in the browser: nothing of Node is in the way. */
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { expect, test } from 'vitest'

test('documents and their SVG build for the browser', async () => {
  const source = (name: string) => fileURLToPath(new URL(`../src/${name}.ts`, import.meta.url))
  const { outputFiles } = await build({
    entryPoints: ['documents', 'answers', 'printer', 'drawing/svg'].map(source),
    bundle: true,
    splitting: true,
    outdir: '/none',
    format: 'esm',
    platform: 'browser',
    write: false,
    logLevel: 'silent',
  })
  expect(outputFiles.length).toBeGreaterThanOrEqual(4)
  for (const { text } of outputFiles)
    expect(text).not.toMatch(/from "node:|require\("(node:|fs|path)|\bprocess\.(env|cwd)/)
})
