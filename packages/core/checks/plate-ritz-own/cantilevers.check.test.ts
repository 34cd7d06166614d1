/** Cantilevered plates against Ritz values computed apart from this code: see source.md. Thin, t / root = 0.0005, ν = 0.3. */
import { describe, expect, test } from 'vitest'
import type { Point } from '../../src/geometry/point.ts'
import { expectPublished } from '../evidence.ts'
import { frequencyParameter, sheetModes } from '../plate-cases.ts'

interface Case {
  readonly name: string
  readonly outline: readonly Point[]
  /** Length that the frequencies are referred to. */
  readonly L: number
  readonly expected: readonly string[]
  readonly methodError: number
  readonly why?: string
}

const rectangle = (name: string, ratio: number, expected: readonly string[]): Case => {
  const [a, b] = [Math.sqrt(ratio), 1 / Math.sqrt(ratio)]
  const outline: Point[] = [
    [0, 0],
    [b, 0],
    [b, a],
    [0, a],
  ]
  return { name: `rectangle a/b = ${name}`, outline, L: a, expected, methodError: 0.003 }
}

const rhombus = (sweep: number, expected: readonly string[], methodError: number, why?: string): Case => {
  const [s, c] = [Math.sin((sweep * Math.PI) / 180), Math.cos((sweep * Math.PI) / 180)]
  const outline: Point[] = [
    [0, 0],
    [1, 0],
    [1 + s, c],
    [s, c],
  ]
  return { name: `rhombus swept ${sweep}°`, outline, L: 1, expected, methodError, ...(why && { why }) }
}

const cases: readonly Case[] = [
  rectangle('0.4', 0.4, ['3.498', '4.768', '8.070', '13.81', '21.53', '23.08']),
  rectangle('2/3', 2 / 3, ['3.485', '6.389', '14.47', '21.92', '25.92', '31.45']),
  rectangle('1.0', 1, ['3.471', '8.508', '21.29', '27.20', '30.96', '54.19']),
  rectangle('1.5', 1.5, ['3.454', '11.66', '21.47', '39.33', '53.54', '61.62']),
  rectangle('2.0', 2, ['3.440', '14.80', '21.44', '48.19', '60.16', '92.54']),
  rectangle('2.5', 2.5, ['3.429', '17.97', '21.40', '57.23', '60.14', '105.95']),
  rhombus(15, ['3.584', '8.697', '22.23', '26.33', '33.86'], 0.003),
  rhombus(30, ['3.930', '9.411', '25.29', '25.93', '41.34'], 0.003),
  rhombus(45, ['4.51', '11.26', '26.99', '31.54', '50.71'], 0.005),
  {
    name: 'right triangle',
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
    ],
    L: 1,
    expected: ['6.164', '23.457', '32.67', '56.15', '76.42'],
    methodError: 0.002,
  },
  {
    name: 'symmetric triangle',
    outline: [
      [0, 0],
      [1, 0],
      [0.5, 1],
    ],
    L: 1,
    expected: ['6.75', '29.17', '29.19', '69.8'],
    methodError: 0.002,
  },
  {
    name: 'trapezoid',
    outline: [
      [0, 0],
      [1, 0],
      [1, 0.75],
      [0.5, 0.75],
    ],
    L: 1,
    expected: ['7.119', '20.33', '39.21', '55.43', '74.08'],
    methodError: 0.002,
  },
]

const sheet = { E: 70e9, nu: 0.3, t: 0.0005, rho: 2700 }

const parameters = ({ outline, L, expected }: Case, given = sheet, size = 0.08): number[] =>
  sheetModes({ outline, sheet: given, size, count: expected.length }).map((omega) =>
    frequencyParameter(omega, L, sheet),
  )

describe.each(cases)('$name', (given) => {
  test('agrees', () => {
    const computed = parameters(given)
    given.expected.forEach((printed, i) => {
      expectPublished({
        source: 'plate-ritz-own',
        quantity: `${given.name}, mode ${i + 1}`,
        printed,
        computed: computed[i],
        methodError: given.methodError,
      })
    })
  })
})

test('a tip that is two equal points is the triangle', () => {
  const triangle = cases.find(({ name }) => name === 'right triangle')!
  const collapsed = parameters({
    ...triangle,
    outline: [
      [0, 0],
      [1, 0],
      [1, 1],
      [1, 1],
    ],
  })
  parameters(triangle).forEach((value, i) => {
    expect(collapsed[i] / value).toBeCloseTo(1, 9)
  })
})

test('has teeth: one per cent on thickness is noticed in every case', () => {
  for (const given of cases) {
    const thicker = parameters(given, { ...sheet, t: 1.01 * sheet.t }, 0.15)
    const off = given.expected.filter((printed, i) => Math.abs(thicker[i] / Number(printed) - 1) > given.methodError)
    expect(off.length).toBe(given.expected.length)
  }
})
