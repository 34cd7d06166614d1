/** Runs the command line as a user's shell would. */
import { spawnSync } from 'node:child_process'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

export const root = join(dirname(fileURLToPath(import.meta.url)), '..', '..', '..')

export interface Run {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

export function finwright(...args: readonly string[]): Run {
  const program = join(root, 'packages', 'cli', 'bin', 'finwright.js')
  const options = { cwd: root, encoding: 'utf8', maxBuffer: 1 << 28 } as const
  const { status, stdout, stderr } = spawnSync(process.execPath, [program, ...args], options)
  return { code: status, out: stdout, err: stderr }
}
