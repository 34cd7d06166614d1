/** Every command, as before and after; what it refuses, and with what words. */
import { describe, expect, test } from 'vitest'
import { applyCommand, type NamedCommand, recordIssues } from '../../src/protocol/apply.ts'
import { type CommandName, commands } from '../../src/protocol/commands.ts'
import { emptyShelf, type JsonObject, type PlanRecord } from '../../src/protocol/record.ts'
import { valueAt } from '../../src/schema/locate.ts'
import { clothsOf, demoRecord, exampleRecord, someFile } from './records.ts'

const glass = (angle: string) => `glass-plain-200 ${angle} deg`
const [a0, a45] = [glass('0'), glass('45')]
const rest = ['glass-veil-49', 'peel-ply']
const rollIds = ({ plan }: PlanRecord) => (valueAt(plan, ['stock', 'rolls']) as JsonObject[]).map(({ id }) => id)
const letters = ({ plan }: PlanRecord) => (plan.cans as JsonObject[]).map(({ letter }) => letter)
const at =
  (...path: (string | number)[]) =>
  (record: PlanRecord) =>
    valueAt(record.plan, path)
const points = [
  ['0 mm', '0 mm'],
  ['100 mm', '90 mm'],
  ['200 mm', '0 in'],
]
const trapezoid = { root: '12 in', tip: '4 in', span: '4 1/2 in', tipOffset: '6 in' }
const aRoll = { id: 'more', cloth: 'peel-ply', width: '1 m', length: '2 m' }
const rolls = ['glass 200 wide', 'veil', 'peel ply']

interface Case {
  readonly name: CommandName
  readonly payload: unknown
  readonly see: (record: PlanRecord) => unknown
  readonly before: unknown
  readonly after: unknown
  readonly label: string
  /** Another flight than the demo's file. */
  readonly flight?: JsonObject
}

const thrust = [
  ['0 s', '0 N'],
  ['1 s', '900 N'],
]
const flown = [
  ['0 s', '200 m', '0 m/s'],
  ['1 s', '700 ft', '400 ft/s'],
]
const states = [{ mach: 0.8, density: '1.2 kg/m3', soundSpeed: '340 m/s' }]
const thrustFlight: JsonObject = {
  kind: 'thrust',
  thrust,
  liftOffMass: '9 kg',
  propellantMass: '1 kg',
  drag: [[0, 0.5]],
}
const row = (label: string) => ({ label: `row of the ${label}` })

const rowCases: readonly Case[] = [
  {
    name: 'thrust.insert',
    payload: { at: 1, entry: ['0.5 s', '800 N'] },
    see: at('flight', 'thrust'),
    before: thrust,
    after: [thrust[0], ['0.5 s', '800 N'], thrust[1]],
    label: `${row('thrust curve').label} 2 put in`,
    flight: { ...thrustFlight, thrust },
  },
  {
    name: 'thrust.remove',
    payload: { at: 1 },
    see: at('flight', 'thrust'),
    before: [...thrust, ['2 s', '0 N']],
    after: [thrust[0], ['2 s', '0 N']],
    label: `${row('thrust curve').label} 2 taken out`,
    flight: { ...thrustFlight, thrust: [...thrust, ['2 s', '0 N']] },
  },
  {
    name: 'drag.insert',
    payload: { at: 12, entry: [2.5, 0.5] },
    see: at('flight', 'drag', 12),
    before: undefined,
    after: [2.5, 0.5],
    label: `${row('drag table').label} 13 put in`,
  },
  {
    name: 'drag.remove',
    payload: { at: 0 },
    see: at('flight', 'drag', 0),
    before: [0, 0.5],
    after: [0.6, 0.48],
    label: `${row('drag table').label} 1 taken out`,
  },
  {
    name: 'history.insert',
    payload: { at: 2, entry: ['2 s', '500 m', '200 m/s'] },
    see: at('flight', 'history'),
    before: flown,
    after: [...flown, ['2 s', '500 m', '200 m/s']],
    label: `${row('flown history').label} 3 put in`,
    flight: { kind: 'history', history: flown },
  },
  {
    name: 'history.remove',
    payload: { at: 0 },
    see: at('flight', 'history'),
    before: [...flown, ['2 s', '500 m', '200 m/s']],
    after: [flown[1], ['2 s', '500 m', '200 m/s']],
    label: `${row('flown history').label} 1 taken out`,
    flight: { kind: 'history', history: [...flown, ['2 s', '500 m', '200 m/s']] },
  },
  {
    name: 'states.insert',
    payload: { at: 1, entry: { mach: 1.2, density: '1.1 kg/m3', temperature: '10 degC' } },
    see: at('flight', 'states'),
    before: states,
    after: [...states, { mach: 1.2, density: '1.1 kg/m3', temperature: '10 degC' }],
    label: 'air state 2 put in',
    flight: { kind: 'states', states },
  },
  {
    name: 'states.remove',
    payload: { at: 0 },
    see: at('flight', 'states'),
    before: [...states, ...states],
    after: states,
    label: 'air state 1 taken out',
    flight: { kind: 'states', states: [...states, ...states] },
  },
  {
    name: 'sections.insert',
    payload: { at: 0, entry: { from: ['0 mm', '-50 mm'], to: ['0 mm', '50 mm'] } },
    see: at('printing', 'sections'),
    before: undefined,
    after: [{ from: ['0 mm', '-50 mm'], to: ['0 mm', '50 mm'] }],
    label: 'printed section 1 put in',
  },
]

const cases: readonly Case[] = [
  {
    name: 'field.set',
    payload: { path: ['tube', 'wall'], value: '0.08 in' },
    see: at('tube', 'wall'),
    before: '2.0 mm',
    after: '0.08 in',
    label: 'tube wall',
  },
  {
    name: 'field.set',
    payload: { path: ['plies', 4, 'stepBack', 'tip'], value: '5 mm' },
    see: at('plies', 4, 'stepBack'),
    before: undefined,
    after: { tip: '5 mm' },
    label: 'P5: step back from the tip',
  },
  {
    name: 'field.clear',
    payload: { path: ['loads', 'wind'] },
    see: at('loads'),
    before: {
      angleOfAttack: '2 deg',
      wind: { steady: '6 m/s', gust: '9 m/s', railLength: '3 m' },
      tipLoad: '100 N',
      structuralDamping: 0,
    },
    after: { angleOfAttack: '2 deg', tipLoad: '100 N', structuralDamping: 0 },
    label: 'loads.wind, back to the default',
  },
  {
    name: 'plies.insert',
    payload: { at: 1, entry: { cloth: 'glass-plain-200', angle: '30 deg' } },
    see: clothsOf,
    before: [a0, a45, a0, a45, a0, ...rest],
    after: [a0, glass('30'), a45, a0, a45, a0, ...rest],
    label: 'ply put in at place 2',
  },
  {
    name: 'plies.remove',
    payload: { at: 0 },
    see: clothsOf,
    before: [a0, a45, a0, a45, a0, ...rest],
    after: [a45, a0, a45, a0, ...rest],
    label: 'P1 taken out',
  },
  {
    name: 'plies.move',
    payload: { from: 1, to: 3 },
    see: clothsOf,
    before: [a0, a45, a0, a45, a0, ...rest],
    after: [a0, a0, a45, a45, a0, ...rest],
    label: 'P2 moved to place 4',
  },
  {
    name: 'plies.duplicate',
    payload: { at: 1 },
    see: clothsOf,
    before: [a0, a45, a0, a45, a0, ...rest],
    after: [a0, a45, a45, a0, a45, a0, ...rest],
    label: 'P2 duplicated',
  },
  {
    name: 'rolls.insert',
    payload: { at: 3, entry: aRoll },
    see: rollIds,
    before: rolls,
    after: [...rolls, 'more'],
    label: 'roll 4 put in',
  },
  {
    name: 'rolls.remove',
    payload: { at: 1 },
    see: rollIds,
    before: rolls,
    after: ['glass 200 wide', 'peel ply'],
    label: 'roll 2 taken out',
  },
  {
    name: 'rolls.move',
    payload: { from: 2, to: 0 },
    see: rollIds,
    before: rolls,
    after: ['peel ply', 'glass 200 wide', 'veil'],
    label: 'roll 3 moved to place 1',
  },
  {
    name: 'rolls.duplicate',
    payload: { at: 0 },
    see: (record) => rollIds(record).length,
    before: 3,
    after: 4,
    label: 'roll 1 duplicated',
  },
  {
    name: 'cans.insert',
    payload: { at: 2, entry: { letter: 'C', purpose: 'practice' } },
    see: letters,
    before: ['A', 'B'],
    after: ['A', 'B', 'C'],
    label: 'can put in at place 3',
  },
  { name: 'cans.remove', payload: { at: 0 }, see: letters, before: ['A', 'B'], after: ['B'], label: 'can A taken out' },
  {
    name: 'cans.move',
    payload: { from: 0, to: 1 },
    see: letters,
    before: ['A', 'B'],
    after: ['B', 'A'],
    label: 'can A moved to place 2',
  },
  {
    name: 'cans.duplicate',
    payload: { at: 1 },
    see: letters,
    before: ['A', 'B'],
    after: ['A', 'B', 'B'],
    label: 'can B duplicated',
  },
  {
    name: 'outline.setPoints',
    payload: { points },
    see: at('fins', 'outline'),
    before: { kind: 'trapezoid', root: '300 mm', tip: '120 mm', span: '110 mm', tipOffset: '150 mm' },
    after: { kind: 'points', points },
    label: 'outline of the fin',
  },
  {
    name: 'outline.setTrapezoid',
    payload: trapezoid,
    see: at('fins', 'outline', 'span'),
    before: '110 mm',
    after: '4 1/2 in',
    label: 'outline of the fin',
  },
  {
    name: 'plan.rename',
    payload: { name: 'Mine' },
    see: at('name'),
    before: 'Four-fin supersonic demo',
    after: 'Mine',
    label: 'name of the plan',
  },
  {
    name: 'plan.setUnits',
    payload: { units: 'us' },
    see: at('units'),
    before: 'metric',
    after: 'us',
    label: 'shown in US units',
  },
  {
    name: 'plan.replace',
    payload: { plan: exampleRecord('small-us').plan, files: { 'a.csv': someFile('a') }, why: 'import' },
    see: (record) => [record.plan.units, Object.keys(record.files)],
    before: ['metric', []],
    after: ['us', ['a.csv']],
    label: 'import',
  },
  {
    name: 'files.attach',
    payload: { name: 'thrust.csv', file: someFile('b') },
    see: ({ files }) => files,
    before: {},
    after: { 'thrust.csv': someFile('b') },
    label: 'file thrust.csv',
  },
]

describe('a command', () => {
  test('of every name is tried', () => {
    const tried = new Set<string>(
      [...cases, ...rowCases].map(({ name }) => name).concat('files.detach', 'sections.remove'),
    )
    expect(Object.keys(commands).filter((name) => !tried.has(name))).toEqual([])
  })

  test.each([...cases, ...rowCases])('$name', ({ name, payload, see, before, after, label, flight }) => {
    const demo = demoRecord()
    const record = flight === undefined ? demo : { ...demo, plan: { ...demo.plan, flight } }
    expect(recordIssues(record)).toEqual([])
    const untouched = structuredClone(record)
    expect(see(record)).toEqual(before)
    const made = applyCommand({ name, payload }, record)
    expect(made.ok ? [] : made.issues).toEqual([])
    if (!made.ok) return
    expect(see(made.record)).toEqual(after)
    expect(made.label).toBe(label)
    expect(made.changes.length).toBeGreaterThan(0)
    expect(record).toEqual(untouched)
  })

  test('files.detach', () => {
    const record = { ...demoRecord(), files: { 'a.csv': someFile('a'), 'b.jpg': someFile('b') } }
    const made = applyCommand({ name: 'files.detach', payload: { name: 'a.csv' } }, record)
    expect(made.ok && made.record.files).toEqual({ 'b.jpg': someFile('b') })
  })

  test('takes the printed sections out one by one', () => {
    const from = { from: ['0 mm', '-50 mm'], to: ['0 mm', '50 mm'] }
    const demo = demoRecord()
    const record = { ...demo, plan: { ...demo.plan, printing: { sections: [from] } } }
    const made = applyCommand({ name: 'sections.remove', payload: { at: 0 } }, record)
    expect(made.ok && made.record.plan.printing).toEqual({ sections: [] })
    expect(made.ok && made.label).toBe('printed section 1 taken out')
  })

  test('takes out no row of a table that needs two', () => {
    const demo = demoRecord()
    const record = { ...demo, plan: { ...demo.plan, flight: { kind: 'history', history: flown } } }
    const made = applyCommand({ name: 'history.remove', payload: { at: 0 } }, record)
    expect(made.ok ? [] : made.issues).toMatchObject([{ code: 'plan/too-few', path: 'flight.history' }])
  })

  test('names a ply as every sheet does', () => {
    const made = applyCommand({ name: 'plies.remove', payload: { at: 5 } }, demoRecord())
    expect(made.ok && made.label).toBe('V1 taken out')
    const peel = applyCommand(
      { name: 'field.set', payload: { path: ['plies', 6, 'cloth'], value: 'peel-ply' } },
      demoRecord(),
    )
    expect(peel.ok && peel.label).toBe('R1: cloth')
  })

  test('puts the first entry into a list that was left out', () => {
    const made = applyCommand({ name: 'rolls.insert', payload: { at: 0, entry: aRoll } }, emptyShelf)
    expect(made.ok && made.record.plan).toEqual({ stock: { rolls: [aRoll] } })
  })
})

interface Refusal extends NamedCommand {
  readonly code: string
  readonly path: string
  readonly says: string
}

const refusals: readonly Refusal[] = [
  {
    name: 'field.set',
    payload: { path: ['fins', 'core', 'thickness'], value: '3.2' },
    code: 'quantity/missing-unit',
    path: 'fins.core.thickness',
    says: '3.2',
  },
  {
    name: 'field.set',
    payload: { path: ['fins', 'core', 'thickness'], value: '3 kg' },
    code: 'quantity/wrong-dimension',
    path: 'fins.core.thickness',
    says: 'kg',
  },
  {
    name: 'field.set',
    payload: { path: ['fins', 'colour'], value: 'red' },
    code: 'plan/unknown-key',
    path: 'fins.colour',
    says: 'colour',
  },
  {
    name: 'field.set',
    payload: { path: ['plies', 40, 'angle'], value: '0 deg' },
    code: 'command/no-place',
    path: 'plies[40]',
    says: 'plies[40]',
  },
  {
    name: 'field.set',
    payload: { path: ['name', 'first'], value: 'x' },
    code: 'command/no-place',
    path: 'name.first',
    says: 'name',
  },
  {
    name: 'field.set',
    payload: { path: ['__proto__', 'polluted'], value: 'x' },
    code: 'plan/unknown-key',
    path: '__proto__',
    says: '__proto__',
  },
  {
    name: 'field.set',
    payload: { path: ['tube', 'wall'] },
    code: 'command/payload',
    path: 'payload.value',
    says: 'value',
  },
  {
    name: 'field.clear',
    payload: { path: ['tube', 'wall'] },
    code: 'plan/missing',
    path: 'tube.wall',
    says: 'missing',
  },
  { name: 'plies.move', payload: { from: 0, to: 7 }, code: 'command/no-entry', path: 'plies', says: 'the list has 7' },
  {
    name: 'plies.insert',
    payload: { at: 0, entry: { cloth: 'x', angel: '0 deg' } },
    code: 'plan/unknown-key',
    path: 'plies[0].angel',
    says: "Did you mean 'angle'",
  },
  { name: 'plies.insert', payload: { at: -1, entry: {} }, code: 'command/payload', path: 'payload.at', says: '>=0' },
  {
    name: 'outline.setPoints',
    payload: { points: points.slice(0, 2) },
    code: 'plan/too-few',
    path: 'fins.outline.points',
    says: '3',
  },
  { name: 'plan.rename', payload: { name: '' }, code: 'plan/too-few', path: 'name', says: 'name' },
  {
    name: 'plan.replace',
    payload: { plan: { format: 'finwright/plan' } },
    code: 'plan/missing',
    path: 'version',
    says: 'version',
  },
  {
    name: 'files.attach',
    payload: { name: '../up.csv', file: someFile('a') },
    code: 'command/payload',
    path: 'payload.name',
    says: 'plain file name',
  },
  {
    name: 'files.attach',
    payload: { name: 'big.jpg', file: someFile('a', 17 * 2 ** 20) },
    code: 'command/payload',
    path: 'payload.file.size',
    says: 'size',
  },
  {
    name: 'files.detach',
    payload: { name: 'none.csv' },
    code: 'command/no-file',
    path: 'files.none.csv',
    says: 'none.csv',
  },
  { name: 'plies.mov', payload: {}, code: 'command/unknown', path: 'name', says: "Did you mean 'plies.move'" },
  { name: 'constructor', payload: {}, code: 'command/unknown', path: 'name', says: 'constructor' },
]

describe('a command is refused with the field and the way out', () => {
  test.each(refusals)('$name: $code at $path', ({ name, payload, code, path, says }) => {
    const made = applyCommand({ name, payload }, demoRecord())
    expect(made.ok).toBe(false)
    if (made.ok) return
    const issue = made.issues.find((one) => one.code === code && one.path === path)
    expect(issue, JSON.stringify(made.issues)).toBeDefined()
    expect(`${issue?.message} ${issue?.hint}`).toContain(says)
  })

  test('too many files', () => {
    const files = Object.fromEntries(Array.from({ length: 200 }, (_, i) => [`${i}.jpg`, someFile('a')]))
    const made = applyCommand(
      { name: 'files.attach', payload: { name: 'more.jpg', file: someFile('c') } },
      { ...demoRecord(), files },
    )
    expect(made.ok ? '' : made.issues[0]?.code).toBe('command/too-many-files')
  })

  test('a shelf holds stock and nothing else', () => {
    const set = (path: (string | number)[], value: string) =>
      applyCommand({ name: 'field.set', payload: { path, value } }, emptyShelf)
    expect(set(['stock', 'resin'], '500 g').ok).toBe(true)
    const issuesOf = (made: ReturnType<typeof set>) =>
      made.ok ? [] : made.issues.map(({ code, path }) => `${code} ${path}`)
    expect(issuesOf(set(['stock', 'resin'], '500'))).toEqual(['quantity/missing-unit stock.resin'])
    expect(issuesOf(set(['tube'], 'x'))).toEqual(['command/not-on-shelf tube'])
  })
})

test('what contradicts between fields is let in, for it may be half of a change', () => {
  const made = applyCommand(
    { name: 'field.set', payload: { path: ['flight', 'referenceArea'], value: '0.008 m2' } },
    demoRecord(),
  )
  expect(made.ok).toBe(true)
  if (made.ok) expect(recordIssues(made.record)).toEqual([])
})
