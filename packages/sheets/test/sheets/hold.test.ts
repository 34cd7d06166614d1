/** The pages of `Will it hold?`: what they say is what the assessment says, and each keeps to its page. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { describe, expect, test } from 'vitest'
import type { Primitive, Text } from '../../src/drawing/drawing.ts'
import { extent } from '../../src/drawing/extent.ts'
import { figuresIn, type UnitSystem } from '../../src/layout/figures.ts'
import { content, type Leaf, type PaperSize, papers } from '../../src/layout/paper.ts'
import { marginSheets } from '../../src/sheets/margins.ts'
import { demoAssessment } from '../fixture/demo.ts'
import { filled } from '../fixture/filled.ts'

const whole = filled(demoAssessment)

const pages = (assessment: Assessment, size: PaperSize = 'a4', units: UnitSystem = 'metric'): Leaf[] =>
  marginSheets({ assessment, paper: papers[size], figures: figuresIn(units) })

const flat = (items: readonly Primitive[]): Primitive[] =>
  items.flatMap((item) => (item.kind === 'group' ? flat(item.items) : [item]))
const wordsOf = ({ items }: Leaf): string =>
  flat(items)
    .filter((item): item is Text => item.kind === 'text')
    .map(({ text }) => text)
    .join(' ')
const wordsOn = (leaves: readonly Leaf[]): string => leaves.map(wordsOf).join(' ')

const subjects = [
  'flight and heat',
  'flutter boundary and flight',
  'how it would flutter, and what moves that',
  'how it rings',
  'strength, ply by ply',
  'root joint and proof load',
  'the boundary in figures',
]

describe.each([
  ['a4', 'metric'],
  ['a4', 'us'],
  ['letter', 'metric'],
  ['letter', 'us'],
] as const)('on %s in %s units', (size, units) => {
  const leaves = pages(whole, size, units)
  test('there is one page a question', () => {
    expect(leaves.map(({ subject }) => subject)).toEqual(subjects)
  })
  test('nothing leaves the column', () => {
    const area = content(papers[size])
    for (const { items, subject } of leaves) {
      const box = extent(items)!
      expect(box.x, subject).toBeGreaterThan(area.x - 1.5)
      expect(box.x + box.width, subject).toBeLessThan(area.x + area.width + 1.5)
      expect(box.y, subject).toBeGreaterThan(area.y - 1e-6)
      expect(box.y + box.height, subject).toBeLessThan(area.y + area.height + 1e-6)
    }
  })
  test('no unit of the other system', () => {
    const words = wordsOn(leaves)
    for (const other of units === 'us' ? [/ m\/s\b/, / kPa\b/, / N\b/, / mm\b/] : [/ ft\/s\b/, / psi\b/, / lbf\b/]) {
      // sources are quoted as they are
      const own = words.replaceAll(/Sources\..*?package\./g, '').replaceAll(/NACA TN 4197.*?t³\/6/g, '')
      const found = other.exec(own)
      expect(found === null ? '' : own.slice(found.index - 40, found.index + 20)).toBe('')
    }
  })
})

/** A change to one number, and what the pages must then say. */
interface Change {
  readonly name: string
  readonly to: (assessment: Assessment) => Assessment
  readonly says: string
  readonly noMore?: string
}

const withFlutter = (change: Partial<Assessment['flutter']>) => (a: Assessment) => ({
  ...a,
  flutter: { ...a.flutter, ...change },
})
const withStrength = (change: Partial<Assessment['strength']>) => (a: Assessment) => ({
  ...a,
  strength: { ...a.strength, ...change },
})
const withJoint = (change: Partial<NonNullable<Assessment['bond']['joint']>>) => (a: Assessment) => ({
  ...a,
  bond: { ...a.bond, joint: { ...a.bond.joint!, ...change } },
})

const changes = [
  {
    name: 'the ratio',
    to: (a) => withFlutter({ margin: { ...a.flutter.margin, speedRatio: 9.87 } })(a),
    says: 'least: × 9.87',
    noMore: `× ${whole.flutter.margin.speedRatio!.toFixed(2)}`,
  },
  {
    name: 'the ratio asked for',
    to: (a) => withFlutter({ margin: { ...a.flutter.margin, requiredRatio: 1.33 } })(a),
    says: '1.33 times the flight, asked for',
    noMore: `${whole.flutter.margin.requiredRatio.toFixed(2)} times the flight, asked for`,
  },
  {
    name: 'what goes',
    to: (a) =>
      withFlutter({
        margin: { ...a.flutter.margin, kind: 'divergence', mode: { name: 'third bending', share: 0.33 } },
      })(a),
    says: 'mostly third bending, 33 % of the motion',
  },
  {
    name: 'another assumption',
    to: withFlutter({ beside: [{ assumption: 'root glued to air', speedRatio: 0.77 }] }),
    says: 'root glued to air',
    noMore: whole.flutter.beside[0].assumption,
  },
  {
    name: 'what moves it',
    to: withFlutter({ drivers: [{ input: 'moonlight', change: '+3 %', speedRatio: 2.22 }] }),
    says: 'moonlight; +3 % makes the ratio 2.22',
    noMore: `${whole.flutter.drivers[0].input}; `,
  },
  {
    name: 'an envelope point',
    to: (a) =>
      withFlutter({
        boundary: a.flutter.boundary.map((point) => ({
          ...point,
          envelope: { speed_m_s: 777, kind: 'flutter' as const, method: 'a guess', factor: 0.66 },
        })),
      })(a),
    says: '777 m/s flutter 0.66 a guess',
  },
  {
    name: 'a frequency on its can',
    to: (a) => ({ ...a, structure: { ...a.structure, root: { ...a.structure.root!, modes_Hz: [987] } } }),
    says: 'on its can 987 Hz',
  },
  {
    name: 'the error of the mesh',
    to: (a) => ({ ...a, structure: { ...a.structure, mesh: { ...a.structure.mesh!, frequencyError: [0.0346] } } }),
    says: 'mesh error 3.5 %',
  },
  { name: 'the failure index', to: withStrength({ failureIndex: 0.73 }), says: 'to 73 % of its strength' },
  {
    name: 'what bending adds',
    to: (a) => withStrength({ load: { ...a.strength.load!, amplification: 1.44 } })(a),
    says: '× 1.44',
    noMore: `× ${whole.strength.load!.amplification.toFixed(2)}`,
  },
  {
    name: 'the proof load',
    to: withStrength({
      tipEquivalent: { byFailure_N: 123, byMoment_N: 321, governs: 'failure', outerFailureIndex: 0.4 },
    }),
    says: '123 N',
  },
  {
    name: 'a layer',
    to: (a) =>
      withStrength({
        through: a.strength.through.map((layer) => ({ ...layer, layer: `${layer.layer} x`, index: 0.456 })),
      })(a),
    says: '0.456',
  },
  { name: 'the margin of a way to go', to: withJoint({ byMode: [{ mode: 'fillet', margin: -0.25 }] }), says: '−0.25' },
  { name: 'a radius that is enough', to: withJoint({ sufficientRadius_m: 0.0123 }), says: 'A radius of 12.3 mm' },
  { name: 'no radius that is enough', to: withJoint({ sufficientRadius_m: null }), says: 'No fillet that fits' },
  {
    name: 'the knock-down',
    to: withJoint({ knockDown: 7.5 }),
    says: 'divided by 7.5',
    noMore: `divided by ${whole.bond.joint!.knockDown.toFixed(1)}`,
  },
  {
    name: 'the joint that does not hold',
    to: (a) => ({ ...a, bond: { ...a.bond, margin: -0.4 } }),
    says: 'The root joint does not hold',
  },
] as const satisfies readonly Change[]

describe('what stands on the pages is what the assessment says', () => {
  test.each<Change>(changes)('$name', ({ to, says, noMore }) => {
    const [before, after] = [wordsOn(pages(whole)), wordsOn(pages(to(whole)))]
    expect([before.includes(says), after.includes(says)], says).toEqual([false, true])
    if (noMore !== undefined) expect([before.includes(noMore), after.includes(noMore)], noMore).toEqual([true, false])
  })
  test('every mode, heat station, assumption, driver and way to go is named', () => {
    const words = wordsOn(pages(whole))
    const { structure, flight, flutter, bond } = whole
    const names = [
      ...structure.modes.map(({ kind }) => kind),
      ...(flight.heat?.stations.map(({ place }) => place) ?? []),
      ...flutter.beside.map(({ assumption }) => assumption),
      ...flutter.drivers.map(({ input }) => input),
      ...bond.joint!.byMode.map(({ mode }) => mode),
    ]
    expect(names.length).toBeGreaterThan(25)
    for (const name of names) expect(words.includes(name), name).toBe(true)
  })
  test('long lists of sources take no page of their own', () => {
    const [method] = whole.sources.filter(({ value }) => value === 'method')
    const many = ['flight', 'structure', 'flutter', 'strength', 'bond'].flatMap((section) =>
      Array.from({ length: 12 }, (_, i) => ({ ...method, section, quantity: `quantity ${i}` })),
    )
    const leaves = pages({ ...whole, sources: [...whole.sources, ...many] }, 'letter')
    expect(leaves.map(({ subject }) => subject)).toEqual(subjects)
  })
  test('the bold curve runs through the envelope’s points', () => {
    const [, boundary] = pages(whole)
    const bold = flat(boundary.items).filter((item) => item.kind === 'path' && item.stroke?.width === 0.7)
    expect(bold.some((item) => item.kind === 'path' && item.vertices.length === whole.flutter.boundary.length)).toBe(
      true,
    )
  })
})

describe('where something is not known', () => {
  test('the verdict is said to be open, and what cannot be drawn is left out', () => {
    const { flutter, structure, strength, bond } = whole
    const open: Assessment = {
      ...whole,
      flutter: {
        ...flutter,
        boundary: flutter.boundary.map((point) => ({
          ...point,
          speed_m_s: null,
          method: 'not determined',
          envelope: null,
        })),
        margin: { ...flutter.margin, speedRatio: null, verdict: 'not determined', at: null, kind: null, mode: null },
        ...{ beside: [], drivers: [], history: null, curves: null, covers: null },
      },
      structure: { ...structure, root: null, mesh: { ...structure.mesh!, frequencyError: null } },
      strength: { ...strength, rootLine: null, map: null, through: [], tipEquivalent: null },
      bond: { ...bond, margin: null, joint: null },
    }
    const leaves = pages(open)
    expect(leaves.map(({ subject }) => subject)).toEqual([0, 1, 3, 4, 6].map((i) => subjects[i]))
    const words = wordsOn(leaves)
    expect(words).toContain('not determined')
    expect(words).not.toContain('Holds')
    expect(words).not.toContain('NaN')
    expect(words).not.toContain('on its can 2')
  })
  test('a joint that was not computed is no pass', () => {
    const words = wordsOn(pages({ ...whole, bond: { ...whole.bond, margin: null, joint: null } }))
    expect(words).toContain('The margin of the root joint is not determined, which is not a pass.')
  })
  test('a study has what it has', () => {
    const study: Assessment = {
      ...whole,
      kind: 'study',
      flight: { ...whole.flight, maximumMach: null, history: null, heat: null, recovery: null },
      flutter: {
        ...whole.flutter,
        boundary: [],
        history: null,
        curves: null,
        beside: [],
        drivers: [],
        screening: null,
      },
      strength: { ...whole.strength, failureIndex: null, tipEquivalent: null },
      bond: { fillet: null, margin: null, joint: null },
    }
    expect(pages(study).map(({ subject }) => subject)).toEqual(['how it rings'])
  })
  test('nobody is told that it is safe', () => {
    const words = wordsOn(pages(whole)).toLowerCase()
    expect(words).toContain('no permission to fly')
    expect(words).not.toMatch(/safe to|is safe/)
  })
})
