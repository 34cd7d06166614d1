/** `finwright defaults PLAN`: the plan with every default written in, and where each comes from. */
import { Command } from 'commander'
import { loadPlan } from '../plan-file.ts'

export function defaultsCommand(): Command {
  return new Command('defaults')
    .description('print the plan with every default written in; where each comes from goes to standard error')
    .argument('<plan>', 'the plan file (*.fincan.json)')
    .action((file: string) => {
      const { complete, defaulted } = loadPlan(file)
      process.stdout.write(`${JSON.stringify(complete, null, 2)}\n`)
      for (const { path, value, source } of defaulted) process.stderr.write(`${path} = ${value} (${source})\n`)
    })
}
