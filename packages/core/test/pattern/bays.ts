/** Bays for the tests of shapes that do not unroll: random ones that fit, and how a surface is measured on its own. */
import fc from 'fast-check'
import { bayGeometry } from '../../src/pattern/bay-geometry.ts'
import type { BuiltBay, Place } from '../../src/pattern/built/built-bay.ts'
import type { PatternInput } from '../../src/pattern/schedule.ts'
import { demo } from './demo.ts'

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true })
const degree = Math.PI / 180

export interface BayKnobs {
  readonly count: number
  readonly narrows: number
  readonly cant: number
  readonly taper: number
}

export const bayInput = ({ count, narrows, cant, taper }: BayKnobs, from: PatternInput = demo): PatternInput => ({
  ...from,
  tube: { ...from.tube, aftRadius: from.tube.outerRadius * (1 - narrows) },
  fins: {
    ...from.fins,
    count,
    cant: cant * degree,
    fillet: { ...from.fins.fillet, radiusAft: from.fins.fillet.radius * (1 - taper) },
  },
})

/** Boat-tails and flares, cants and tapers that a builder may ask for. */
export const bayKnobs: fc.Arbitrary<BayKnobs> = fc
  .record({
    count: fc.integer({ min: 3, max: 4 }),
    narrows: number(-0.3, 0.3),
    cant: number(-1.5, 1.5),
    taper: number(0, 0.4),
  })
  .filter((knobs) => bayGeometry(bayInput(knobs)).ok)

export const geometryOf = (input: PatternInput) => {
  const made = bayGeometry(input)
  if (!made.ok) throw new Error(made.issues.map(({ message }) => message).join(' '))
  return made.value
}

export const apart = (p: Place, q: Place): number => Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2])

/** Length in space of a path given from 0 to 1: chords, extrapolated twice (Romberg). */
export function pathLength(path: (t: number) => Place, n = 64): number {
  const chords = (count: number): number => {
    let sum = 0
    for (let k = 1; k <= count; k++) sum += apart(path((k - 1) / count), path(k / count))
    return sum
  }
  const [L1, L2, L4] = [chords(n), chords(2 * n), chords(4 * n)]
  const [once, twice] = [(4 * L2 - L1) / 3, (4 * L4 - L2) / 3]
  return (16 * twice - once) / 15
}

/** In the surface's coordinates straight from one point to another. */
export const straightPath =
  (bay: BuiltBay, [a0, s0]: readonly [number, number], [a1, s1]: readonly [number, number]) =>
  (t: number): Place =>
    bay.at(a0 + t * (a1 - a0), s0 + t * (s1 - s0))
