import { describe, expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'
import { beside, exampleNames, exampleText, readExample } from './demo.ts'

/** As little as a plan of a can may say. */
const smallest = {
  format: 'finwright/plan',
  version: 1,
  name: 'Least',
  tube: { outerDiameter: '54 mm', wall: '1.5 mm', material: 'paper-phenolic-tube' },
  fins: {
    count: 3,
    outline: { kind: 'trapezoid', root: '100 mm', tip: '50 mm', span: '60 mm', tipOffset: '40 mm' },
    core: { material: 'birch-plywood', thickness: '3 mm' },
    fillet: { radius: '8 mm' },
  },
  plies: [
    { cloth: 'glass-plain-200', angle: '0 deg' },
    { cloth: 'peel-ply', role: 'peel' },
  ],
  resin: { system: 'epoxy-fast', ratio: { by: 'mass', value: '100:28' } },
  flight: { kind: 'states', states: [{ mach: 2, density: '0.8 kg/m3', temperature: '0 degC' }] },
}

const reading = (plan: unknown) => {
  const read = readPlan({ text: JSON.stringify(plan), readAttachment: beside })
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return read.value
}

describe('defaults', () => {
  const { typed, complete, defaulted, design } = reading(smallest)

  test('each is listed with its place, its value and its source', () => {
    expect(defaulted).toContainEqual({
      path: 'layup.resinPerCloth',
      value: '1:1',
      source: 'FAA AC 43.13-1B (1998), chapter 3, section 1: light laminates at 50 % resin by weight',
    })
    expect(defaulted).toContainEqual(expect.objectContaining({ path: 'plies[1].angle', value: '0 deg' }))
    expect(defaulted).toContainEqual(expect.objectContaining({ path: 'layup.overrun.aft', value: '8 mm' }))
    expect(defaulted).toContainEqual(
      expect.objectContaining({ path: 'cans', value: [{ letter: 'A', purpose: 'flight' }] }),
    )
    for (const { source } of defaulted) expect(source.length).toBeGreaterThan(8)
    expect(new Set(defaulted.map(({ path }) => path)).size).toBe(defaulted.length)
  })

  test('the typed plan stays as it was', () => {
    expect(typed).toEqual(smallest)
    expect(complete).toMatchObject({ shop: { cupLimit: '170 g' }, plies: [{ overhang: { edges: '10 mm' } }, {}] })
  })

  test('reach the design', () => {
    expect(design).toMatchObject({
      kind: 'can',
      cans: [{ letter: 'A', purpose: 'flight' }],
      stock: { rolls: [], resin: 0, hardener: 0, usable: 0.95 },
      mixing: { scaleResolution: 0.001, cupLimit: 0.17, workingShare: 0.75, tolerance: 0.03 },
      layup: {
        resinPerCloth: 1,
        voidFraction: 0.02,
        stepPerThickness: 50,
        losses: { peelPly: 0.08, primer: 0.06, cup: 0.008 },
      },
      fins: { edges: { leading: { kind: 'square', width: 0, land: 0.003 } }, mounting: { kind: 'surface' } },
      printing: { measured: null, roll: null, cutter: null, paperThickness: 0.0001, sections: [] },
    })
  })
})

describe('the complete plan of each example', () => {
  test.each(exampleNames)('%s: is a plan with the same design and nothing left to fill in', (name) => {
    const first = readExample(name)
    if (!first.ok) throw new Error(name)
    const again = reading(first.value.complete)
    expect(again.design).toEqual(first.value.design)
    expect(again.defaulted).toEqual([])
    expect(again.complete).toEqual(first.value.complete)
    expect(first.value.typed).toEqual(JSON.parse(exampleText(name)))
  })
})

test('a field at fault is not replaced by its default', () => {
  const bad = { ...smallest, shop: { cupLimit: 'big' } }
  const read = readPlan({ text: JSON.stringify(bad), readAttachment: beside })
  expect(read.ok ? [] : read.issues.map(({ path }) => path)).toEqual(['shop.cupLimit'])
})
