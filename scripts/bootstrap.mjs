/**
 * The door of the repository: needs nothing but Node, installs what a fresh checkout lacks, then hands over.
 *
 *   node scripts/bootstrap.mjs start | demo | test | check | bench
 */
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')

/** Debian package for each program that only the tests need. */
const testPrograms = [
  { program: 'pdftoppm', debian: 'poppler-utils', why: 'renders the printed sheets to measure them' },
  {
    program: process.env.FINWRIGHT_CHROMIUM ?? 'chromium',
    debian: 'chromium',
    why: 'opens the app to try it; FINWRIGHT_CHROMIUM may name another one',
  },
]

const tasks = {
  start: { programs: [], run: ['scripts/start.mjs'] },
  demo: { programs: [], run: ['scripts/demo.mjs'] },
  test: { programs: testPrograms, run: ['scripts/test.mjs'] },
  check: { programs: [], run: ['scripts/test.mjs', '--quick'] },
  bench: { programs: [], run: ['bench/run.mjs'] },
}

const [name, ...rest] = process.argv.slice(2)
const task = tasks[name]
if (task === undefined) stop(`usage: node scripts/bootstrap.mjs ${Object.keys(tasks).join(' | ')}`)
requireNode()
installPackages()
for (const program of task.programs) installProgram(program)
process.exit(run(process.execPath, [...task.run, ...rest]))

function requireNode() {
  const [major, minor] = process.versions.node.split('.').map(Number)
  if (major < 20 || (major === 20 && minor < 11)) {
    stop(`Finwright needs Node 20.11 or later; this is ${process.versions.node}. Install a later Node and try again.`)
  }
}

/** `npm ci` when the lock file differs from the one last installed. */
function installPackages() {
  const lock = createHash('sha256')
    .update(readFileSync(join(root, 'package-lock.json')))
    .digest('hex')
  const stamp = join(root, 'node_modules', '.finwright-installed')
  if (existsSync(stamp) && readFileSync(stamp, 'utf8') === lock) return
  console.error('Installing the npm packages this checkout lacks …')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const code = run(npm, ['ci', '--no-audit', '--no-fund', '--loglevel=error'], 2)
  if (code !== 0) stop('npm could not install the packages. Check the connection to the npm registry and try again.')
  writeFileSync(stamp, lock)
}

function installProgram({ program, debian, why }) {
  if (available(program)) return
  const missing = `The tests need ${program}, which ${why}; it comes with the Debian package ${debian}.`
  if (process.getuid?.() !== 0 || !available('apt-get')) {
    stop(`${missing} Install it (on Debian: sudo apt-get install ${debian}) and try again.`)
  }
  console.error(`${missing} Installing it …`)
  const options = ['-y', '-qq', '-o', 'Dpkg::Use-Pty=0']
  if (run('apt-get', ['update', '-qq'], 2) !== 0 || run('apt-get', ['install', ...options, debian], 2) !== 0) {
    stop(`apt-get could not install ${debian}. Install it by hand and try again.`)
  }
}

function available(program) {
  return spawnSync(program, [program.includes('chrom') ? '--version' : '-v'], { stdio: 'ignore' }).error === undefined
}

/** Runs a program from the repository's root; its standard output goes to ours, or to standard error with `out` 2. */
function run(program, args, out = 1) {
  const { status, error } = spawnSync(program, args, { cwd: root, stdio: ['ignore', out, 2] })
  if (error !== undefined) stop(`${program} did not start: ${error.message}`)
  return status ?? 1
}

function stop(message) {
  console.error(message)
  process.exit(2)
}
