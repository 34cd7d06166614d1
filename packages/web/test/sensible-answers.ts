/** Answers that somebody might give to the start, and the plan that is made of them, read back. */
import { readPlan } from '@finwright/plan/read-plan.ts'
import { planText } from '@finwright/plan/text/write-plan.ts'
import fc from 'fast-check'
import { makePlan } from '../src/features/first-run/make-plan.ts'
import { type Answers, examples, questions } from '../src/features/first-run/questions.data.ts'

export const read = (answers: Answers, units: 'metric' | 'us' = 'metric') => {
  const made = makePlan(answers, units, 'Test')
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join('\n'))
  const readBack = readPlan({
    text: planText(made.value.plan),
    readAttachment: () => ({ ok: false, reason: 'a plan of the start names no file' }),
  })
  if (!readBack.ok) throw new Error(readBack.issues.map(({ path, message }) => `${path}: ${message}`).join('\n'))
  return { ...made.value, document: readBack.value }
}

const options = (key: string): string[] =>
  questions
    .flatMap(({ fields }) => fields)
    .filter((field) => field.key === key)
    .flatMap((field) => (field.kind === 'choice' ? field.options.map(({ value }) => value) : []))

const between = (least: number, most: number, unit: string, decimals = 1) =>
  fc.double({ min: least, max: most, noNaN: true }).map((value) => `${value.toFixed(decimals)} ${unit}`.trim())

/** Proportions of fins that somebody would build: measured in diameters, and in chords. */
export const sensible: fc.Arbitrary<Answers> = fc
  .record({
    ...{ d: fc.double({ min: 38, max: 200, noNaN: true }), wall: between(0.8, 3, 'mm') },
    ...{ root: fc.double({ min: 1, max: 3.5, noNaN: true }), taper: fc.double({ min: 0.15, max: 1, noNaN: true }) },
    ...{ span: fc.double({ min: 0.6, max: 1.6, noNaN: true }), sweep: fc.double({ min: -0.1, max: 1.2, noNaN: true }) },
    ...{ core: between(1.5, 5, 'mm'), mach: between(0.4, 2.5, '', 2), site: between(0, 1500, 'm', 0) },
    ...{
      burnout: between(0, 4000, 'm', 0),
      rollWidth: between(300, 1300, 'mm', 0),
      rollLength: between(1, 20, 'm', 1),
    },
    ...{ temperature: between(15, 32, 'degC', 0), scale: fc.constantFrom('0.01 g', '0.1 g', '1 g') },
    ...{ ratio: fc.constantFrom('', '100:28', '100:40', '3:1'), working: fc.constantFrom('', '25 min', '50') },
    flight: fc.constantFrom(...options('flight')),
    tubeMaterial: fc.constantFrom(...options('tubeMaterial')),
    finCount: fc.constantFrom(...options('finCount')),
    coreMaterial: fc.constantFrom(...options('coreMaterial')),
    cloth: fc.constantFrom(...options('cloth')),
    resin: fc.constantFrom(...options('resin')),
    spare: fc.constantFrom(...options('spare')),
  })
  .map((one) => {
    const root = one.root * one.d
    return {
      ...examples.metric,
      ...{ flight: one.flight, topMach: one.mach, siteAltitude: one.site, topAltitude: one.burnout },
      ...{ diameter: `${one.d.toFixed(1)} mm`, wall: one.wall, tubeMaterial: one.tubeMaterial, finCount: one.finCount },
      ...{ root: `${root.toFixed(1)} mm`, tip: `${(root * one.taper).toFixed(1)} mm` },
      ...{ span: `${(one.span * one.d).toFixed(1)} mm`, tipOffset: `${(one.sweep * one.span * one.d).toFixed(1)} mm` },
      ...{ coreMaterial: one.coreMaterial, coreThickness: one.core, cloth: one.cloth, resin: one.resin },
      ...{ rollWidth: one.rollWidth, rollLength: one.rollLength, mixRatio: one.ratio, workingTime: one.working },
      ...{ shopTemperature: one.temperature, scale: one.scale, spare: one.spare },
    }
  })
