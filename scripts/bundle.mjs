/**
 * Bundles a program of the workspace into one folder of JavaScript, so that a fresh process starts quickly. Made when it is
 * missing or older than a source; two processes that make it at once do not disturb each other.
 */
import { existsSync, mkdtempSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const packages = join(dirname(fileURLToPath(import.meta.url)), '..', 'packages')

/** Libraries in the CommonJS format ask for `require`, which a module does not have. */
const bundledRequire =
  "import { createRequire as makeRequire } from 'node:module'; const require = makeRequire(import.meta.url);"

/**
 * Folder of a bundle that is no older than any source of the named packages.
 *
 * `home`: package that is bundled; its `dist` holds the bundle. `entries`: names of the bundle's files and their sources.
 * `external`: loaded from node_modules at run time, because they read files of their own.
 */
export async function currentBundle({ home, sources, entries, external }) {
  const dist = join(packages, home, 'dist')
  const first = join(dist, `${Object.keys(entries)[0]}.js`)
  if (!existsSync(first) || newestSource(home, sources) > statSync(first).mtimeMs) {
    await bundle({ home, dist, first, entries, external })
  }
  return dist
}

async function bundle({ home, dist, first, entries, external }) {
  const { build } = await import('esbuild')
  const fresh = mkdtempSync(join(packages, home, '.dist-'))
  try {
    await build({
      entryPoints: Object.fromEntries(
        Object.entries(entries).map(([name, source]) => [name, join(packages, home, 'src', source)]),
      ),
      outdir: fresh,
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
    replace(fresh, dist, first)
  } finally {
    rmSync(fresh, { recursive: true, force: true })
  }
}

/** Moves the fresh bundle into place; another process that got there first wins. */
function replace(fresh, dist, first) {
  const old = `${fresh}-old`
  try {
    if (existsSync(dist)) renameSync(dist, old)
    renameSync(fresh, dist)
  } catch (problem) {
    if (!existsSync(first)) throw problem
    rmSync(fresh, { recursive: true, force: true })
  }
  rmSync(old, { recursive: true, force: true })
}

function newestSource(home, sources) {
  const own = [join(packages, home, 'build.js'), fileURLToPath(import.meta.url)]
  let newest = Math.max(...own.map((file) => statSync(file).mtimeMs))
  for (const name of sources) {
    for (const file of readdirSync(join(packages, name, 'src'), { recursive: true, withFileTypes: true })) {
      if (file.isFile()) newest = Math.max(newest, statSync(join(file.parentPath ?? file.path, file.name)).mtimeMs)
    }
  }
  return newest
}
