/** Two windows on one plan: what is carried over, what is refused, and with which words. */
import { describe, expect, test } from 'vitest'
import { applyBound, bindCommand, type NamedCommand } from '../../src/protocol/apply.ts'
import { inverse } from '../../src/protocol/change.ts'
import { rebase } from '../../src/protocol/rebase.ts'
import type { PlanRecord } from '../../src/protocol/record.ts'
import { valueAt } from '../../src/schema/locate.ts'
import { clothsOf, demoRecord, someFile } from './records.ts'

const set = (path: (string | number)[], value: unknown): NamedCommand => ({
  name: 'field.set',
  payload: { path, value },
})
const name = (of: string, payload: unknown): NamedCommand => ({ name: of, payload })

function bound(command: NamedCommand) {
  const read = bindCommand(command)
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return read.bound
}

function applied(command: NamedCommand, record: PlanRecord) {
  const made = applyBound(bound(command), record)
  if (!made.ok) throw new Error(JSON.stringify(made.issues))
  return made
}

/** Mine, made on the demo, after theirs was done. */
function meet(theirs: NamedCommand, mine: NamedCommand) {
  const there = applied(theirs, demoRecord())
  const carried = rebase(bound(mine), there.changes, there.record)
  if (!carried.ok) return carried
  const made = applyBound(carried.bound, there.record)
  if (!made.ok) throw new Error(JSON.stringify(made.issues))
  return { ok: true as const, record: made.record }
}

const angle = (i: number) => ['plies', i, 'angle']
const ply = { cloth: 'glass-plain-200', angle: '10 deg' }

interface Fit {
  readonly what: string
  readonly theirs: NamedCommand
  readonly mine: NamedCommand
  readonly see: (record: PlanRecord) => unknown
  readonly end: unknown
}

const third = (record: PlanRecord) =>
  clothsOf(record)
    .map((text) => String(text).split(' ')[1] ?? '–')
    .join(' ')

const fits: readonly Fit[] = [
  {
    what: 'another field',
    theirs: set(['tube', 'wall'], '3 mm'),
    mine: set(['name'], 'Mine'),
    see: ({ plan }) => [plan.name, valueAt(plan, ['tube', 'wall'])],
    end: ['Mine', '3 mm'],
  },
  {
    what: 'another field of the same ply',
    theirs: set(angle(1), '30 deg'),
    mine: set(['plies', 1, 'cloth'], 'glass-veil-49'),
    see: ({ plan }) => valueAt(plan, ['plies', 1, 'angle']),
    end: '30 deg',
  },
  {
    what: 'a ply put in before it',
    theirs: name('plies.insert', { at: 0, entry: ply }),
    mine: set(angle(1), '30 deg'),
    see: third,
    end: '10 0 30 0 45 0 – –',
  },
  {
    what: 'a ply taken out before it',
    theirs: name('plies.remove', { at: 0 }),
    mine: set(angle(1), '30 deg'),
    see: third,
    end: '30 0 45 0 – –',
  },
  {
    what: 'it moved',
    theirs: name('plies.move', { from: 1, to: 4 }),
    mine: set(angle(1), '30 deg'),
    see: third,
    end: '0 0 45 0 30 – –',
  },
  {
    what: 'a ply duplicated before it',
    theirs: name('plies.duplicate', { at: 0 }),
    mine: set(angle(1), '30 deg'),
    see: third,
    end: '0 0 30 0 45 0 – –',
  },
  {
    what: 'a ply changed, another moved',
    theirs: set(angle(1), '30 deg'),
    mine: name('plies.move', { from: 0, to: 2 }),
    see: third,
    end: '30 0 0 45 0 – –',
  },
  {
    what: 'the same value',
    theirs: set(angle(1), '30 deg'),
    mine: set(angle(1), '30 deg'),
    see: third,
    end: '0 30 0 45 0 – –',
  },
  {
    what: 'the same units',
    theirs: name('plan.setUnits', { units: 'us' }),
    mine: name('plan.setUnits', { units: 'us' }),
    see: ({ plan }) => plan.units,
    end: 'us',
  },
  {
    what: 'another file',
    theirs: name('files.attach', { name: 'a.csv', file: someFile('a') }),
    mine: name('files.attach', { name: 'b.csv', file: someFile('b') }),
    see: ({ files }) => Object.keys(files),
    end: ['a.csv', 'b.csv'],
  },
]

interface Clash {
  readonly what: string
  readonly theirs: NamedCommand
  readonly mine: NamedCommand
  readonly path: string
  readonly says: string
}

const clashes: readonly Clash[] = [
  {
    what: 'the same field',
    theirs: set(angle(1), '30 deg'),
    mine: set(angle(1), '60 deg'),
    path: 'plies[1].angle',
    says: 'here "60 deg", now it is "30 deg"',
  },
  {
    what: 'the ply taken out',
    theirs: name('plies.remove', { at: 1 }),
    mine: set(angle(1), '60 deg'),
    path: 'plies[1].angle',
    says: 'no longer there',
  },
  {
    what: 'taking out a ply that was changed',
    theirs: set(angle(1), '30 deg'),
    mine: name('plies.remove', { at: 1 }),
    path: 'plies[1]',
    says: '30 deg',
  },
  {
    what: 'two orders of one list',
    theirs: name('plies.move', { from: 0, to: 3 }),
    mine: name('plies.insert', { at: 0, entry: ply }),
    path: 'plies',
    says: 'changed in another window',
  },
  {
    what: 'an object and a field in it',
    theirs: set(['tube', 'wall'], '3 mm'),
    mine: set(['tube'], { outerDiameter: '4 in', wall: '2 mm', material: 'glass-epoxy-tube' }),
    path: 'tube',
    says: '3 mm',
  },
  {
    what: 'a field and the object it is in',
    theirs: name('outline.setPoints', {
      points: [
        ['0 mm', '0 mm'],
        ['100 mm', '90 mm'],
        ['200 mm', '0 mm'],
      ],
    }),
    mine: set(['fins', 'outline', 'span'], '100 mm'),
    path: 'fins.outline.span',
    says: 'now it is missing',
  },
  {
    what: 'the list given anew',
    theirs: set(['plies'], [ply]),
    mine: name('plies.move', { from: 0, to: 3 }),
    path: 'plies',
    says: '10 deg',
  },
  {
    what: 'another plan in its place',
    theirs: set(['name'], 'Theirs'),
    mine: name('plan.replace', { plan: demoRecord().plan }),
    path: '',
    says: 'The plan was changed',
  },
  {
    what: 'the same file',
    theirs: name('files.attach', { name: 'a.csv', file: someFile('a') }),
    mine: name('files.attach', { name: 'a.csv', file: someFile('b') }),
    path: 'files.a.csv',
    says: 'aaaa',
  },
]

describe('two windows', () => {
  test.each(fits)('$what: both are kept', ({ theirs, mine, see, end }) => {
    const met = meet(theirs, mine)
    expect(met.ok ? [] : met.issue).toEqual([])
    if (met.ok) expect(see(met.record)).toEqual(end)
  })

  test.each(clashes)('$what: refused with both values', ({ theirs, mine, path, says }) => {
    const met = meet(theirs, mine)
    expect(met.ok).toBe(false)
    if (met.ok) return
    expect(met.issue).toMatchObject({ code: 'command/conflict', path })
    expect(met.issue.message).toContain(says)
    expect(met.conflict.path).toBe(path)
  })
})

test('the inverse of a change carries a place back to where it was', () => {
  const { record, changes } = applied(name('plies.move', { from: 0, to: 3 }), demoRecord())
  const there = rebase(bound(set(angle(2), '60 deg')), changes, record)
  const back = there.ok ? rebase(there.bound, inverse(changes), demoRecord()) : there
  expect(back.ok ? back.bound.footprint.values : back.issue).toEqual([angle(2)])
})
