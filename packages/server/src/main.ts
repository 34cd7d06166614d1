/** The server as a program: options, what it says when it starts, how it ends. */
import { spawn } from 'node:child_process'
import { resolve } from 'node:path'
import { parseArgs } from 'node:util'
import type { Issue } from '@finwright/core/issue.ts'
import { dataFolder } from './data-folder.ts'
import { type ServeOptions, type Serving, serve } from './serve.ts'
import { FolderInUse } from './store/hold.ts'
import { DatabaseTooNew } from './store/migrations.ts'

const usage = `Usage: finwright serve [--port N] [--data DIR] [--web DIR] [--demo] [--open]

  --port N    port on 127.0.0.1 (4319, or the next that is free; 0 takes any)
  --data DIR  folder of plans and revisions (${dataFolder()})
  --web DIR   folder of the built app
  --demo      with no plan there yet, open a copy of the demo
  --open      open the browser
`

const usualPort = 4319
const portsTried = 20

interface Places {
  readonly thread: URL
  readonly examples: string
}

interface Options {
  readonly port: number | null
  readonly data: string
  readonly web: string | undefined
  readonly demo: boolean
  readonly open: boolean
}

/** Resolves to the exit code when the server has ended: 0 when asked to, 2 when it could not start. */
export async function main(argv: readonly string[], places: Places): Promise<number> {
  const read = readOptions(argv)
  if (read === 'help') {
    process.stdout.write(usage)
    return 0
  }
  if ('code' in read) return refuse(read)
  try {
    const serving = await started(read, places)
    process.stdout.write(`Finwright runs at ${serving.address}\nPlans are kept in ${read.data}\nCtrl-C ends it.\n`)
    if (read.open) openBrowser(serving.address)
    await untilAsked()
    await serving.close()
    return 0
  } catch (problem) {
    return refuse(startIssue(problem, read))
  }
}

function readOptions(argv: readonly string[]): Options | Issue | 'help' {
  const text = { type: 'string' } as const
  const flag = { type: 'boolean' } as const
  try {
    const { values } = parseArgs({
      args: [...argv],
      options: { port: text, data: text, web: text, demo: flag, open: flag, help: flag },
    })
    if (values.help) return 'help'
    const port = values.port === undefined ? null : Number(values.port)
    if (port !== null && !(Number.isInteger(port) && port >= 0 && port <= 65535)) return badPort(values.port!)
    return {
      port,
      data: values.data === undefined ? dataFolder() : resolve(values.data),
      web: values.web === undefined ? undefined : resolve(values.web),
      demo: values.demo === true,
      open: values.open === true,
    }
  } catch (problem) {
    const hint = 'finwright serve --help lists the options.'
    return { code: 'cli/usage', path: '', value: argv.join(' '), message: (problem as Error).message, hint }
  }
}

/** Without a port of the user's choice the next free one is taken: another program may have the usual one. */
async function started({ port, data, web, demo }: Options, places: Places): Promise<Serving> {
  const options: Omit<ServeOptions, 'port'> = { data, web, demo, ...places }
  if (port !== null) return serve({ ...options, port })
  for (let next = usualPort; ; next += 1) {
    try {
      return await serve({ ...options, port: next })
    } catch (problem) {
      if (codeOf(problem) !== 'EADDRINUSE' || next >= usualPort + portsTried) throw problem
    }
  }
}

const untilAsked = (): Promise<void> =>
  new Promise((end) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => end())
  })

/** The address is our own; nothing of the user's reaches a shell. */
function openBrowser(address: string): void {
  const [program, ...args] =
    process.platform === 'darwin'
      ? ['open', address]
      : process.platform === 'win32'
        ? ['explorer', address]
        : ['xdg-open', address]
  const child = spawn(program!, args, { stdio: 'ignore', detached: true })
  child.on('error', () => process.stderr.write(`No browser could be started; open ${address} yourself.\n`))
  child.unref()
}

const codeOf = (problem: unknown): string => (problem as { code?: string }).code ?? ''

function startIssue(problem: unknown, { port, data }: Options): Issue {
  if (problem instanceof FolderInUse) {
    return {
      code: 'server/data-in-use',
      path: '--data',
      value: data,
      message: `Finwright runs already with the folder ${data}: ${problem.address}`,
      hint: 'Open that address, end that one, or give another folder with --data.',
    }
  }
  if (problem instanceof DatabaseTooNew) {
    return {
      code: 'server/data-too-new',
      path: '--data',
      value: problem.version,
      message: `The data in ${data} was written by a newer Finwright (version ${problem.version} of its database).`,
      hint: 'Update this one, or give another folder with --data.',
    }
  }
  const code = codeOf(problem)
  if (code === 'EADDRINUSE' || code === 'EACCES') {
    if ((problem as { syscall?: string }).syscall === 'listen') return portTaken(port)
  }
  if (code.startsWith('E') || code.startsWith('SQLITE_')) return dataUnusable(data, problem as Error)
  throw problem
}

const badPort = (value: string): Issue => ({
  code: 'cli/usage',
  path: '--port',
  value,
  message: `--port is '${value}'; it must be a whole number from 0 to 65535.`,
  hint: 'Leave it out to take the usual one.',
})

const portTaken = (port: number | null): Issue => ({
  code: 'server/port-taken',
  path: '--port',
  value: port,
  message: `Port ${port ?? usualPort} of 127.0.0.1 cannot be had: another program uses it, or the system does not allow it.`,
  hint: 'Give another one with --port, or leave it out.',
})

const dataUnusable = (data: string, { message }: Error): Issue => ({
  code: 'server/data-unusable',
  path: '--data',
  value: data,
  message: `The folder ${data} cannot be used: ${message}.`,
  hint: 'Give another folder with --data, or see to its permissions.',
})

function refuse({ message, hint }: Issue): number {
  process.stderr.write(`${message}\n  ${hint}\n`)
  return 2
}
