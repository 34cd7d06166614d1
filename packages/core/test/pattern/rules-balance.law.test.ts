/** A fin balances about its core when its laminate says so: by A, B and D, and by how it warps as it cools. */
import { describe, expect, test } from 'vitest'
import { clothExpansion } from '../../src/laminate/expansion.ts'
import { sheetLayer } from '../../src/laminate/layer.ts'
import { curedPly } from '../../src/laminate/ply.ts'
import { clothList } from '../../src/material/cloths.data.ts'
import { resinList } from '../../src/material/resins.data.ts'
import { sheetList } from '../../src/material/sheets.data.ts'
import { type BalanceInput, finBalance } from '../../src/pattern/rules-balance.ts'
import { steps } from './demo.ts'

const degree = Math.PI / 180
const glass = clothList.find(({ id }) => id === 'glass-plain-200')!
const resin = resinList[0]!
const g10 = sheetList.find(({ id }) => id === 'g10')!
/** The same both ways, in stiffness and in expansion. */
const even = { ...g10, E2: g10.E1 }

interface Case {
  readonly angles: readonly number[]
  readonly warpShare?: number
  readonly mirror?: boolean
  readonly fins?: number
  readonly grain?: number
  readonly core?: typeof g10
  readonly cooling?: number
}

function input({ angles, warpShare = 0.5, mirror = false, fins = 4, grain = 0, core = g10, cooling = -36 }: Case) {
  const cloth = { ...glass, warpShare: { ...glass.warpShare, value: warpShare } }
  const recipe = { cloth, resin, resinPerCloth: 1, voidFraction: 0 }
  const ply = curedPly(recipe)
  return {
    finCount: fins,
    span: 0.11,
    core: {
      layer: sheetLayer(core, { theta: grain * degree, t: 3.2e-3, name: 'core' }),
      expansion: core === g10 ? { alpha1: 11e-6, alpha2: 13e-6 } : { alpha1: 12e-6, alpha2: 12e-6 },
    },
    plies: angles.map((angle, i) => ({
      id: `P${i + 1}`,
      ply,
      angle: angle * degree,
      index: i,
      stepBack: steps(0.015 * (angles.length - 1 - i)),
      expansion: clothExpansion(recipe, ply.fibreVolumeFraction),
    })),
    mirrorAlternateBays: mirror,
    cooling,
  } satisfies BalanceInput
}

const of = (one: Case) => finBalance(input(one))
const codes = (one: Case) => of(one).issues.map(({ code }) => code)
const alternate = [0, 45, 0, 45, 0]

describe('what couples', () => {
  test('balanced cloth at 0° and 45° does not, to rounding, in any zone', () => {
    const { balance, issues } = of({ angles: alternate })
    expect(issues).toEqual([])
    expect(balance.zones).toHaveLength(5)
    for (const { coupling, tipTwist, tipBow } of balance.zones) {
      expect(Math.max(coupling.bendStretch, coupling.bendTwist, coupling.stretchShear)).toBeLessThan(1e-12)
      expect(Math.abs(tipTwist) + Math.abs(tipBow)).toBeLessThan(1e-12)
    }
  })

  test('an odd angle does, whatever the words of the schedule, and the ply is named', () => {
    const { issues } = of({ angles: [0, 30, 0, 45, 0] })
    expect(issues.map(({ code }) => code)).toEqual(['pattern/angle-couples'])
    expect(issues[0]!.path).toBe('plies[1].angle')
    expect(issues[0]!.message).toContain('P2 at 30')
    expect(issues[0]!.message).not.toContain('P4')
  })

  test('cloth with more warp than weft does at 45°, and not along the axes', () => {
    expect(codes({ angles: alternate, warpShare: 0.7 })).toEqual(['pattern/angle-couples'])
    expect(codes({ angles: [0, 90, 0], warpShare: 0.9 })).toEqual([])
  })

  test('a ply laid a degree off is under the limit, two degrees are over it', () => {
    expect(codes({ angles: [0, 45.9, 0, 45, 0] })).toEqual([])
    expect(codes({ angles: [0, 47, 0, 45, 0] })).toEqual(['pattern/angle-couples'])
  })

  test('mirrored bays take B away and leave D16; with an odd number of fins they help nothing', () => {
    const mirrored = of({ angles: [0, 30, 0], mirror: true })
    expect(mirrored.issues.map(({ code }) => code)).toEqual(['pattern/bends-and-twists'])
    expect(mirrored.issues[0]!.message).toContain('opposite ways')
    expect(mirrored.balance.zones[0]!.coupling.bendStretch).toBeLessThan(1e-12)
    expect(codes({ angles: [0, 30, 0], mirror: true, fins: 3 })).toEqual([
      'pattern/mirror-odd',
      'pattern/angle-couples',
    ])
  })

  test('the core’s grain off the axes makes the fin twist as it bends, and is named', () => {
    const { issues } = of({ angles: alternate, grain: 20 })
    expect(issues.map(({ code, path }) => `${code} ${path}`)).toEqual(['pattern/bends-and-twists fins.core.grain'])
    expect(issues[0]!.message).not.toContain('opposite')
  })
})

describe('how it warps', () => {
  const twist = (one: Case) => of(one).balance.zones[0]!.tipTwist

  test('in proportion to the cooling, and the other way for the other angle', () => {
    const once = twist({ angles: [0, 45, 0], warpShare: 0.7 })
    expect(Math.abs(once)).toBeGreaterThan(1e-4)
    expect(twist({ angles: [0, 45, 0], warpShare: 0.7, cooling: -72 }) / once).toBeCloseTo(2, 9)
    expect(twist({ angles: [0, -45, 0], warpShare: 0.7 }) / once).toBeCloseTo(-1, 9)
    expect(twist({ angles: [0, 45, 0], warpShare: 0.3 }) / once).toBeCloseTo(-1, 1)
  })

  /**
   * Balanced cloth expands alike in every direction and its Q̄16 = −Q̄26 at every angle, so that on a core that is the same both
   * ways B acts on (ε, ε, 0) and gives nothing: it couples loads, but cooling does not twist it.
   */
  test('balanced cloth at 30° on an even core couples and yet does not warp', () => {
    const { balance } = of({ angles: [0, 30, 0], core: even })
    expect(balance.zones[0]!.coupling.bendStretch).toBeGreaterThan(0.01)
    expect(Math.abs(balance.zones[0]!.tipTwist)).toBeLessThan(1e-12)
  })
})
