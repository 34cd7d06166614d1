/**
 * Modes and tip load of two fins by an independent finite-element solver, CalculiX (Debian: calculix-ccx), stored for
 * packages/core/checks/calculix-plate. Not needed to run the tests.
 *
 *   node scripts/calculix-plate.mjs
 *
 * An aluminium plate and the demo fin of examples/demo.fincan.json, as solids of 20-node bricks, on two meshes each. The
 * demo's laminates come from our own code, so that both models hold the same material; geometry, mesh, elements and solver
 * are apart from the method under test.
 */
import { spawnSync } from 'node:child_process'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'

const here = dirname(fileURLToPath(import.meta.url))
const root = join(here, '..')
const outfile = join(root, 'build', 'calculix-plate', 'run.mjs')
await build({
  entryPoints: [join(here, 'calculix-plate', 'run.mjs')],
  ...{ outfile, bundle: true, platform: 'node', format: 'esm', packages: 'bundle', logLevel: 'error' },
})
process.exit(spawnSync(process.execPath, [outfile], { cwd: root, stdio: 'inherit' }).status ?? 1)
