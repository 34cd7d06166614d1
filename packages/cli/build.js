/** The command line's bundle. */
import { join } from 'node:path'
import { currentBundle as bundleOf } from '../../scripts/bundle.mjs'

/** Path of a bundle that is no older than any source file. */
export async function currentBundle() {
  const dist = await bundleOf({
    home: 'cli',
    sources: ['core', 'plan', 'sheets', 'cli'],
    entries: { main: 'main.ts' },
    external: ['pdfkit', 'esbuild'],
  })
  return join(dist, 'main.js')
}
