/**
 * The envelope along a flight: the speed ratio at every instant, matched to its own Mach number, density, speed and structure.
 *
 *   ratio(t) = W(t) / (V √ρ)      W = V_env √ρ at the passages, between two of them straight in Mach number (in time where Mach hardly moves)
 *
 * W, the speed at equal dynamic pressure, hardly depends on density, so what is left to interpolate is Mach number and, with the leg of the
 * flight, the structure's state. The points are the passages of boundary.ts with the envelope's own corners among the Mach numbers, and every
 * turn of the Mach number on the way. Then points are added in the middle, in Mach number, of the stretches that could hold a ratio below
 * the least one, until none could by more than `settledWithin`. Middles of the same Mach numbers come up again when the structure
 * changes, so their air is kept. Before the first passage and after the last W is held: the speed there is a small
 * share of the greatest.
 */
import type { FlightHistory } from '../flight/history.ts'
import { type AirPoint, flightPoints, leastMachNumbers, passagesOf, pointAt } from './air-points.ts'
import type { Judged } from './boundary.ts'
import { envelopeJoints } from './envelope.ts'
import { boundaryOf, type EnvelopeBoundary, type EnvelopeInput, type Passage, passagesAt } from './envelope-boundary.ts'

export interface FlightEnvelopeInput extends Omit<EnvelopeInput, 'points'> {
  readonly history: FlightHistory
  /** Fewest Mach numbers. Default 12. */
  readonly machNumbers?: number
}

export interface RatioAt {
  readonly time: number
  /** Null at rest, and where not determined. */
  readonly ratio: number | null
}

export interface FlightEnvelope extends EnvelopeBoundary {
  /** At every time of the history and at every passage, time rising. */
  readonly ratios: readonly RatioAt[]
  /** Null where nothing is determined. */
  readonly minimum: { readonly ratio: number; readonly at: AirPoint; readonly kind: Judged['kind'] } | null
  /** The share by which the true least ratio may lie below the one given, as far as halving tells, and the points added to know. */
  readonly settled: { readonly within: number; readonly added: number }
}

/** Share of the ratio within which its minimum is settled. */
const settledWithin = 0.005
const mostRounds = 6

export function flightEnvelope(input: FlightEnvelopeInput): FlightEnvelope {
  const { history, machNumbers = leastMachNumbers } = input
  const points = flightPoints(history, machNumbers, envelopeJoints)
  const first = [...points, ...turns(history, points)]
  const passages = inTime(passagesAt(input, first))
  const settled = settle(input, passages)
  const ratios = ratiosAlong(history, passages)
  const minimum = leastOf(history, passages, ratios)
  const between = minimum === null ? [] : [{ point: minimum.at, ratio: minimum.ratio, kind: minimum.kind }]
  return { ...boundaryOf(input, passages, between), ratios, minimum, settled }
}

const timeOf = ({ point }: { readonly point: AirPoint }): number => point.time ?? 0
const inTime = (passages: Passage[]): Passage[] => passages.sort((a, b) => timeOf(a) - timeOf(b))

/** The Mach number must leave the range between two points by this much for its turn there to be a point too. */
const worthATurn = 0.03

/** Greatest and least Mach numbers between points that are neighbours in time, where they stand out. */
function turns(history: FlightHistory, points: readonly AirPoint[]): AirPoint[] {
  const times = points.map(({ time }) => time ?? 0).sort((a, b) => a - b)
  const found: AirPoint[] = []
  for (let i = 1; i < times.length; i++) {
    const [from, to] = [pointAt(history, times[i - 1]).mach, pointAt(history, times[i]).mach]
    let best: { readonly excess: number; readonly time: number } = { excess: worthATurn, time: Number.NaN }
    history.time.forEach((time, j) => {
      if (!(time > times[i - 1] && time < times[i])) return
      const excess = Math.max(history.mach[j] - Math.max(from, to), Math.min(from, to) - history.mach[j])
      if (excess > best.excess) best = { excess, time }
    })
    if (!Number.isNaN(best.time)) found.push(pointAt(history, best.time))
  }
  return found
}

/** W, m/s √(kg/m³). */
function equalPressureSpeed({ entry, point }: Passage): number | null {
  return entry.speed === null ? null : entry.speed * Math.sqrt(point.density)
}

/** Below this difference of Mach numbers the way between two passages is measured in time. */
const hardlyMoves = 0.01

function ratioAt(passages: readonly Passage[], i: number, point: AirPoint): number | null {
  const flown = point.speed * Math.sqrt(point.density)
  const [a, b] = [passages[Math.max(0, i)], passages[Math.min(passages.length - 1, i + 1)]]
  const [p, q] = [equalPressureSpeed(a), equalPressureSpeed(b)]
  if (p === null || q === null || !(flown > 0)) return null
  return (p + (q - p) * wayBetween(a, b, point)) / flown
}

function wayBetween(a: Passage, b: Passage, point: AirPoint): number {
  if (a === b) return 0
  const machs = b.point.mach - a.point.mach
  const way =
    Math.abs(machs) > hardlyMoves
      ? (point.mach - a.point.mach) / machs
      : ((point.time ?? 0) - timeOf(a)) / (timeOf(b) - timeOf(a))
  return Math.min(1, Math.max(0, way))
}

function ratiosAlong(history: FlightHistory, passages: readonly Passage[]): RatioAt[] {
  if (passages.length === 0) return []
  const times = [...new Set([...history.time, ...passages.map(timeOf)])].sort((a, b) => a - b)
  let i = -1
  return times.map((time) => {
    while (i < passages.length - 1 && timeOf(passages[i + 1]) <= time) i++
    return { time, ratio: ratioAt(passages, i, pointAt(history, time)) }
  })
}

function leastOf(history: FlightHistory, passages: readonly Passage[], ratios: readonly RatioAt[]) {
  let least: { readonly ratio: number; readonly time: number } | null = null
  for (const { time, ratio } of ratios)
    if (ratio !== null && ratio < (least?.ratio ?? Number.POSITIVE_INFINITY)) least = { time, ratio }
  if (least === null) return null
  const { ratio, time } = least
  const determined = passages.filter((passage) => passage.ratio !== null)
  const nearest = determined.reduce((a, b) => (Math.abs(timeOf(b) - time) < Math.abs(timeOf(a) - time) ? b : a))
  const at = nearest.point.time === time ? nearest.point : pointAt(history, time)
  return { ratio, at, kind: nearest.kind }
}

/** Adds passages in place, in the order of time, until no stretch can hold a ratio below the least by more than the share asked for. */
function settle(input: FlightEnvelopeInput, passages: Passage[]): FlightEnvelope['settled'] {
  const { history } = input
  /** By the time of a stretch's first passage: what its interpolation may still be above the truth, share of it. */
  const doubts = new Map<number, number>()
  let [added, within] = [0, 0]
  for (let round = 0; round < mostRounds; round++) {
    const stretches = doubtful(history, passages, doubts)
    within = stretches.reduce((most, { shortfall }) => Math.max(most, shortfall), 0)
    const wanted = stretches.filter(({ shortfall, middle }) => shortfall > settledWithin && middle !== null)
    if (wanted.length === 0) break
    for (const { middle, from } of wanted) {
      if (middle === null) continue
      const [passage] = passagesAt(input, [middle])
      const before = ratioAt(passages, passages.indexOf(from), middle)
      const change = before === null || passage.ratio === null ? 0 : passage.ratio / before - 1
      // A point above the straight line shows that the line is on the safe side; halves err by a quarter, doubted twice over.
      const doubt = change < 0 ? -change / 2 : change / 8
      doubts.set(timeOf(from), doubt)
      doubts.set(timeOf(passage), doubt)
      passages.push(passage)
      inTime(passages)
      added++
    }
  }
  return { within, added }
}

interface Stretch {
  readonly from: Passage
  /** The share by which a ratio in it may lie below the least one known. */
  readonly shortfall: number
  /** Null where it is too short to be halved. */
  readonly middle: AirPoint | null
}

function doubtful(
  history: FlightHistory,
  passages: readonly Passage[],
  doubts: ReadonlyMap<number, number>,
): Stretch[] {
  const ratios = ratiosAlong(history, passages)
  const least = leastOf(history, passages, ratios)
  if (least === null) return []
  const found: Stretch[] = []
  for (let i = 0; i + 1 < passages.length; i++) {
    const [a, b] = [passages[i], passages[i + 1]]
    const inside = ratios.filter(({ time }) => time >= timeOf(a) && time <= timeOf(b))
    const lowest = inside.reduce((most, { ratio }) => Math.min(most, ratio ?? most), Number.POSITIVE_INFINITY)
    const doubt = doubts.get(timeOf(a)) ?? firstDoubt(a, b)
    const shortfall = 1 - (lowest * (1 - doubt)) / least.ratio
    if (shortfall > 0) found.push({ from: a, shortfall, middle: middleOf(history, a, b) })
  }
  return found
}

/** A quarter of the change over the stretch: a parabola with one end level lies that far below its chord. */
function firstDoubt(a: Passage, b: Passage): number {
  const [p, q] = [equalPressureSpeed(a), equalPressureSpeed(b)]
  return p === null || q === null ? 0 : Math.abs(p - q) / (4 * Math.min(p, q))
}

/** Stretches shorter than this in Mach number are not halved: the envelope is nearly straight in them. */
const shortest = 0.02

function middleOf(history: FlightHistory, a: Passage, b: Passage): AirPoint | null {
  const [from, to] = [a.point.mach, b.point.mach]
  if (Math.abs(to - from) < shortest) return null
  const inside = passagesOf(history, (from + to) / 2).filter(
    ({ time }) => (time ?? 0) > timeOf(a) && (time ?? 0) < timeOf(b),
  )
  return inside[0] ?? null
}
