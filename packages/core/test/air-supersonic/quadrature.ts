/** Gauss-Legendre nodes and weights on [−1, 1], by Newton's iteration on the Legendre polynomial. */
const kept = new Map<number, readonly { readonly x: number; readonly w: number }[]>()

export function gaussLegendre(n: number): readonly { readonly x: number; readonly w: number }[] {
  const found = kept.get(n)
  if (found !== undefined) return found
  const made = Array.from({ length: n }, (_, i) => {
    let x = Math.cos((Math.PI * (i + 0.75)) / (n + 0.5))
    let slope = 0
    for (let round = 0; round < 50; round++) {
      let [p, q] = [1, 0]
      for (let k = 1; k <= n; k++) [p, q] = [((2 * k - 1) * x * p - (k - 1) * q) / k, p]
      slope = (n * (x * p - q)) / (x * x - 1)
      x -= p / slope
    }
    return { x, w: 2 / ((1 - x * x) * slope * slope) }
  })
  kept.set(n, made)
  return made
}
