/** Invented aeroelastic systems of any size, by a seed: modes, a lagging wake, coupling from hardly any to strong. */
import { tabulatedForces } from '../../src/flutter/forces.ts'
import type { Aeroelastic } from '../../src/flutter/roots.ts'

export function inventedSystem(seed: number, n: number): Aeroelastic {
  let state = seed
  const draw = (): number => {
    state = (state * 1664525 + 1013904223) % 2 ** 32
    return state / 2 ** 32
  }
  const normal = (): number => Math.sqrt(-2 * Math.log(draw() + 1e-12)) * Math.cos(2 * Math.PI * draw())
  const square = (entry: (diagonal: boolean, ij: number) => number): Float64Array =>
    Float64Array.from({ length: n * n }, (_, ij) => entry(ij % (n + 1) === 0, ij))
  const omegas = Array.from({ length: n }, (_, i) => 20 * (i + 1) ** (0.5 + draw()) * (0.6 + 0.8 * draw())).sort(
    (p, q) => p - q,
  )
  const coupling = [0.02, 0.2, 1][Math.floor(3 * draw())]
  const airDamping = [0.05, 0.3, 1][Math.floor(3 * draw())]
  const steady = square((diagonal) => (diagonal ? 0.7 : coupling) * normal())
  const lag = square((_, ij) => 0.4 * steady[ij] * draw())
  const damping = square((diagonal) => (diagonal ? -(0.02 + draw()) * airDamping : 0.1 * coupling * normal()))
  const carried = square((diagonal) => (diagonal ? 0.05 : 0.02) * normal())
  const beta = 0.15 + 0.3 * draw()
  const k = [0, 0.05, 0.12, 0.25, 0.45, 0.8, 1.2]
  const Q = k.map((kk) => {
    const [share, turned] = [(kk * kk) / (kk * kk + beta * beta), (kk * beta) / (kk * kk + beta * beta)]
    return {
      n,
      re: steady.map((v, ij) => v - lag[ij] * share + carried[ij] * kk * kk),
      im: damping.map((v, ij) => kk * v - lag[ij] * turned),
    }
  })
  return {
    ...{ omegas, structuralDamping: draw() < 0.5 ? 0.01 : 0.03, density: 1.2 * (0.2 + draw()) },
    forces: tabulatedForces({ referenceLength: 0.15, k, Q }),
  }
}
