/** `finwright serve`: hands over to the server, a program of its own, and ends as it ends. */
import { spawn } from 'node:child_process'
import { createRequire } from 'node:module'
import { Command } from 'commander'

interface Options {
  readonly port?: string
  readonly data?: string
  readonly web?: string
  readonly demo?: boolean
  readonly open?: boolean
}

export function serveCommand(): Command {
  return new Command('serve')
    .description('run the local server for the app, on this machine alone')
    .option('--port <n>', 'port on 127.0.0.1; 0 takes any')
    .option('--data <folder>', 'where plans and revisions are kept')
    .option('--web <folder>', 'folder of the built app')
    .option('--demo', 'with no plan there yet, open a copy of the demo')
    .option('--open', 'open the browser')
    .action(run)
}

async function run({ port, data, web, demo, open }: Options): Promise<void> {
  const program = createRequire(import.meta.url).resolve('@finwright/server/program')
  const texts = Object.entries({ port, data, web }).flatMap(([name, text]) =>
    text === undefined ? [] : [`--${name}`, text],
  )
  const flags = Object.entries({ demo, open }).flatMap(([name, set]) => (set ? [`--${name}`] : []))
  const child = spawn(process.execPath, [program, ...texts, ...flags], { stdio: 'inherit' })
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => child.kill(signal))
  const code = await new Promise<number | null>((resolve, reject) => {
    child.once('exit', resolve)
    child.once('error', reject)
  })
  process.exit(code ?? 1)
}
