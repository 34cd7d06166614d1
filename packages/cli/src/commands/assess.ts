/** `finwright assess PLAN [--json]`: the assessment, as one JSON object or as the answers in words. */
import { assess } from '@finwright/core/assess/assess.ts'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { Command } from 'commander'
import { issuesAsText, Refusal } from '../outcome.ts'
import { loadPlan } from '../plan-file.ts'

export function assessCommand(): Command {
  return new Command('assess')
    .description('assess a plan: flight, fin, structure, flutter, strength, patterns, cloth and resin')
    .argument('<plan>', 'the plan file (*.fincan.json)')
    .option('--json', 'print the whole assessment as one JSON object')
    .action((file: string, options: { json?: boolean }) => {
      const assessment = assessFile(file)
      process.stdout.write(options.json ? `${JSON.stringify(assessment, null, 1)}\n` : inWords(assessment))
      if (!options.json && assessment.warnings.length > 0) {
        process.stderr.write(`\nTo look at:\n${issuesAsText(assessment.warnings)}`)
      }
    })
}

export function assessFile(file: string): Assessment {
  const result = assess(loadPlan(file).design)
  if (!result.ok) throw new Refusal(result.issues)
  return result.value
}

/** The answers, a paragraph a question. */
export function inWords({ name, answers }: Assessment): string {
  const lines = Object.entries(answers).map(([question, answer]) => `${question}\n  ${answer}\n`)
  return `${name}\n\n${lines.join('')}`
}
