/** Uniform numbers in [0, 1) from a seed: the same on every machine. */
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus'

export type Random = () => number

export function seededRandom(seed: number): Random {
  const generator = xoroshiro128plus(seed)
  return () => (generator.next() >>> 0) / 4294967296
}
