/**
 * Acceptance stories: an invented student team with a tube of 102.0 mm measured, four fins of root 300, tip 120, span 110, core
 * 3.2 mm, fillet tool 15 mm, five plies of 200 g/m² and a veil of 49 g/m² a bay. Figures are worked by hand from that scenario.
 */
import type { Assessment, PieceShape } from '@finwright/core/assess/assessment.ts'
import { describe, expect, test } from 'vitest'
import { assessed, example, type RawPlan, refusal } from './plans.ts'

const tipSteps = [60, 40, 20, 0, 0]

/** The team's first schedule: steps back from the tip only, stepped plies cut to the net line, no overrun on the body. */
function team(change: (plan: RawPlan) => void = () => undefined): RawPlan {
  return example('demo', (plan) => {
    plan.materials = { 'e-glass': { density: '2.54 g/cm3' } }
    plan.resin = { ...plan.resin, density: '1.15 g/cm3' }
    plan.plies = [
      ...tipSteps.map((tip, i) => ({
        cloth: 'glass-plain-200',
        angle: i % 2 === 0 ? '0 deg' : '45 deg',
        stepBack: { tip: `${tip} mm`, chord: '0 mm', body: '0 mm' },
        overhang: tip > 0 ? { edges: '0 mm', bodyEnds: '0 mm' } : { edges: '10 mm', bodyEnds: '10 mm' },
      })),
      { cloth: 'glass-veil-49', role: 'surface' },
      { cloth: 'peel-ply', role: 'peel' },
    ]
    plan.layup.overrun = { forward: '0 mm', aft: '0 mm' }
    plan.shop.temperature = '20 degC'
    change(plan)
  })
}

const shape = ({ pattern }: Assessment, ply: string): PieceShape => {
  const found = pattern.shapes.find((candidate) => candidate.ply === ply)
  if (found === undefined) throw new Error(`no ply ${ply}`)
  return found
}

/** Within one per cent, which is what the hand-worked figures are good for. */
const about = (value: number | null | undefined, printed: number): void => {
  expect(value).toBeGreaterThan(printed * 0.99)
  expect(value).toBeLessThan(printed * 1.01)
}

describe('plan and print', () => {
  const assessment = assessed(team())

  // The worked areas are of the bare surface; outer plies are a little smaller for what lies under them, the full ones by
  // more than one per cent. The bare surface is checked beside the patterns themselves.
  test.each([
    ['P3', 614],
    ['P2', 546],
    ['P1', 466],
  ])('net area of %s is %d cm²', (ply, area) => about(shape(assessment, ply).netArea_m2 * 1e4, area))

  test('paper width of the full plies is 287.9 + 20 mm', () => about(shape(assessment, 'P5').cutWidth_m * 1e3, 307.9))

  test('a bias ply carries its allowance for shear', () => about(shape(assessment, 'P4').cutWidth_m * 1e3, 319.4))

  test('cloth, mix, resin and hardener of a bay', () => {
    const { resin } = assessment
    about((resin.cloth_kg ?? 0) * 1e3, 67.1)
    about(resin.batches.reduce((sum, { mix_kg }) => sum + mix_kg, 0) * 1e3, 85.3)
    about((resin.resin_kg ?? 0) * 1e3, 66.4)
    about((resin.hardener_kg ?? 0) * 1e3, 18.9)
  })

  test('fillets of the can', () => {
    const fillet = assessment.bond.fillet
    about((fillet?.totalVolume_m3 ?? 0) * 1e6, 74)
    about((fillet?.totalAdhesiveMass_kg ?? 0) * 1e3, 85)
    about((fillet?.mixMass_kg ?? 0) * 1e3, 111)
  })

  test('skin thickness inboard and in the outer 20 mm', () => {
    const plies = assessment.fin.plies.map(({ thickness_m }) => thickness_m * 1e3)
    about(
      plies.reduce((sum, t) => sum + t, 0),
      1.33,
    )
    about(plies[3] + plies[4] + plies[5], 0.57)
  })

  test('the rule check flags edges that all end on the leading and trailing edge', () => {
    const words = assessment.pattern.rules.map(({ message }) => message).join('\n')
    expect(words).toMatch(/leading edge/)
    expect(words).toMatch(/trailing edge/)
    expect(assessed(example('demo')).pattern.rules).toEqual([])
  })
})

describe('kit too small', () => {
  const { resin, warnings } = assessed(
    team((plan) => {
      plan.stock = { ...plan.stock, resin: '500 g', hardener: '142 g', usable: '95 %', reserve: '60 g' }
    }),
  )

  test('says how much is short, and for how many cans it lasts', () => {
    about((resin.kit?.usable_kg ?? 0) * 1e3, 610)
    about((resin.kit?.needed_kg ?? 0) * 1e3, 742)
    expect((resin.kit?.short_kg ?? 0) * 1e3).toBeGreaterThan(126)
    expect((resin.kit?.short_kg ?? 0) * 1e3).toBeLessThan(140)
    expect(resin.kit?.cansCovered).toBe(1)
  })

  test('warns, and never offers to stretch the ratio', () => {
    const said = warnings.filter(({ code }) => code === 'resin/kit-short')
    expect(said.length).toBeGreaterThan(0)
    expect(said.map(({ hint }) => hint).join(' ')).toMatch(/buy|never/i)
  })
})

describe('two cloth widths', () => {
  const rolls = [
    { id: 'wide', cloth: 'glass-plain-200', width: '965 mm', length: '2.4 m', selvedge: '0 mm' },
    { id: 'tape', cloth: 'glass-plain-200', width: '300 mm', length: '6 m', selvedge: '0 mm' },
  ]
  const withCans = (letters: readonly string[], wideLength = '2.4 m') =>
    assessed(
      team((plan) => {
        plan.stock.rolls = [{ ...rolls[0], length: wideLength }, rolls[1], ...plan.stock.rolls.slice(1)]
        plan.cans = letters.map((letter) => ({ letter, purpose: letter === 'A' ? 'flight' : 'backup' }))
      }),
    )

  test('full plies never go on the tape, which is too narrow for them', () => {
    const tape = withCans(['A']).nest.rolls.find(({ roll }) => roll === 'tape')
    const onTape = tape?.placements.map(({ piece }) => piece.split('-')[2]) ?? []
    expect(onTape.filter((ply) => ply === 'P4' || ply === 'P5')).toEqual([])
  })

  test('one can fits the stock; with less on the wide roll two are short and the missing cloth goes on the list', () => {
    expect(withCans(['A']).nest.buy).toEqual([])
    const both = withCans(['A', 'B'], '1.4 m')
    expect(both.nest.buy.map(({ cloth }) => cloth)).toEqual(['glass-plain-200'])
    expect(both.warnings.some(({ path }) => path.startsWith('nest') || path.startsWith('stock'))).toBe(true)
  })

  test('every piece is placed once, turned only as its weave allows', () => {
    const { nest, pattern } = withCans(['A', 'B'])
    const placed = nest.rolls.flatMap(({ placements }) => placements)
    expect(placed.map(({ piece }) => piece).sort()).toEqual(pattern.pieces.map(({ id }) => id).sort())
    for (const { piece, rotation_deg } of placed) {
      const { angle_deg } = pattern.pieces.find(({ id }) => id === piece)!
      // Warp from +Y towards +X on the piece, along x on the roll: turning by θ lays it at 90° − angle + θ.
      const warp = (((90 - angle_deg + rotation_deg) % 180) + 180) % 180
      expect(Math.min(...[0, 90, 180].map((turn) => Math.abs(warp - turn))), piece).toBeLessThan(1e-6)
    }
  })

  test('cloth narrower than every roll is refused with the least width', () => {
    const issues = refusal(
      team((plan) => {
        plan.stock.rolls = [rolls[1], ...plan.stock.rolls.slice(1)]
      }),
    )
    expect(issues.map(({ code }) => code)).toContain('nest/cloth-too-narrow')
    expect(issues[0].message).toMatch(/\d+ mm/)
  })
})

describe('kitchen scale', () => {
  const { resin, warnings } = assessed(
    team((plan) => {
      plan.shop.scaleResolution = '1 g'
    }),
  )

  test('the smallest batch it can mix is 194 g, more than a cup may hold: no batch is right', () => {
    about((resin.smallestBatch_kg ?? 0) * 1e3, 194)
    const said = warnings.map(({ message }) => message).join('\n')
    expect(said).toMatch(/194 g/)
    expect(said).toMatch(/170 g/)
  })
})

describe('a ratio by volume is never weighed as one by mass', () => {
  test('3:1 by volume is 100:28.4 by mass with the densities of both parts', () => {
    const { resin } = assessed(
      team((plan) => {
        plan.resin.ratio = { by: 'volume', value: '3:1' }
        plan.resin.resinDensity = '1.150 g/cm3'
        plan.resin.hardenerDensity = '0.980 g/cm3'
      }),
    )
    about((resin.ratio?.hardenerPerResin ?? 0) * 100, 28.4)
    expect(resin.ratio?.by).toBe('volume')
    expect((resin.hardener_kg ?? 0) / (resin.resin_kg ?? 1)).toBeCloseTo(0.284, 3)
  })
})
