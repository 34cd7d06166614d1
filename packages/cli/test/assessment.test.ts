/** The assessment as other programs read it: every leaf present, every number finite, every null explained. */
import { describe, expect, test } from 'vitest'
import { assessed, example, examples, type RawPlan, refusal } from './plans.ts'

/** Paths that are there whatever the plan; values may be null. */
const leaves = [
  'flight.maximumMach flight.maximumDynamicPressure_Pa flight.history',
  'fin.area_m2 fin.mass_kg fin.thickness_m.root fin.thickness_m.tip fin.laminates',
  'structure.modes structure.tipLoad',
  'flutter.boundary flutter.divergence flutter.margin.speedRatio flutter.margin.at flutter.screening',
  'strength.failureIndex strength.ply strength.position_m strength.criterion',
  'bond.fillet bond.margin',
  'roll.history roll.maximumRollRate_deg_s roll.tolerance.cant_deg',
  'pattern.pieces nest.rolls',
  'resin.cloth_kg resin.resin_kg resin.hardener_kg resin.batches',
  'warnings',
].flatMap((line) => line.split(' '))

// biome-ignore lint/suspicious/noExplicitAny: walks an object of unknown shape
const at = (object: any, path: string): unknown => path.split('.').reduce((part, key) => part?.[key], object)

function notFinite(value: unknown, path = ''): string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [`${path} = ${value}`]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, part]) => notFinite(part, `${path}.${key}`))
}

describe.each(examples)('%s', (name) => {
  const assessment = assessed(example(name))

  test('has every leaf of the interface', () => {
    expect(leaves.filter((leaf) => at(assessment, leaf) === undefined)).toEqual([])
  })

  test('has no number that is not finite, which JSON would turn into null', () => {
    expect(notFinite(assessment)).toEqual([])
  })

  test('explains what is null', () => {
    const explained = assessment.warnings.map(({ path }) => path)
    const silent = leaves
      .filter((leaf) => at(assessment, leaf) === null)
      .filter((leaf) => !explained.some((path) => path === '' || leaf.startsWith(path) || path.startsWith(leaf)))
    expect(
      silent.filter((leaf) => !['flutter.margin.at', 'structure.tipLoad', 'flutter.screening'].includes(leaf)),
    ).toEqual([])
  })

  test('every warning has a code, a message and a way out', () => {
    for (const { code, message, hint } of assessment.warnings) {
      expect(code).toMatch(/^[a-z-]+\/[a-z-]+$/)
      expect(message.length).toBeGreaterThan(20)
      expect(hint).not.toBe('')
    }
  })
})

describe('the demo', () => {
  const assessment = assessed(example('demo'))

  test('a fin weighs what its parts weigh', () => {
    const { fin } = assessment
    // Root 300, tip 120, span 110: 231 cm². Bevels of 12 mm take (3.2 − 0.8)/2 mm off on average over their strips.
    const bevels = 0.012 * 0.0012 * (Math.hypot(0.15, 0.11) + Math.hypot(0.03, 0.11))
    const core = (0.0231 * 0.0032 - bevels) * 1820
    const skins = 2 * assessment.pattern.shapes.length
    expect(skins).toBe(14)
    expect(fin.area_m2).toBeCloseTo(0.0231, 12)
    expect(fin.mass_kg).toBeGreaterThan(core)
    // The skins: no more than five full plies and a veil on both faces.
    expect(fin.mass_kg).toBeLessThan(core + 2 * 0.0231 * (5 * 0.4 + 0.098))
  })

  test('root moment of the tip load is force times span', () => {
    const { tipLoad } = assessment.structure
    expect(tipLoad?.force_N).toBe(100)
    expect(tipLoad?.rootMoment_Nm).toBeCloseTo(100 * 0.11, 6)
  })

  test('the laminate is balanced about its core', () => {
    for (const { couplingStiffness_N, extensionalStiffness_N_m } of assessment.fin.laminates) {
      const scale = extensionalStiffness_N_m[0][0] * 1e-3
      for (const row of couplingStiffness_N) for (const B of row) expect(Math.abs(B) / scale).toBeLessThan(1e-9)
    }
  })

  test('an angle that is not 0, 45 or 90 couples bending and stretching, and is said', () => {
    const skew = assessed(
      example('demo', (plan) => {
        plan.plies[4].angle = '20 deg'
      }),
    )
    const B = skew.fin.laminates[0].couplingStiffness_N
    expect(Math.abs(B[0][2])).toBeGreaterThan(1)
    expect(skew.pattern.rules.map(({ code }) => code).join(' ')).toMatch(/balance|couple/i)
  })

  test('mirrored alternate bays take the coupling away', () => {
    const skew = assessed(
      example('demo', (plan) => {
        plan.plies[4].angle = '20 deg'
        plan.layup.mirrorAlternateBays = true
      }),
    )
    const { couplingStiffness_N, extensionalStiffness_N_m, bendingStiffness_Nm } = skew.fin.laminates[0]
    expect(Math.abs(couplingStiffness_N[0][2]) / (extensionalStiffness_N_m[0][0] * 1e-3)).toBeLessThan(1e-9)
    expect(Math.abs(bendingStiffness_Nm[0][2])).toBeGreaterThan(1)
    const angles = skew.pattern.pieces
      .filter(({ ply }) => ply === 'P5')
      .map(({ bay, angle_deg }) => [bay % 2, angle_deg])
    for (const [odd, angle] of angles) expect(angle).toBeCloseTo(odd === 1 ? 20 : -20, 9)
  })

  test('thicker cloth raises every frequency', () => {
    const heavier = assessed(
      example('demo', (plan) => {
        plan.materials = { 'glass-plain-200': { arealMass: '300 g/m2' } }
      }),
    )
    assessment.structure.modes.forEach(({ frequency_Hz }, i) => {
      expect(heavier.structure.modes[i].frequency_Hz).toBeGreaterThan(frequency_Hz)
    })
  })
})

describe('cans of every kind go through', () => {
  const kinds: readonly (readonly [string, (plan: RawPlan) => void])[] = [
    [
      'a triangular fin',
      (plan) => {
        plan.fins.outline = { kind: 'trapezoid', root: '300 mm', tip: '0 mm', span: '130 mm', tipOffset: '200 mm' }
        plan.fins.edges.tip = { shape: 'square' }
      },
    ],
    [
      'a fin with a clipped tip and a strake',
      (plan) => {
        plan.fins.outline = {
          kind: 'points',
          points: [
            ['0 mm', '0 mm'],
            ['60 mm', '20 mm'],
            ['150 mm', '100 mm'],
            ['175 mm', '110 mm'],
            ['270 mm', '110 mm'],
            ['300 mm', '0 mm'],
          ],
        }
      },
    ],
    [
      'a fin swept forward',
      (plan) => {
        plan.fins.outline.tipOffset = '-30 mm'
      },
    ],
    [
      'three fins',
      (plan) => {
        plan.fins.count = 3
      },
    ],
    [
      'eight fins on a larger tube',
      (plan) => {
        plan.fins.count = 8
        plan.tube.outerDiameter = '160 mm'
        plan.fins.fillet.radius = '10 mm'
      },
    ],
    [
      'a plywood core with rounded edges',
      (plan) => {
        plan.fins.core = { material: 'birch-plywood', thickness: '6 mm', grain: '90 deg' }
        plan.fins.edges.leading = { shape: 'round', width: '8 mm', land: '1 mm' }
      },
    ],
    [
      'one ply alone',
      (plan) => {
        plan.plies = [plan.plies[4], plan.plies[6]]
      },
    ],
    [
      'air states instead of a flight, all above Mach 2',
      (plan) => {
        plan.flight = { kind: 'states', states: [{ mach: 2.2, density: '0.6 kg/m3', soundSpeed: '310 m/s' }] }
      },
    ],
  ]

  test.each(kinds)('%s', (_, change) => {
    const { structure, fin, pattern, nest } = assessed(example('demo', change))
    expect(notFinite({ structure, fin, pattern, nest })).toEqual([])
    const frequencies = structure.modes.map(({ frequency_Hz }) => frequency_Hz)
    expect(frequencies[0]).toBeGreaterThan(10)
    expect([...frequencies].sort((a, b) => a - b)).toEqual(frequencies)
    const placed = nest.rolls.reduce((sum, { placements }) => sum + placements.length, 0)
    expect(placed).toBe(pattern.pieces.length)
  })

  test('above Mach 2 throughout there is a verdict', () => {
    const { flutter } = assessed(example('demo', kinds.at(-1)![1]))
    expect(flutter.margin.verdict).not.toBe('not determined')
    expect(flutter.margin.speedRatio).toBeGreaterThan(0.2)
    expect(flutter.boundary[0].method).toMatch(/supersonic surface/)
  })

  test('beyond the envelope there is none, and it never reads as a pass', () => {
    const beyond = (plan: RawPlan): void => {
      plan.flight = { kind: 'states', states: [{ mach: 6, density: '0.05 kg/m3', soundSpeed: '300 m/s' }] }
    }
    const { flutter, warnings } = assessed(example('demo', beyond))
    expect(flutter.margin).toMatchObject({ speedRatio: null, verdict: 'not determined', at: null })
    expect(warnings.map(({ code }) => code)).toContain('flutter/outside-envelope')
  })
})

describe('will the demo hold', () => {
  const { flutter, strength, bond, structure, flight } = assessed(example('demo'))
  const { margin, boundary, history, beside, drivers, curves } = flutter

  test('twelve Mach numbers and more, the envelope below the linear speed at each', () => {
    expect(boundary.length).toBeGreaterThanOrEqual(12)
    for (const { speed_m_s, envelope } of boundary) {
      expect(envelope).not.toBe(null)
      if (speed_m_s !== null) expect(envelope!.speed_m_s).toBeLessThan(speed_m_s)
    }
  })

  test('the margin is the least of its history, at an instant of the flight', () => {
    expect(margin.verdict).toBe('holds')
    expect(Math.min(...history!.speedRatio)).toBeCloseTo(margin.speedRatio!, 3)
    expect(margin.at!.mach).toBeLessThanOrEqual(flight.maximumMach!)
    expect(margin.mode!.share).toBeGreaterThan(0.3)
    expect(curves!.roots.length).toBe(8)
  })

  test('other assumptions and the inputs that change it stand beside it', () => {
    expect(beside.map(({ assumption }) => assumption).join()).toContain('cold resin')
    for (const { speedRatio } of beside) expect(speedRatio! / margin.speedRatio!).toBeCloseTo(1, 0)
    expect(drivers.length).toBeGreaterThanOrEqual(3)
    expect(drivers.find(({ input }) => input === 'core thickness')!.speedRatio).toBeGreaterThan(margin.speedRatio!)
  })

  test('strength and joint under the same air', () => {
    expect(strength.failureIndex).toBeGreaterThan(0.02)
    expect(strength.failureIndex).toBeLessThan(0.2)
    expect(strength.map!.length).toBe(structure.shapes!.triangles.length)
    expect(strength.rootLine!.x_m.length).toBeGreaterThan(8)
    expect(bond.margin).toBeGreaterThan(0)
    expect(bond.joint!.sufficientRadius_m!).toBeLessThan(bond.fillet!.radius_m)
  })

  test('a wind in place of an angle loads the fin less here, and its absence not at all', () => {
    const windy = assessed(
      example('demo', (plan) => {
        delete plan.loads.angleOfAttack
      }),
    )
    expect(windy.strength.load!.angleOfAttack_deg).toBeLessThan(2)
    expect(windy.strength.failureIndex!).toBeLessThan(strength.failureIndex!)
    const calm = assessed(
      example('demo', (plan) => {
        plan.loads.angleOfAttack = '0 deg'
        delete plan.loads.wind
      }),
    )
    expect(calm.strength.failureIndex).toBe(null)
    expect(calm.warnings.map(({ code }) => code)).toContain('strength/no-load')
  })

  test('post-cured the warm fin is stiffer', () => {
    const cured = assessed(
      example('demo', (plan) => {
        plan.resin.postCure = true
      }),
    )
    expect(cured.flutter.margin.speedRatio!).toBeGreaterThan(margin.speedRatio!)
  })
})

describe('the wind-tunnel wing with its published frequencies', () => {
  const { flutter } = assessed(example('study-swept-wing'))
  const flown = [565.8, 973.4, 1008.4].map((speed) => speed * 0.3048)

  /** The gate of 3 % is the published check's (checks/agard-445-6), on its own mesh: 2.99 %. Mesh and boxes refined read 3.12 %. */
  test('linear speed as the published check has it, at Mach 0.499 and 0.901', () => {
    expect(flutter.boundary[0].speed_m_s! / flown[0]).toBeCloseTo(1.031, 2)
    expect(flutter.boundary[1].speed_m_s! / flown[1]).toBeCloseTo(1.027, 2)
  })

  test('the envelope lies below every test, and not below three quarters of those that are certain', () => {
    for (const { envelope } of flutter.boundary) expect(envelope).not.toBe(null)
    for (const [i, speed] of flown.entries()) {
      const share = flutter.boundary[i].envelope!.speed_m_s / speed
      expect(share).toBeLessThan(1)
      expect(share).toBeGreaterThan(0.75)
    }
    expect(flutter.margin.speedRatio).toBeLessThan(1)
    expect(flutter.margin.verdict).toBe('does not hold')
  })
})

describe('geometry that cannot be made is refused with what to change', () => {
  const set =
    (part: (plan: RawPlan) => RawPlan, values: object): ((plan: RawPlan) => void) =>
    (plan) =>
      Object.assign(part(plan), values)
  const cases: readonly (readonly [string, (plan: RawPlan) => void, string])[] = [
    ['fillets that meet', set((plan) => plan.fins.fillet, { radius: '120 mm' }), 'bond/fillets-meet'],
    ['a ply stepped to nothing', set((plan) => plan.plies[0].stepBack, { chord: '150 mm' }), 'pattern/'],
    ['a fillet gone under the build-up', set((plan) => plan.fins.fillet, { radius: '1 mm' }), 'pattern/fillet-gone'],
    ['cloth narrower than the piece', set((plan) => plan.stock.rolls[0], { width: '250 mm' }), 'nest/cloth-too-narrow'],
  ]
  test.each(cases)('%s', (_, change, code) => {
    const issues = refusal(example('demo', change))
    expect(issues.some((issue) => issue.code.startsWith(code))).toBe(true)
    for (const { message, hint } of issues) {
      expect(message).toMatch(/\d/)
      expect(hint).not.toBe('')
    }
  })
})

describe('heat of the skins', () => {
  const { flight, warnings } = assessed(example('demo'))
  const heat = flight.heat!

  test('no place is hotter than the air recovers, nor colder than the shop', () => {
    expect(heat.stations.length).toBeGreaterThan(4)
    for (const { surface_K, interface_K, middle_K } of heat.stations) {
      expect(surface_K).toBeLessThan((flight.recovery?.temperature_K ?? 0) + 15)
      expect(surface_K).toBeGreaterThanOrEqual(interface_K)
      expect(interface_K).toBeGreaterThanOrEqual(middle_K)
      expect(middle_K).toBeGreaterThan(295)
    }
  })

  test('post-cure keeps more of the resin, and the loss is said', () => {
    const [roomCured, postCured] = heat.resinStiffness
    expect(postCured.factor).toBeGreaterThan(roomCured.factor)
    expect(warnings.map(({ code }) => code)).toContain('heat/above-glass-transition')
    const cured = assessed(
      example('demo', (plan) => {
        plan.resin.postCure = true
      }),
    )
    expect(cured.flight.heat?.resinStiffness[0].factor).toBeCloseTo(postCured.factor, 9)
  })

  test('a slow flight leaves the resin as it is', () => {
    const slow = assessed(example('small-us'))
    expect(slow.flight.heat?.resinStiffness[0].factor).toBeGreaterThan(0.9)
    expect(slow.warnings.map(({ code }) => code)).not.toContain('heat/above-glass-transition')
  })
})
