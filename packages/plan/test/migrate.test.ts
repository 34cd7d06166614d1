import { expect, test } from 'vitest'
import { migrated } from '../src/migrate.ts'
import { readPlan } from '../src/read-plan.ts'
import { beside } from './demo.ts'

const before = {
  format: 'finwright/plan',
  version: 0,
  name: 'Draft',
  tube: { outerDiameter: '54 mm', wall: '1.5 mm', material: 'paper-phenolic-tube' },
  fins: {
    count: 3,
    rootChord: '100 mm',
    tipChord: '50 mm',
    span: '60 mm',
    sweep: '40 mm',
    core: { material: 'birch-plywood', thickness: '3 mm' },
    fillet: { radius: '8 mm' },
  },
  plies: [
    { fabric: 'glass-plain-200', angle: '45 deg', step: '12 mm' },
    { fabric: 'glass-plain-200', angle: '0 deg' },
  ],
  resin: { system: 'epoxy-fast', mix: '100:28 by mass' },
  flight: { kind: 'states', states: [{ mach: 2, density: '0.8 kg/m3', temperature: '0 degC' }] },
}

const after = {
  format: 'finwright/plan',
  version: 1,
  name: 'Draft',
  tube: { outerDiameter: '54 mm', wall: '1.5 mm', material: 'paper-phenolic-tube' },
  fins: {
    count: 3,
    outline: { kind: 'trapezoid', root: '100 mm', tip: '50 mm', span: '60 mm', tipOffset: '40 mm' },
    core: { material: 'birch-plywood', thickness: '3 mm' },
    fillet: { radius: '8 mm' },
  },
  plies: [
    { cloth: 'glass-plain-200', angle: '45 deg', stepBack: { tip: '12 mm' } },
    { cloth: 'glass-plain-200', angle: '0 deg' },
  ],
  resin: { system: 'epoxy-fast', ratio: { by: 'mass', value: '100:28' } },
  flight: { kind: 'states', states: [{ mach: 2, density: '0.8 kg/m3', temperature: '0 degC' }] },
}

test('a plan of version 0 becomes one of version 1, as typed', () => {
  const read = readPlan({ text: JSON.stringify(before), readAttachment: beside })
  expect(read.ok ? read.value.typed : read.issues).toEqual(after)
  expect(migrated(before, 0)).toEqual(after)
})

test('a plan of the present version stays as it is', () => {
  expect(migrated(after, 1)).toBe(after)
})

test('what an old version did not know either is told as it stands', () => {
  const read = readPlan({
    text: JSON.stringify({
      ...before,
      resin: { system: 'epoxy-fast', mix: 'by eye' },
      fin: 3,
      plies: [5],
      fins: 'three',
    }),
    readAttachment: beside,
  })
  expect(read.ok ? [] : read.issues.map(({ code, path }) => `${code} ${path}`).sort()).toEqual([
    'plan/missing resin.ratio',
    'plan/unknown-key fin',
    'plan/unknown-key resin.mix',
    'plan/wrong-type fins',
    'plan/wrong-type plies[0]',
  ])
})
