/** Thickness of a study's plate at a point: constant, or a table over the local chord along the flow. */
import { invariant } from '../issue.ts'
import type { ChordwiseThickness, Point } from './design.ts'

export interface PlateThickness {
  readonly at: (x: number, y: number) => number
  readonly greatest: number
}

export interface InStream {
  readonly outline: readonly Point[]
  readonly flowDirection: number
}

export function studyThickness({ kind, fraction, thickness }: ChordwiseThickness, stream: InStream): PlateThickness {
  invariant(thickness.length > 0, 'a thickness has at least one station')
  const top = Math.max(...thickness)
  if (kind === 'constant') return { at: () => thickness[0], greatest: top }
  const chordAt = chordReader(stream)
  if (kind === 'absolute') return { at: (x, y) => between(fraction, thickness, chordAt(x, y).share), greatest: top }
  const at = (x: number, y: number): number => {
    const { share, length } = chordAt(x, y)
    return length * between(fraction, thickness, share)
  }
  return { at, greatest: Math.max(...stream.outline.map(([x, y]) => chordAt(x, y).length)) * top }
}

/** Of the chord along the flow through a point: its length and the share of it that lies upstream. */
function chordReader({
  outline,
  flowDirection,
}: InStream): (x: number, y: number) => { share: number; length: number } {
  const [c, s] = [Math.cos(flowDirection), Math.sin(flowDirection)]
  const along = outline.map(([x, y]) => c * x + s * y)
  const across = outline.map(([x, y]) => c * y - s * x)
  const [low, high] = [Math.min(...across), Math.max(...across)]
  return (x, y) => {
    // A hair inside, so that a chord along an edge of the outline has its length.
    const inside = 1e-9 * (high - low)
    const level = Math.min(high - inside, Math.max(low + inside, c * y - s * x))
    const crossings: number[] = []
    for (let i = 0; i < outline.length; i++) {
      const j = (i + 1) % outline.length
      if (across[i] > level === across[j] > level) continue
      crossings.push(along[i] + ((level - across[i]) / (across[j] - across[i])) * (along[j] - along[i]))
    }
    const [from, to] = [Math.min(...crossings), Math.max(...crossings)]
    return { length: to - from, share: (c * x + s * y - from) / (to - from) }
  }
}

/** Straight between stations, held beyond the first and the last. */
function between(stations: readonly number[], values: readonly number[], at: number): number {
  const i = stations.findIndex((station) => station >= at)
  if (i < 0) return values[values.length - 1]
  if (i === 0) return values[0]
  const share = (at - stations[i - 1]) / (stations[i] - stations[i - 1])
  return values[i - 1] + share * (values[i] - values[i - 1])
}
