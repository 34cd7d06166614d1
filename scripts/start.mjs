/** Builds the app when it is older than its sources, then runs the server; options go to the server. */
import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, statSync } from 'node:fs'
import { join } from 'node:path'

const app = 'packages/web'
const built = join(app, 'dist')

if (existsSync(join(app, 'package.json')) && isStale()) {
  console.error('Building the app …')
  const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm'
  const { status } = spawnSync(npm, ['run', 'build', '--workspace', app], { stdio: ['ignore', 2, 2] })
  if (status !== 0) {
    console.error('The app could not be built; what stands above says why.')
    process.exit(1)
  }
}
const web = existsSync(built) ? ['--web', built] : []
const server = 'packages/server/bin/finwright-server.js'
const { status } = spawnSync(process.execPath, [server, '--demo', ...web, ...process.argv.slice(2)], {
  stdio: 'inherit',
})
process.exit(status ?? 0)

/** A bundle older than any source of the packages it is made of. */
function isStale() {
  const index = join(built, 'index.html')
  if (!existsSync(index)) return true
  const made = statSync(index).mtimeMs
  return ['core', 'plan', 'sheets', 'web'].some((name) =>
    readdirSync(join('packages', name, 'src'), { recursive: true, withFileTypes: true }).some(
      (file) => file.isFile() && statSync(join(file.parentPath ?? file.path, file.name)).mtimeMs > made,
    ),
  )
}
