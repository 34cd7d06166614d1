/**
 * Where a function passes from zero or below to above zero inside an interval: the ITP method, never slower than halving by
 * more than one step, as quick as the secant on smooth functions.
 * Source: Oliveira & Takahashi, ACM Trans. Math. Software 47 (2020), art. 5, κ₁ = 0.2/(b − a), κ₂ = 2, n₀ = 1 (recalled).
 */
import { invariant } from '../issue.ts'

export interface Bracket {
  /** f(a) ≤ 0 < f(b), a < b. */
  readonly a: number
  readonly b: number
  readonly fa: number
  readonly fb: number
}

export interface Crossing extends Bracket {
  readonly evaluations: number
}

/** Narrows the bracket down to the width given. */
export function crossing(f: (x: number) => number, { a, b, fa, fb }: Bracket, width: number): Crossing {
  invariant(a < b && fa <= 0 && fb > 0, `crossing between (${a}, ${fa}) and (${b}, ${fb})`)
  const most = Math.ceil(Math.log2((b - a) / width)) + 1
  const k1 = 0.2 / (b - a)
  let evaluations = 0
  while (b - a > width && evaluations <= most + 2) {
    const half = (a + b) / 2
    const reach = Math.max(0, (width / 2) * 2 ** (most - evaluations) - (b - a) / 2)
    const secant = (fb * a - fa * b) / (fb - fa)
    const side = Math.sign(half - secant)
    const delta = Math.max(k1 * (b - a) ** 2, width / 4)
    const towards = delta <= Math.abs(half - secant) ? secant + side * delta : half
    const x = Math.abs(towards - half) <= reach ? towards : half - side * reach
    const fx = f(x)
    evaluations++
    if (fx > 0) [b, fb] = [x, fx]
    else [a, fa] = [x, fx]
  }
  return { a, b, fa, fb, evaluations }
}
