/** Bundles the command line into one folder of JavaScript, so that a fresh process starts quickly. */
import { existsSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const here = dirname(fileURLToPath(import.meta.url))
const packages = join(here, '..')
const dist = join(here, 'dist')
const entry = join(dist, 'main.js')

/** Loaded from node_modules at run time: they read data files of their own. */
const external = ['pdfkit', 'esbuild']

/** Libraries in the CommonJS format ask for `require`, which a module does not have. */
const bundledRequire =
  "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);"

/** Path of a bundle that is no older than any source file. */
export async function currentBundle() {
  if (!existsSync(entry) || newestSource() > statSync(entry).mtimeMs) await bundle()
  return entry
}

async function bundle() {
  const { build } = await import('esbuild')
  const fresh = mkdtempSync(join(here, '.dist-'))
  try {
    await build(options(fresh))
    replace(fresh)
  } finally {
    rmSync(fresh, { recursive: true, force: true })
  }
}

const options = (outdir) => ({
  entryPoints: [join(here, 'src', 'main.ts')],
  outdir,
  bundle: true,
  splitting: true,
  format: 'esm',
  platform: 'node',
  target: 'node20',
  external,
  minify: false,
  legalComments: 'none',
  logLevel: 'error',
  banner: { js: bundledRequire },
})

/** Moves the fresh bundle into place; another process that got there first wins. */
function replace(fresh) {
  const old = `${fresh}-old`
  try {
    if (existsSync(dist)) renameSync(dist, old)
    renameSync(fresh, dist)
  } catch (problem) {
    if (!existsSync(entry)) throw problem
    rmSync(fresh, { recursive: true, force: true })
  }
  rmSync(old, { recursive: true, force: true })
}

function newestSource() {
  let newest = statSync(join(here, 'build.js')).mtimeMs
  for (const name of ['core', 'plan', 'sheets', 'cli']) {
    for (const file of readdirSync(join(packages, name, 'src'), { recursive: true, withFileTypes: true })) {
      if (file.isFile()) newest = Math.max(newest, statSync(join(file.parentPath ?? file.path, file.name)).mtimeMs)
    }
  }
  return newest
}
