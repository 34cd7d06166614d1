/** The designs of the examples, number by number; conversions written out from the exact definitions. */
import type { CanDesign, StudyDesign } from '@finwright/core/assess/design.ts'
import { adhesives, cloths, fibres, resinSystems, sheets } from '@finwright/core/material/catalogue.ts'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'
import { edgeNames } from '../src/resolve/outline.ts'
import { beside, demo, type Json, put, readExample } from './demo.ts'

const designOf = <D>(name: string): D => {
  const read = readExample(name)
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return read.value.design as D
}

const changed = (...edits: readonly (readonly [string, Json])[]): CanDesign => {
  const plan = demo()
  for (const [path, value] of edits) put(plan, path, value)
  const read = readPlan({ text: JSON.stringify(plan), readAttachment: beside })
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return read.value.design as CanDesign
}

describe('the demo', () => {
  const design = designOf<CanDesign>('demo.fincan.json')

  test('tube and fins', () => {
    expect(design.tube).toEqual({
      outerRadius: 0.051,
      wall: 0.002,
      material: sheets['glass-epoxy-tube'],
      aftRadius: 0.051,
      ahead: null,
      behind: null,
      backing: 'coupler',
    })
    expect(design.fins).toEqual({
      count: 4,
      mounting: { kind: 'surface' },
      outline: {
        points: [
          [0, 0],
          [0.15, 0.11],
          [0.27, 0.11],
          [0.3, 0],
        ],
        edges: ['leading', 'tip', 'trailing'],
      },
      core: { material: sheets.g10, thickness: 0.0032, grain: 0 },
      edges: {
        leading: { kind: 'bevel', width: 0.012, land: 0.0008 },
        tip: { kind: 'square', width: 0, land: 0.0032 },
        trailing: { kind: 'bevel', width: 0.012, land: 0.0008 },
      },
      cant: 0,
      fillet: {
        radius: 0.015,
        radiusAft: 0.015,
        runOut: { forward: 0.015, aft: 0.015 },
        adhesive: adhesives['epoxy-paste'],
        waste: 0.3,
      },
      joint: { bondLine: 3e-4, knockDown: 4.5, opening: 5e6 },
    })
  })

  test('plies, numbered from the core outward', () => {
    expect(design.plies.map(({ id, angle, role }) => [id, angle, role])).toEqual([
      ['P1', 0, 'structural'],
      ['P2', Math.PI / 4, 'structural'],
      ['P3', 0, 'structural'],
      ['P4', Math.PI / 4, 'structural'],
      ['P5', 0, 'structural'],
      ['V1', 0, 'surface'],
      ['R1', 0, 'peel'],
    ])
    expect(design.plies[0]).toEqual({
      id: 'P1',
      cloth: cloths['glass-plain-200'],
      angle: 0,
      role: 'structural',
      cover: 'bay',
      onBody: 0,
      wrap: 0,
      stepBack: { leading: 0.06, trailing: 0.06, tip: 0.06, bodyForward: 0.06, bodyAft: 0.06 },
      overhang: { edges: 0.01, bodyEnds: 0.01 },
    })
  })

  test('every ply covers the one below, and only the last structural ply reaches the edges', () => {
    const structural = design.plies.filter(({ role }) => role === 'structural')
    for (const [i, ply] of structural.slice(0, -1).entries()) {
      const next = structural[i + 1]!
      for (const key of ['leading', 'trailing', 'tip', 'bodyForward', 'bodyAft'] as const) {
        expect(ply.stepBack[key] - next.stepBack[key]).toBeGreaterThanOrEqual(0.015 - 1e-12)
      }
    }
    expect(Object.values(structural.at(-1)!.stepBack)).toEqual([0, 0, 0, 0, 0])
  })

  test('mixing, shop and stock', () => {
    expect(design.mixing.hardenerPerResin).toBeCloseTo(0.284, 15)
    expect(design.mixing.stated).toEqual({ by: 'mass', text: '100:28.4 by mass' })
    expect(design.shop).toEqual({ temperature: 295.15, humidity: 0.5, setUpTime: 300, timePerPly: 360 })
    expect(design.resin.workingTime).toEqual({ value: 3600, source: 'stated in the plan', confidence: 'plan' })
    expect(design.resin.workingMass.value).toBe(0.1)
    expect(design.resin.E).toBe(resinSystems['epoxy-slow']!.E)
    expect(design.stock.rolls[0]).toMatchObject({ id: 'glass 200 wide', width: 0.965, length: 12, selvedge: 0.01 })
  })

  test('flaws of a roll: two corners are a rectangle, more an outline; none unless stated', () => {
    expect(design.stock.rolls.map(({ defects }) => defects)).toEqual([[], [], []])
    const flaws = [
      [
        ['1 m', '20 cm'],
        ['1.5 m', '300 mm'],
      ],
      [
        ['0 mm', '0 mm'],
        ['1 in', '0 in'],
        ['0 mm', '10 mm'],
      ],
    ]
    expect(changed(['stock.rolls.0.defects', flaws]).stock.rolls[0]!.defects).toEqual([
      [
        [1, 0.2],
        [1.5, 0.2],
        [1.5, 0.3],
        [1, 0.3],
      ],
      [
        [0, 0],
        [0.0254, 0],
        [0, 0.01],
      ],
    ])
  })

  test('flight', () => {
    const { flight } = design
    if (flight.kind !== 'thrust') throw new Error(flight.kind)
    expect(flight.time.length).toBe(12)
    expect(flight.thrust[4]).toBe(2130)
    expect(flight.referenceArea).toBeCloseTo(Math.PI * 0.051 ** 2, 15)
    expect(design.loads).toEqual({
      angleOfAttack: Math.PI / 90,
      wind: { steady: 6, gust: 9, railLength: 3 },
      tipLoad: 100,
      structuralDamping: 0,
      speedRatio: 1.15,
    })
    expect(flight).toMatchObject({ liftOffMass: 11.2, propellantMass: 3.2, siteAltitude: 200, temperatureOffset: 0 })
  })
})

describe('the small can in US units', () => {
  const design = designOf<CanDesign>('small-us.fincan.json')

  test('inches, fractions and mixed numbers', () => {
    expect(design.tube.outerRadius).toBe(0.03937)
    expect(design.fins.outline.points).toEqual([
      [0, 0],
      [0.0762, 0.09525],
      [0.0762 + 0.0889, 0.09525],
      [0.1778, 0],
    ])
    expect(design.fins.mounting).toEqual({ kind: 'tabbed', depth: 0.015875, forward: 0.0127, aft: 0.0127 })
    expect(design.fins.core.thickness).toBe(0.003175)
    expect(design.fins.core.grain).toBe(Math.PI / 2)
  })

  test('wind in place of an angle of attack', () => {
    expect(design.loads.angleOfAttack).toBe(null)
    expect(design.loads.wind).toEqual({ steady: 12 * 0.44704, gust: 12 * 0.44704, railLength: 8 * 0.3048 })
  })

  test('a round edge without a width is a half circle', () => {
    expect(design.fins.edges.leading).toEqual({ kind: 'round', width: 0.003175 / 2, land: 0 })
  })

  test('a weighed cloth shows as stated in the plan', () => {
    const { cloth } = design.plies[0]!
    expect(cloth.name).toBe('Glass plain, weighed')
    expect(cloth.arealMass.confidence).toBe('plan')
    expect(cloth.arealMass.value).toBeCloseTo((3.1 * 0.45359237) / 16 / 0.9144 ** 2, 15)
    expect(cloth.warpShare).toBe(cloths['glass-plain-100']!.warpShare)
  })

  test('3:1 by volume is weighed with both densities, not as 3:1 by mass', () => {
    expect(design.mixing.hardenerPerResin).toBeCloseTo(61.2 / 71.8 / 3, 15)
    expect(design.mixing.hardenerPerResin).toBeLessThan(0.9 / 3)
    expect(design.mixing.stated).toEqual({ by: 'volume', text: '3:1 by volume' })
  })

  test('temperatures, masses and forces', () => {
    expect(design.shop.temperature).toBeCloseTo((72 + 459.67) / 1.8, 12)
    expect(design.stock.resin).toBe(0.680388555)
    const { flight } = design
    expect(flight).toMatchObject({ liftOffMass: 2.494758035, temperatureOffset: 5, siteAltitude: 365.76 })
  })
})

describe('the studies', () => {
  test('square plate', () => {
    const design = designOf<StudyDesign>('study-square-plate.fincan.json')
    expect(design.outline).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ])
    expect(design.supports).toEqual(['clamped', 'free', 'free', 'free'])
    expect(design.plate).toMatchObject({
      kind: 'sheet',
      axis: 0,
      material: { E1: { value: 200e9 }, E2: { value: 200e9 }, nu12: { value: 0.3 }, density: { value: 8000 } },
      thickness: { kind: 'constant', fraction: [0, 1], thickness: [0.05, 0.05] },
    })
    if (design.plate.kind === 'sheet') expect(design.plate.material.G12.value).toBe(200e9 / 2.6)
    expect(design).toMatchObject({
      air: null,
      modeCount: 6,
      imposedFrequencies: null,
      angleOfAttack: null,
      pointLoad: null,
    })
  })

  test('swept plate: G is stated, so that nu follows', () => {
    const design = designOf<StudyDesign>('study-swept-plate.fincan.json')
    if (design.plate.kind !== 'sheet') throw new Error('no sheet')
    expect(design.plate.material.E1.value / 63.72e9).toBeCloseTo(1, 4)
    expect(design.plate.material.G12.value / 24.13e9).toBeCloseTo(1, 3)
    expect(design.plate.material.nu12.value).toBeCloseTo(9.2418 / 2 / 3.4993 - 1, 12)
    expect(design.plate.material.density.value / 2698).toBeCloseTo(1, 3)
    expect(design.plate.thickness).toEqual({
      kind: 'absolute',
      fraction: [0, 0.125, 0.875, 1],
      thickness: [0, 0.0010414, 0.0010414, 0],
    })
    expect(design.air?.states.map(({ mach, density }) => [mach, density])).toEqual([
      [1.3, 0.2522],
      [3, 0.2522],
    ])
    expect(design.air).toMatchObject({ flowDirection: 0, pistonOrder: 2, aerodynamicDamping: true, faces: 2 })
    expect(design.imposedFrequencies).toEqual([34.34, 210, 260.4, 634.8])
  })
})

describe('what a plan may also say', () => {
  test('a free outline, its edges named or stated', () => {
    const points: Json = [
      ['0 mm', '0 mm'],
      ['50 mm', '80 mm'],
      ['150 mm', '110 mm'],
      ['270 mm', '110 mm'],
      ['300 mm', '0 mm'],
    ]
    expect(changed(['fins.outline', { kind: 'points', points }]).fins.outline.edges).toEqual([
      'leading',
      'leading',
      'tip',
      'trailing',
    ])
    const edges = ['leading', 'tip', 'tip', 'trailing']
    expect(changed(['fins.outline', { kind: 'points', points, edges }]).fins.outline.edges).toEqual(edges)
  })

  test('a triangle has no tip', () => {
    const { outline } = changed(['fins.outline.tip', '0 mm']).fins
    expect(outline).toEqual({
      points: [
        [0, 0],
        [0.15, 0.11],
        [0.3, 0],
      ],
      edges: ['leading', 'trailing'],
    })
    expect(
      edgeNames([
        [0, 0],
        [1, 1],
        [2, 0.5],
        [3, 1],
        [4, 0],
      ]),
    ).toEqual(['leading', 'trailing', 'trailing', 'trailing'])
  })

  test('a history flown elsewhere, and air states', () => {
    const csv = 'time (s),altitude (ft),speed (ft/s)\n0,0,0\n1,100,300\n2,500,500\n'
    const plan = demo()
    put(plan, 'flight', { kind: 'history', history: 'flown.csv' })
    const read = readPlan({ text: JSON.stringify(plan), readAttachment: () => ({ ok: true, text: csv }) })
    expect(read.ok && (read.value.design as CanDesign).flight).toEqual({
      kind: 'history',
      time: [0, 1, 2],
      altitude: [0, 100 * 0.3048, 500 * 0.3048],
      speed: [0, 300 * 0.3048, 500 * 0.3048],
      temperatureOffset: 0,
    })
    const { flight } = changed([
      'flight',
      { kind: 'states', states: [{ mach: 2, density: '1 kg/m3', temperature: '15 degC' }] },
    ])
    // 340.294 m/s at 288.15 K: U.S. Standard Atmosphere, 1976, table of sea-level values.
    expect(flight.kind === 'states' && flight.states[0]!.soundSpeed).toBeCloseTo(340.294, 3)
  })

  test('the check square as measured, a ratio as a number, radians', () => {
    const design = changed(
      ['printing.checkSquare', { across: '97.1 mm', along: '99.8 mm' }],
      ['printing.cutterSquare', { across: '98.5 mm', along: '100 mm' }],
      ['printing.sections', [{ from: ['0 mm', '-140 mm'], to: ['300 mm', '140 mm'] }]],
      ['layup.resinPerCloth', 0.9],
      ['fins.core.grain', '0.5 rad'],
    )
    expect(design.printing.measured).toEqual({ across: 0.0971, along: 0.0998 })
    expect([design.printing.roll, design.printing.cutter]).toEqual([null, { across: 0.0985, along: 0.1 }])
    expect(design.layup.resinPerCloth).toBe(0.9)
    expect(design.printing.sections).toEqual([{ from: [0, -0.14], to: [0.3, 0.14] }])
    expect(design.fins.core.grain).toBe(0.5)
  })

  test('a material of its own, a fibre changed under every cloth of it', () => {
    const design = changed(
      ['materials', { mine: { like: 'glass-twill-280', arealMass: '270 g/m2' }, 'e-glass': { E1: '70 GPa' } }],
      ['plies.0.cloth', 'mine'],
    )
    expect(design.plies[0]!.cloth).toMatchObject({
      id: 'mine',
      name: 'mine',
      weave: 'twill',
      arealMass: { value: 0.27 },
    })
    expect(design.plies.slice(0, 6).map(({ cloth }) => cloth.fibre.E1.value)).toEqual([
      7e10, 7e10, 7e10, 7e10, 7e10, 7e10,
    ])
  })

  test('all five strengths stated hold as they stand', () => {
    const strengths = { Xt: '300 MPa', Xc: '300 MPa', Yt: '300 MPa', Yc: '300 MPa', S: '50 MPa' }
    const whole = changed(['materials', { 'glass-plain-200': { strengths } }]).plies[0]!.cloth.strengths
    const part = changed(['materials', { 'glass-plain-200': { strengths: { Xt: '300 MPa' } } }]).plies[0]!.cloth
      .strengths
    expect(whole).not.toHaveProperty('fibreFraction')
    expect(part).toMatchObject({ Xt: { value: 3e8, confidence: 'plan' }, Xc: cloths['glass-plain-200']!.strengths!.Xc })
    expect(part).toHaveProperty('fibreFraction')
  })
})

test('no two materials of the catalogue share a name', () => {
  const ids = [fibres, cloths, resinSystems, adhesives, sheets].flatMap((shelf) => Object.keys(shelf))
  expect(new Set(ids).size).toBe(ids.length)
})
