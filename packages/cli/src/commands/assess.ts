/** `finwright assess PLAN [--json]`: the assessment, as one JSON object or as the answers in words. */
import { assess } from '@finwright/core/assess/assess.ts'
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { NestEffort, Nesting } from '@finwright/core/assess/nest-section.ts'
import type { UnitSystem } from '@finwright/plan/quantity/format.ts'
import { answersIn } from '@finwright/sheets/answers.ts'
import { Command } from 'commander'
import { nestingOf, nestingOption } from '../nesting.ts'
import { issuesAsText, Refusal } from '../outcome.ts'
import { loadPlan } from '../plan-file.ts'
import { progressTo, silent } from '../progress.ts'

export function assessCommand(): Command {
  return new Command('assess')
    .description('assess a plan: flight, fin, structure, flutter, strength, patterns, cloth and resin')
    .argument('<plan>', 'the plan file (*.fincan.json)')
    .option('--json', 'print the whole assessment as one JSON object')
    .addOption(nestingOption('quick'))
    .action((file: string, options: { json?: boolean; nesting: NestEffort }) => {
      const progress = options.json ? silent : progressTo(process.stderr)
      const { assessment, units } = assessFile(file, nestingOf(options.nesting, progress))
      progress.done()
      process.stdout.write(options.json ? `${JSON.stringify(assessment)}\n` : inWords(assessment, units))
      if (!options.json && assessment.warnings.length > 0) {
        process.stderr.write(`\nTo look at:\n${issuesAsText(assessment.warnings)}`)
      }
    })
}

function assessFile(file: string, nesting: Nesting): { readonly assessment: Assessment; readonly units: UnitSystem } {
  const { design, complete } = loadPlan(file)
  const result = assess(design, { nesting })
  if (!result.ok) throw new Refusal(result.issues)
  return { assessment: result.value, units: complete.units }
}

/** The answers, a paragraph a question. */
export function inWords(assessment: Assessment, units: UnitSystem): string {
  const lines = answersIn(assessment, units).map(
    ({ question, answer }) => `${question}
  ${answer}
`,
  )
  return `${assessment.name}

${lines.join('')}`
}
