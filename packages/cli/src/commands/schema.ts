/** `finwright schema`: the JSON Schema of the plan file. */
import { Command } from 'commander'

export function schemaCommand(): Command {
  return new Command('schema').description('print the JSON Schema of the plan file').action(async () => {
    const { planJsonSchema } = await import('@finwright/plan/json-schema.ts')
    process.stdout.write(`${JSON.stringify(planJsonSchema(), null, 2)}\n`)
  })
}
