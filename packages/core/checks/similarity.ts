/**
 * Similar boundary layers solved by shooting: what the checks of heat transfer are compared with. Written apart from
 * the code it checks: its own gas, its own integrator.
 *
 * Perfect gas, Pr = 0.71, γ = 1.4, viscosity after Sutherland, C = ρ μ / ρe μe; primes d/dη, t = T/Te.
 *
 *   flat plate       (C f″)′ + f f″ = 0                     (C/Pr t′)′ + f t′ + C (γ − 1) M² f″² = 0
 *   attachment line  (C f″)′ + f f″ + t − f′² = 0           (C w′)′ + f w′ = 0        w: speed along the line over W
 *                    (C/Pr t′)′ + f t′ + C (W²/cp Te) w′² = 0
 */
export const Pr = 0.71
export const gamma = 1.4
export const sutherland = (T: number): number => T ** 1.5 / (T + 110.4)

interface Shot {
  readonly rhs: (u: readonly number[]) => number[]
  /** At the wall; those at `unknown` are guesses. */
  readonly wall: readonly number[]
  readonly unknown: readonly number[]
  /** Component and value it must reach far out. */
  readonly outer: readonly (readonly [number, number])[]
  readonly far: number
}

/** Values at the wall that meet the conditions far out, found nearer first; throws when Newton does not get there. */
function shoot(shot: Shot): number[] {
  return [0.4, 0.6, 0.8, 1].reduce(
    (wall: readonly number[], share) => shootTo({ ...shot, wall, far: share * shot.far }),
    [...shot.wall],
  ) as number[]
}

function shootTo({ rhs, wall, unknown, outer, far }: Shot): number[] {
  const u = [...wall]
  const miss = (at: readonly number[]): number[] => {
    const end = integrated(rhs, at, far)
    return outer.map(([i, value]) => end[i] - value)
  }
  for (let iteration = 0; iteration < 60; iteration++) {
    const r = miss(u)
    if (Math.max(...r.map(Math.abs)) < 1e-10) return u
    const columns = unknown.map((i) => {
      const d = 1e-6
      return miss(u.map((v, j) => (j === i ? v + d : v))).map((v, row) => (v - r[row]) / d)
    })
    const step = solved(outer.map((_, row) => [...columns.map((column) => column[row]), r[row]]))
    const largest = Math.max(...step.map(Math.abs))
    unknown.forEach((i, j) => {
      u[i] -= step[j] * Math.min(1, 0.2 / largest)
    })
  }
  throw new Error('shooting did not converge')
}

function integrated(rhs: Shot['rhs'], from: readonly number[], far: number): number[] {
  const steps = 600
  const d = far / steps
  let u = [...from]
  const moved = (k: readonly number[], by: number): number[] => u.map((v, i) => v + by * k[i])
  for (let j = 0; j < steps; j++) {
    const k1 = rhs(u)
    const k2 = rhs(moved(k1, d / 2))
    const k3 = rhs(moved(k2, d / 2))
    const k4 = rhs(moved(k3, d))
    u = u.map((v, i) => v + (d / 6) * (k1[i] + 2 * k2[i] + 2 * k3[i] + k4[i]))
  }
  return u
}

/** Gaussian elimination of rows [a… | b]. */
function solved(rows: number[][]): number[] {
  const n = rows.length
  for (let p = 0; p < n; p++) {
    const best = rows.slice(p).reduce((top, row, i) => (Math.abs(row[p]) > Math.abs(rows[top][p]) ? p + i : top), p)
    ;[rows[p], rows[best]] = [rows[best], rows[p]]
    for (let i = 0; i < n; i++) {
      if (i === p) continue
      const factor = rows[i][p] / rows[p][p]
      rows[i] = rows[i].map((v, c) => v - factor * rows[p][c])
    }
  }
  return rows.map((row, i) => row[n] / row[i])
}

export interface PlateLayer {
  /** cf/2 √Re and St √Re, with the stream's own properties; recovery factor. */
  readonly friction: number
  readonly stanton: number
  readonly recovery: number
}

/** Laminar flat plate at Mach M in a stream of Te, its wall held at Tw. */
export function laminarPlate({ M, Te, Tw }: { M: number; Te: number; Tw: number }): PlateLayer {
  const C = (t: number): number => sutherland(t * Te) / sutherland(Te) / t
  const rhs = ([f, fp, s, t, q]: readonly number[]): number[] => {
    const [c, fpp] = [C(t), s / C(t)]
    return [fp, fpp, -f * fpp, (q * Pr) / c, (-f * q * Pr) / c - c * (gamma - 1) * M ** 2 * fpp ** 2]
  }
  const outer = [
    [1, 1],
    [3, 1],
  ] as const
  const t0 = 1 + 0.168 * M ** 2
  const insulated = shoot({ rhs, wall: [0, 0, 0.47, t0, 0], unknown: [2, 3], outer, far: 9 })
  const held = shoot({ rhs, wall: [0, 0, 0.47, Tw / Te, 0.45 * (t0 - Tw / Te)], unknown: [2, 4], outer, far: 9 })
  return {
    friction: held[2] / Math.SQRT2,
    stanton: held[4] / (insulated[3] - Tw / Te) / Math.SQRT2,
    recovery: (insulated[3] - 1) / (((gamma - 1) / 2) * M ** 2),
  }
}

export interface LineLayer {
  /** h / cp √(ρe μe β) */
  readonly heat: number
  /** (Tr − Te) / (W² / 2 cp) */
  readonly recovery: number
}

/** Laminar attachment line: `spanwise` is W² / cp Te; a gas of constant C when `constant`. */
export function laminarLine(line: {
  spanwise: number
  Te: number
  Tw: number
  Pr?: number
  constant?: boolean
}): LineLayer {
  const { spanwise: B, Te, Tw, Pr: prandtl = Pr, constant = false } = line
  const C = constant ? () => 1 : (t: number): number => sutherland(t * Te) / sutherland(Te) / t
  const density = constant ? () => 1 : (t: number): number => t
  const rhs = ([f, fp, s, , sw, t, q]: readonly number[]): number[] => {
    const c = C(t)
    const [fpp, wp] = [s / c, sw / c]
    const dissipated = c * B * wp ** 2
    return [
      fp,
      fpp,
      -f * fpp - density(t) + fp ** 2,
      wp,
      -f * wp,
      (q * prandtl) / c,
      (-f * q * prandtl) / c - dissipated,
    ]
  }
  const outer = [
    [1, 1],
    [3, 1],
    [5, 1],
  ] as const
  const far = 6
  const t0 = 1 + 0.43 * B
  const insulated = shoot({ rhs, wall: [0, 0, 1.2, 0, 0.57, t0, 0], unknown: [2, 4, 5], outer, far })
  const held = shoot({ rhs, wall: [0, 0, 1.2, 0, 0.57, Tw / Te, 0.7 * (t0 - Tw / Te)], unknown: [2, 4, 6], outer, far })
  return { heat: held[6] / (insulated[5] - Tw / Te), recovery: B === 0 ? 1 : (insulated[5] - 1) / (B / 2) }
}
