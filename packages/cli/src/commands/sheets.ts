/** `finwright sheets PLAN --out DIR`: the whole package to print, cut, mix and lay up from. */
import { join } from 'node:path'
import { assess } from '@finwright/core/assess/assess.ts'
import type { NestEffort } from '@finwright/core/assess/nest-section.ts'
import { Command, Option } from 'commander'
import { nestingOf, nestingOption } from '../nesting.ts'
import { issuesAsText, Refusal } from '../outcome.ts'
import { writePackage } from '../package-folder.ts'
import { loadPlan } from '../plan-file.ts'
import { progressTo } from '../progress.ts'
import { inWords } from './assess.ts'

interface Options {
  readonly out: string
  readonly paper: 'a4' | 'letter' | 'both'
  readonly nesting: NestEffort
}

export function sheetsCommand(): Command {
  return new Command('sheets')
    .description('write the build package: cover, bay map, patterns, cut sheets, mix cards, traveller')
    .argument('<plan>', 'the plan file (*.fincan.json)')
    .requiredOption('--out <folder>', 'where to write; made if it does not exist')
    .addOption(
      new Option('--paper <size>', 'paper of the tiled sheets').choices(['a4', 'letter', 'both']).default('both'),
    )
    .addOption(nestingOption('thorough'))
    .action(run)
}

async function run(file: string, { out, paper, nesting }: Options): Promise<void> {
  const progress = progressTo(process.stderr)
  progress.step('Reading the plan')
  const plan = loadPlan(file)
  progress.step('Assessing')
  const result = assess(plan.design, { nesting: nestingOf(nesting, progress) })
  if (!result.ok) throw new Refusal(result.issues)
  const [{ buildPackage }, { correctionFor }] = await Promise.all([
    import('@finwright/sheets/package.ts'),
    import('@finwright/sheets/printer.ts'),
  ])
  const correction = plan.design.kind === 'can' ? correctionFor(plan.design) : null
  if (correction !== null && !correction.ok) throw new Refusal(correction.issues)
  const sheets = await buildPackage({
    assessment: result.value,
    design: plan.design,
    revision: { hash: plan.hash, date: new Date().toISOString().slice(0, 10) },
    units: plan.complete.units,
    defaults: plan.defaulted,
    pageSizes: paper === 'both' ? ['a4', 'letter'] : [paper],
    onProgress: progress.step,
  })
  progress.step('Writing')
  writePackage(out, sheets)
  progress.done()
  process.stdout.write(
    `${inWords(result.value, plan.complete.units)}\nThe package is in ${out}; start with ${join(out, sheets[0]?.path ?? '')}.\n`,
  )
  if (result.value.warnings.length > 0) process.stderr.write(`\nTo look at:\n${issuesAsText(result.value.warnings)}`)
}
