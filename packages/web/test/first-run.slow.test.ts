/** Plans of the start go all the way: sensible answers are assessed, with pieces to cut and batches to mix. */
import { assess } from '@finwright/core/assess/assess.ts'
import fc from 'fast-check'
import { expect, test } from 'vitest'
import { read, sensible } from './sensible-answers.ts'

test('sensible answers make plans that are assessed to the end', () => {
  let ran = 0
  fc.assert(
    fc.property(sensible, (answers) => {
      ran++
      const result = assess(read(answers).document.design)
      if (!result.ok) throw new Error(result.issues.map(({ path, message }) => `${path}: ${message}`).join('\n'))
      expect(result.value.fin.mass_kg).toBeGreaterThan(0)
      expect(result.value.pattern.pieces.length).toBeGreaterThan(0)
      // A coarse scale or a cold bench leaves no batch that could be mixed: then that is told.
      if (result.value.resin.batches.length === 0)
        expect(result.value.warnings.some(({ code }) => code.startsWith('resin/'))).toBe(true)
    }),
    { numRuns: 5, seed: 11, endOnFailure: true },
  )
  expect(ran).toBeGreaterThan(0)
})
