/** The command line: `finwright assess | sheets | defaults | schema | serve`. Standard output carries the answer and nothing else. */
import { Command, CommanderError } from 'commander'
import { assessCommand } from './commands/assess.ts'
import { defaultsCommand } from './commands/defaults.ts'
import { schemaCommand } from './commands/schema.ts'
import { serveCommand } from './commands/serve.ts'
import { sheetsCommand } from './commands/sheets.ts'
import { exitCode, issuesAsJson, issuesAsText, Refusal } from './outcome.ts'

/** Runs one command line; resolves to the exit code. */
export async function main(argv: readonly string[]): Promise<number> {
  const json = argv.includes('--json')
  dieQuietlyOnClosedPipe()
  try {
    await program(json).parseAsync([...argv], { from: 'user' })
    return exitCode.done
  } catch (problem) {
    return report(problem, json)
  }
}

function program(json: boolean): Command {
  const root = new Command('finwright')
    .description('From a fin outline and a flight to a signed-off, hand-laid composite fin can.')
    .version('0.1.0')
    .exitOverride()
    .configureOutput({ writeErr: (text) => void (json || process.stderr.write(text)) })
    .showHelpAfterError('(finwright --help lists the commands and their options)')
  root.addCommand(assessCommand().copyInheritedSettings(root))
  root.addCommand(sheetsCommand().copyInheritedSettings(root))
  root.addCommand(defaultsCommand().copyInheritedSettings(root))
  root.addCommand(schemaCommand().copyInheritedSettings(root))
  root.addCommand(serveCommand().copyInheritedSettings(root))
  return root
}

function report(problem: unknown, json: boolean): number {
  if (problem instanceof CommanderError) return reportUsage(problem, json)
  if (problem instanceof Refusal) {
    const count = problem.issues.length
    const head = count === 1 ? 'One thing to mend:' : `${count} things to mend:`
    process.stderr.write(json ? issuesAsJson(problem.issues) : `${head}\n${issuesAsText(problem.issues)}`)
    return exitCode.mend
  }
  process.stderr.write(`Finwright itself failed, which is a fault of ours and not of your plan.\n${stackOf(problem)}\n`)
  return exitCode.fault
}

/** Help and version end well; a wrong option is for the user to mend. */
function reportUsage(problem: CommanderError, json: boolean): number {
  if (problem.exitCode === 0) return exitCode.done
  if (json) {
    const message = problem.message.replace(/^error: /, '')
    const hint = 'finwright --help lists the commands and their options.'
    process.stderr.write(issuesAsJson([{ code: 'cli/usage', path: '', value: problem.code, message, hint }]))
  }
  return exitCode.mend
}

function stackOf(problem: unknown): string {
  return problem instanceof Error ? (problem.stack ?? problem.message) : String(problem)
}

function dieQuietlyOnClosedPipe(): void {
  process.stdout.on('error', (problem: NodeJS.ErrnoException) => {
    if (problem.code === 'EPIPE') process.exit(exitCode.done)
    throw problem
  })
}
