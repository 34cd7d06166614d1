/** Flat plate oscillating in plane supersonic flow; see source.md. */
import { describe, expect, test } from 'vitest'
import { modeForces, shapeOnBoxes } from '../../src/air/supersonic/generalized-forces.ts'
import { sourceLattice } from '../../src/air/supersonic/lattice.ts'
import { harmonicFlow, highestWavenumber, supersonicFlow } from '../../src/air/supersonic/solution.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'garrick-rubinow-1946'
const methodError = 0.01
type Complex = readonly [re: number, im: number]
const times = ([a, b]: Complex, [c, d]: Complex): Complex => [a * c - b * d, a * d + b * c]
const plus = ([a, b]: Complex, [c, d]: Complex): Complex => [a + c, b + d]
const modulus = ([a, b]: Complex): number => Math.hypot(a, b)

/** J₀ by its integral over half a turn; the midpoint rule is exact to rounding. */
function besselJ0(x: number): number {
  let sum = 0
  for (let i = 0; i < 60; i++) sum += Math.cos(x * Math.sin((Math.PI * (i + 0.5)) / 60))
  return sum / 60
}

/** Composite Simpson. */
function integral(f: (x: number) => Complex, to: number, n: number): Complex {
  let sum: Complex = [0, 0]
  for (let i = 0; i <= n; i++) {
    const weight = ((i === 0 || i === n ? 1 : i % 2 === 1 ? 4 : 2) * to) / (3 * n)
    sum = plus(sum, times([weight, 0], f((to * i) / n)))
  }
  return sum
}

interface Motion {
  readonly z: (x: number) => number
  readonly slope: number
}
/** Chord 1, per unit amplitude. Nose up lowers the rear. */
const motions: Record<'pitch' | 'plunge', Motion> = {
  pitch: { z: (x) => 0.5 - x, slope: -1 },
  plunge: { z: () => 1, slope: 0 },
}

function plane(mach: number, kappa: number, { z, slope }: Motion): { lift: Complex; moment: Complex } {
  const beta2 = mach * mach - 1
  const [mu, nu, beta] = [(kappa * mach * mach) / beta2, (kappa * mach) / beta2, Math.sqrt(beta2)]
  const phi = (x: number): Complex =>
    integral(
      (xi) => {
        const size = -besselJ0(nu * xi) / beta
        return times([size * Math.cos(mu * xi), -size * Math.sin(mu * xi)], [slope, kappa * z(x - xi)])
      },
      x,
      200,
    )
  const samples = Array.from({ length: 81 }, (_, i) => phi(i / 80))
  const at = (x: number): Complex => samples[Math.round(80 * x)]
  const end = samples[80]
  const whole = integral(at, 1, 80)
  const first = integral((x) => times([x, 0], at(x)), 1, 80)
  const rate: Complex = [0, kappa]
  return {
    lift: times([4, 0], plus(end, times(rate, whole))),
    moment: times([4, 0], plus(plus(end, times([-1, 0], whole)), times(rate, first))),
  }
}

/** The strip at the mirror of a fin whose tip is out of its sight. */
function strip(mach: number, kappa: number, { z, slope }: Motion): { lift: Complex; moment: Complex } {
  const span = 1 / Math.sqrt(mach * mach - 1) + 0.2
  const outline = [[0, 0], [1, 0], [1, span], [0, span]] as const // biome-ignore format: corners
  const lattice = sourceLattice(outline, { chordwise: 12, spanwise: Math.ceil(span / 0.12) })
  const harmonic = harmonicFlow(supersonicFlow(lattice, mach), kappa)
  const [force] = modeForces(harmonic, [
    shapeOnBoxes(
      lattice,
      (x) => z(x),
      () => slope,
    ),
  ])
  const width = lattice.strips[0].yOut - lattice.strips[0].yIn
  let [lift, moment]: [Complex, Complex] = [
    [0, 0],
    [0, 0],
  ]
  for (let box = 0; box < lattice.stripStart[1]; box++) {
    const f: Complex = [force.re[box] / width, force.im[box] / width]
    lift = plus(lift, f)
    moment = plus(moment, times([lattice.forceX[box], 0], f))
  }
  return { lift, moment }
}

const apart = (a: Complex, b: Complex): number => modulus(plus(a, times([-1, 0], b)))
const cases = [
  ...[0.05, 0.2, 0.5, 1].map((k) => ({ mach: 1.1, k })),
  ...[1.3, 1.5, 2.5, 5].flatMap((mach) => [0.05, 0.2, 0.5, 1, 1.5].map((k) => ({ mach, k }))),
]

describe.each(['pitch', 'plunge'] as const)('%s', (name) => {
  test.each(cases)('M $mach, k = $k', ({ mach, k }) => {
    const [exact, found] = [plane(mach, 2 * k, motions[name]), strip(mach, 2 * k, motions[name])]
    for (const what of ['lift', 'moment'] as const) {
      const [re, im] = [exact[what], found[what]]
      const quantity = `|${what}|, ${name}, M ${mach}, k = ${k}`
      expectPublished({ source, quantity, printed: modulus(re).toFixed(6), computed: modulus(im), methodError })
      expect(apart(re, im)).toBeLessThan(methodError * modulus(re))
    }
  })
})

test('the quadrature of the closed form is exact enough: k → 0 gives 4/β and the centre at mid-chord', () => {
  const { lift, moment } = plane(2, 0, motions.pitch)
  expect(lift[0]).toBeCloseTo(4 / Math.sqrt(3), 9)
  expect(moment[0] / lift[0]).toBeCloseTo(0.5, 9)
})

test('twelve boxes resolve what source.md says', () => {
  const lattice = sourceLattice([[0, 0], [1, 0], [1, 1], [0, 1]], { chordwise: 12, spanwise: 8 }) // biome-ignore format: corners
  expect(highestWavenumber(lattice, 1.1) / 2).toBeCloseTo(1.09, 2)
  expect(highestWavenumber(lattice, 1.3) / 2).toBeCloseTo(2.77, 2)
})

test('has teeth: five per cent on frequency is noticed', () => {
  const exact = plane(1.3, 1, motions.pitch)
  const found = strip(1.3, 1.05, motions.pitch)
  expect(agrees(modulus(found.lift), published(modulus(exact.lift).toFixed(6)), methodError)).toBe(false)
})
