/** The root at a temperature: nothing changes at the factor one, and a softer resin gives more. */
import { expect, test } from 'vitest'
import { rootHold } from '../../src/bond/joint/root-hold.ts'
import { softenedRoot } from '../../src/bond/joint/softened-root.ts'
import { demoRoot } from './demo-root.ts'

const turn = (adhesive: number, resin: number): number => {
  const hold = rootHold({ ...softenedRoot(demoRoot(), { adhesive, resin }), backing: 'coupler' })
  if (!hold.ok) throw new Error('the hold is computed')
  return hold.value.likely.beyondBare.MM
}

test('a factor of one changes nothing', () => {
  expect(softenedRoot(demoRoot(), { adhesive: 1, resin: 1 })).toEqual(demoRoot())
})

test('softer adhesive and softer skins turn more', () => {
  const turns = [turn(1, 1), turn(0.6, 1), turn(0.6, 0.6), turn(0.2, 0.2), turn(0.05, 0.05)]
  for (let k = 1; k < turns.length; k++) expect(turns[k]).toBeGreaterThan(turns[k - 1])
})

test('a factor that is none is a broken promise', () => {
  expect(() => softenedRoot(demoRoot(), { adhesive: 0, resin: 1 })).toThrow()
  expect(() => softenedRoot(demoRoot(), { adhesive: 1, resin: Number.NaN })).toThrow()
})
