/**
 * Runs the benchmarks: bundles each bench/*.bench.ts, and those of the app in packages/web/bench, with esbuild and runs it in a process of its own, on one core where the
 * system can pin a process to one.
 *
 *   node bench/run.mjs            all
 *   node bench/run.mjs modes      those whose name contains `modes`
 */
import { spawnSync } from 'node:child_process'
import { mkdirSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const here = dirname(fileURLToPath(import.meta.url))
const wanted = process.argv[2] ?? ''
const folders = [here, join(here, '..', 'packages', 'web', 'bench')]
const found = folders.flatMap((folder) => readdirSync(folder).map((name) => ({ folder, name })))
const names = found.filter(({ name }) => name.endsWith('.bench.ts') && name.includes(wanted))
if (names.length === 0) {
  console.error(`no benchmark's name contains '${wanted}'`)
  process.exit(2)
}
// Inside the workspace, so that packages left out of the bundle are found.
const out = join(here, '..', 'build', 'bench')
mkdirSync(out, { recursive: true })

/** Those that time a process as a user starts it. */
const unpinned = ['assess.bench.ts', 'app.bench.ts']

/** Drives a browser from its own files. */
const external = ['playwright-core']

let failed = false
for (const { folder, name } of names) {
  const outfile = join(out, name.replace('.ts', '.mjs'))
  await build({
    entryPoints: [join(folder, name)],
    ...{ outfile, bundle: true, platform: 'node', format: 'esm', packages: 'bundle', logLevel: 'error', external },
  })
  const pin =
    !unpinned.includes(name) && spawnSync('taskset', ['-c', '0', 'true']).status === 0 ? ['taskset', '-c', '0'] : []
  const [command, ...options] = [...pin, process.execPath, outfile]
  console.log(`\n${name.replace('.bench.ts', '')}${pin.length > 0 ? ' (pinned to one core)' : ''}`)
  const run = spawnSync(command, options, { stdio: 'inherit' })
  failed ||= run.status !== 0
}
process.exit(failed ? 1 : 0)
