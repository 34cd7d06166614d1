import type { StudyDesign } from '@finwright/core/assess/design.ts'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../src/read-plan.ts'
import { beside, exampleText, type Json, put } from './demo.ts'

const edited = (name: string, edits: readonly (readonly [string, Json | undefined])[]) => {
  const plan = JSON.parse(exampleText(name)) as Json
  for (const [path, value] of edits) put(plan, path, value)
  return readPlan({ text: JSON.stringify(plan), readAttachment: beside })
}

const square = 'study-square-plate.fincan.json'
const swept = 'study-swept-plate.fincan.json'
const bow = [
  ['0 m', '0 m'],
  ['10 m', '10 m'],
  ['10 m', '0 m'],
  ['0 m', '10 m'],
]

const bad = [
  ['a bow tie', square, [['study.outline', bow]], ['outline/self-crossing study.outline']],
  [
    'a line',
    square,
    [
      [
        'study.outline',
        [
          ['0 m', '0 m'],
          ['5 m', '0.000001 m'],
          ['10 m', '0 m'],
        ],
      ],
      ['study.supports', ['clamped', 'free', 'free']],
    ],
    ['outline/no-area study.outline'],
  ],
  [
    'a support too few',
    square,
    [['study.supports', ['clamped', 'free', 'free']]],
    ['study/support-count study.supports'],
  ],
  [
    'nothing holds it',
    square,
    [['study.supports', ['simple', 'free', 'free', 'free']]],
    ['study/unsupported study.supports'],
  ],
  [
    'places that do not rise',
    swept,
    [
      [
        'study.plate.thickness.stations',
        [
          [0.1, '1 mm'],
          [0.5, '0 mm'],
          [0.5, '1 mm'],
        ],
      ],
    ],
    ['study/stations study.plate.thickness.stations'],
  ],
  [
    'no thickness',
    swept,
    [
      [
        'study.plate.thickness.stations',
        [
          [0, '0 mm'],
          [1, '0 mm'],
        ],
      ],
    ],
    ['study/no-thickness study.plate.thickness.stations'],
  ],
  [
    'frequencies that fall, too many',
    swept,
    [
      ['study.modes', 2],
      ['study.imposedFrequencies', ['3 Hz', '2 Hz', '4 Hz']],
    ],
    ['study/frequencies-order study.imposedFrequencies[1]', 'study/frequencies-count study.imposedFrequencies'],
  ],
  [
    'a load beside the plate',
    square,
    [['study.pointLoad', { at: ['11 m', '0 m'], force: '1 N' }]],
    ['study/load-outside study.pointLoad.at'],
  ],
  ['too many constants', square, [['study.plate.material.G', '80 GPa']], ['material/constants study.plate.material']],
  [
    'too few constants',
    square,
    [['study.plate.material', { density: '1 g/cm3', E1: '1 GPa' }]],
    ['material/constants study.plate.material'],
  ],
  ['an unknown sheet', square, [['study.plate.material', 'g11']], ['material/unknown-sheet study.plate.material']],
  ['neither a name nor constants', square, [['study.plate.material', 5]], ['plan/wrong-type study.plate.material']],
  [
    'several at once',
    swept,
    [
      ['study.air.states.0.soundSpeed', undefined],
      ['study.air.faces', 3],
      ['study.plate.thickness.stations.1.1', '0.041'],
    ],
    [
      'quantity/missing-unit study.plate.thickness.stations[1][1]',
      'plan/choice study.air.faces',
      'flight/sound-speed study.air.states[0]',
    ],
  ],
] as const satisfies readonly (readonly [
  string,
  string,
  readonly (readonly [string, Json | undefined])[],
  readonly string[],
])[]

describe('bad studies', () => {
  test.each(bad)('%s', (_, name, edits, issues) => {
    const read = edited(name, edits)
    expect(read.ok ? [] : read.issues.map(({ code, path }) => `${code} ${path}`).sort()).toEqual([...issues].sort())
    if (!read.ok) for (const { message, hint } of read.issues) expect(message.length * hint.length).toBeGreaterThan(200)
  })
})

const designOf = (name: string, edits: readonly (readonly [string, Json | undefined])[]): StudyDesign => {
  const read = edited(name, edits)
  if (!read.ok) throw new Error(JSON.stringify(read.issues))
  return read.value.design as StudyDesign
}

describe('what a study may also say', () => {
  test('points listed clockwise are turned round with their supports', () => {
    const clockwise: Json = [
      ['0 m', '0 m'],
      ['0 m', '10 m'],
      ['10 m', '10 m'],
      ['10 m', '0 m'],
    ]
    const design = designOf(square, [
      ['study.outline', clockwise],
      ['study.supports', ['free', 'free', 'simple', 'clamped']],
    ])
    expect(design.outline).toEqual([
      [0, 0],
      [10, 0],
      [10, 10],
      [0, 10],
    ])
    expect(design.supports).toEqual(['clamped', 'simple', 'free', 'free'])
  })

  test('a laminate of stated and of catalogue plies', () => {
    const ply = { E1: '98 GPa', E2: '7.9 GPa', G12: '5.6 GPa', nu12: 0.28, density: '1520 kg/m3' }
    const design = designOf(square, [
      [
        'study.plate',
        {
          kind: 'laminate',
          plies: [
            { material: ply, angle: '-30 deg', thickness: '0.134 mm' },
            { material: 'g10', angle: '0 deg', thickness: '1 mm' },
          ],
        },
      ],
    ])
    if (design.plate.kind !== 'laminate') throw new Error('no laminate')
    expect(design.plate.plies[0]).toMatchObject({
      angle: -0.5235987755982989,
      thickness: 0.000134,
      material: { G13: { value: 5.6e9, confidence: 'estimate' } },
    })
    expect(design.plate.plies[1]!.material.id).toBe('g10')
  })

  test('thickness as a share of the chord, a point load, an angle of attack', () => {
    const design = designOf(square, [
      [
        'study.plate.thickness',
        {
          kind: 'of chord',
          shares: [
            [0, 0],
            ['30 %', 0.04],
            [1, 0],
          ],
        },
      ],
      ['study.pointLoad', { at: ['10 m', '10 m'], force: '-5 N' }],
      ['study.angleOfAttack', '3 deg'],
    ])
    expect(design.plate.kind === 'sheet' && design.plate.thickness).toEqual({
      kind: 'of chord',
      fraction: [0, 0.3, 1],
      thickness: [0, 0.04, 0],
    })
    expect(design.pointLoad).toEqual({ at: [10, 10], force: -5 })
    expect(design.angleOfAttack).toBeCloseTo(0.05235987755982988, 16)
  })

  test('strengths that are not stated are without limit and say so', () => {
    const design = designOf(square, [])
    expect(design.plate.kind === 'sheet' && design.plate.material.strengths.Xt).toEqual({
      value: Number.POSITIVE_INFINITY,
      source: 'not stated in the plan',
      confidence: 'plan',
    })
  })
})
