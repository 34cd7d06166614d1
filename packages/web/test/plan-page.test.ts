/** What the plan's page puts in, and what it says, without a browser. */
import { readFileSync } from 'node:fs'
import { applyCommand } from '@finwright/plan/protocol/apply.ts'
import type { JsonObject, PlanRecord } from '@finwright/plan/protocol/record.ts'
import { describe, expect, test } from 'vitest'
import { addedCan, cansOf, removedCan, renamedCan } from '../src/features/plan/cans.commands.ts'
import {
  attachIntents,
  fileNameFor,
  historyFlight,
  rowBetween,
  rowsIntent,
  statesFlight,
  thrustFlight,
} from '../src/features/plan/flight/flight.commands.ts'
import { impulse, tableWords } from '../src/features/plan/flight/flight.results.ts'
import { libraryValue, materialsUsed } from '../src/features/plan/materials.results.ts'

const read = (name: string) => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), 'utf8')
const demo = (): PlanRecord => ({
  kind: 'plan',
  plan: JSON.parse(read('demo.fincan.json')) as JsonObject,
  files: { 'demo-thrust.csv': { sha256: '0'.repeat(64), size: 1 } },
})
const reference = { sha256: 'a'.repeat(64), size: 10 }

/** Every intent in order; what stands in the way, as issues. */
function after(record: PlanRecord, ...intents: readonly { name: string; payload: unknown }[]): PlanRecord {
  return intents.reduce((before, intent) => {
    const made = applyCommand(intent, before)
    expect(made.ok ? [] : made.issues).toEqual([])
    return made.ok ? made.record : before
  }, record)
}

describe('a file of the flight', () => {
  test('keeps its name, unless another file has it', () => {
    const record = { ...demo(), files: { ...demo().files, 'log.csv': reference } }
    expect(fileNameFor('thrust', 'demo-thrust.csv', record)).toBe('demo-thrust.csv')
    expect(fileNameFor('drag', 'log.csv', record)).toBe('log 2.csv')
    expect(fileNameFor('drag', '..\\up/there.csv', record)).toBe('-up-there.csv')
    expect(fileNameFor('history', '', record)).toBe('history.csv')
  })

  test('is attached and named', () => {
    const made = after(demo(), ...attachIntents('thrust', 'new.csv', reference))
    expect(made.files['new.csv']).toEqual(reference)
    expect((made.plan.flight as JsonObject).thrust).toBe('new.csv')
  })

  test('becomes rows of the plan, as they are written in it', () => {
    const intent = rowsIntent('thrust', read('demo-thrust.csv'), 'us')
    expect(intent).not.toBeNull()
    const made = after(demo(), intent!)
    const rows = (made.plan.flight as JsonObject).thrust as string[][]
    expect(rows).toHaveLength(12)
    expect(rows[1]).toEqual(['0.05 s', '1820 N'])
  })

  test('is not taken into the plan when it is longer than a plan holds', () => {
    const rows = Array.from({ length: 501 }, (_, i) => `${i},100,50`)
    expect(rowsIntent('history', `time (s),altitude (m),speed (m/s)\n${rows.join('\n')}\n`, 'metric')).toBeNull()
  })
})

describe('another kind of flight', () => {
  const named = { name: 'files.attach', payload: { name: 'f.csv', file: reference } }
  test.each([
    ['history', historyFlight('f.csv', demo().plan)],
    ['states', statesFlight()],
    ['thrust', thrustFlight('f.csv', { liftOffMass: '9 kg', propellantMass: '2 kg', drag: '0.55' }, demo().plan)],
  ] as const)('%s is a whole flight', (kind, intent) => {
    const made = after(demo(), named, intent)
    expect(made.plan.flight).toMatchObject({ kind })
  })

  test('a flight flown here takes the tube’s diameter for the drag coefficient', () => {
    const intent = thrustFlight('f.csv', { liftOffMass: '9 kg', propellantMass: '2 kg', drag: '0.55' }, demo().plan)
    expect(intent.payload).toMatchObject({ value: { diameter: '102.0 mm', drag: [[0, 0.55]] } })
  })
})

test('a new row stands half-way, or a step further on', () => {
  const rows = [
    ['0 s', '0 N'],
    ['0.5 s', '900 N'],
    ['1 s', '1 kN'],
  ]
  expect(rowBetween(rows, 1)).toEqual(['0.25 s', '450 N'])
  expect(rowBetween(rows, 3)).toEqual(['1.5 s', '1 kN'])
  expect(rowBetween(rows, 2)).toEqual(['0.75 s', '900 N'])
  expect(rowBetween([[0, 0.5]], 1)).toEqual([0, 0.5])
})

test('a thrust curve in words and its total impulse', () => {
  const columns = [
    [0, 1, 2],
    [0, 1000, 0],
  ]
  expect(impulse(columns)).toBe(1000)
  expect(tableWords('thrust', columns, 'metric')).toBe('3 points, 0 to 2 s; thrust 0 to 1000 N.')
  expect(
    tableWords(
      'history',
      [
        [0, 2],
        [0, 304.8],
        [0, 30.48],
      ],
      'us',
    ),
  ).toBe('2 points, 0 to 2 s; altitude above sea level 0 to 1000 ft, speed 0 to 100 ft/s.')
})

describe('cans', () => {
  const cans = cansOf(demo().plan.cans)
  const list = (record: PlanRecord) => cansOf(record.plan.cans).map(({ letter, purpose }) => `${letter} ${purpose}`)
  const made = (one: ReturnType<typeof addedCan>, record = demo()) => {
    expect(one.ok).toBe(true)
    return one.ok ? after(record, one.intent) : record
  }

  test('one more has the first free letter', () => {
    expect(list(made(addedCan(cans, true)))).toEqual(['A flight', 'B backup', 'C backup'])
    expect(list(made(removedCan(cans, true, 0)))).toEqual(['B backup'])
    expect(list(made(renamedCan(cans, true, 1, 'K')))).toEqual(['A flight', 'K backup'])
  })

  test('what was only a default is written down', () => {
    const { cans: _, ...plan } = demo().plan
    const record = { ...demo(), plan }
    expect(list(made(addedCan([{ letter: 'A', purpose: 'flight' }], false), record))).toEqual(['A flight', 'B backup'])
  })

  test('a letter that is taken, or none, says so', () => {
    for (const letter of ['A', 'AB', '', '1']) {
      const one = renamedCan(cans, true, 1, letter)
      expect(one.ok ? [] : one.issues).toMatchObject([{ path: 'cans[1].letter', value: letter }])
    }
  })
})

describe('materials', () => {
  const { plan } = demo()

  test('those in use, with what they are for', () => {
    const used = Object.fromEntries(materialsUsed(plan).map(({ id, as }) => [id, as]))
    expect(used).toMatchObject({
      'glass-plain-200': 'cloth of plies',
      g10: 'core',
      'glass-epoxy-tube': 'tube',
      'epoxy-paste': 'fillets',
    })
    expect(used).not.toHaveProperty('epoxy-slow')
  })

  test('the resin has a section of its own, unless the plan states it as a material', () => {
    const path = ['materials', 'epoxy-slow', 'density']
    const stated = after(demo(), { name: 'field.set', payload: { path, value: '1120 kg/m3' } })
    expect(materialsUsed(stated.plan).find(({ id }) => id === 'epoxy-slow')).toMatchObject({ as: 'resin', stated: 1 })
    expect(libraryValue(['resin', 'density'], stated.plan, 'metric')).toEqual({
      value: '1120 kg/m3',
      source: 'your own value under Materials',
    })
  })

  test('every property has the library’s value and its source', () => {
    for (const { id, properties } of materialsUsed(plan)) {
      expect(properties.length, id).toBeGreaterThan(2)
      for (const inside of properties) {
        const standing = libraryValue(['materials', id, ...inside], plan, 'metric')
        expect(standing?.source.length, `${id} ${inside.join('.')}`).toBeGreaterThan(10)
      }
    }
  })

  test('in the units that are shown', () => {
    expect(libraryValue(['materials', 'g10', 'E1'], plan, 'metric')?.value).toBe('18.6 GPa')
    expect(libraryValue(['materials', 'g10', 'nu12'], plan, 'us')?.value).toBe(0.14)
    expect(libraryValue(['resin', 'density'], plan, 'metric')?.value).toBe('1150 kg/m3')
    expect(libraryValue(['resin', 'tolerance'], plan, 'metric')).toBeNull()
  })

  test('an own value is one command, and the way back another', () => {
    const path = ['materials', 'g10', 'E1']
    const stated = after(demo(), { name: 'field.set', payload: { path, value: '19 GPa' } })
    expect(materialsUsed(stated.plan).find(({ id }) => id === 'g10')?.stated).toBe(1)
    const back = after(stated, { name: 'field.clear', payload: { path } })
    expect(materialsUsed(back.plan).find(({ id }) => id === 'g10')?.stated).toBe(0)
  })
})
