/**
 * Where places of the body lie on the wrap's paper, in mm right and down: the paper of a cone unrolled (`tube-lines.ts` of the core), a
 * rectangle where the body is straight. Angles round it from the left edge, rad; there the paper's own axes are turned by `turn`.
 */
import type { TubeFigures } from '@finwright/core/assess/assessment.ts'
import { paperPoint } from '@finwright/core/pattern/tube-lines.ts'
import type { XY } from '../drawing/drawing.ts'

/** Station aft of the root's forward end in m, angle from the wrap's left edge in rad. */
export type WrapPlace = readonly [station: number, angle: number]

export interface WrapFrame {
  readonly at: (place: WrapPlace) => XY
  /** Beside a place by so many mm: round the body, and aft along it. */
  readonly beside: (place: WrapPlace, round: number, aft: number) => XY
  /** Of the paper's axes there, clockwise as seen. */
  readonly turn: (angle: number) => number
  /** Round the body at a station, as a line fine enough to look round. */
  readonly circle: (station: number, from: number, to: number) => XY[]
  readonly fins: readonly number[]
  /** Centre lines of bays: the last bay's is the meeting edge, at both ends of the paper. */
  readonly centres: readonly number[]
  readonly forward: number
  readonly aft: number
  /** Of the paper's mid-surface, mm round. */
  readonly round: (station: number) => number
}

const fullTurn = 2 * Math.PI
/** Longest step round a circle that is drawn as a line: its sagitta on a cone of 30° is under 0.02 mm. */
const step = Math.PI / 90

export function wrapFrame(tube: TubeFigures, thickness: number): WrapFrame {
  const kappa = (tube.narrowing_deg * Math.PI) / 180
  const paper = { radius: tube.radius_m, kappa, rootForward: tube.root_m.forward, thickness }
  const at = ([station, angle]: WrapPlace): XY => {
    const [X, Y] = paperPoint(paper, [station, angle - Math.PI])
    return [Y * 1e3, X * 1e3]
  }
  const turn = (angle: number): number => (angle - Math.PI) * Math.sin(kappa)
  const stations = [...tube.fin.nextFoot, ...tube.fin.previousFoot].map(([station]) => station)
  const bay = fullTurn / tube.finCount
  const count = kappa === 0 ? () => 1 : (span: number) => Math.max(1, Math.ceil(Math.abs(span) / step))
  return {
    at,
    beside: (place, round, aft) => {
      const [x, y] = at(place)
      const [c, s] = [Math.cos(turn(place[1])), Math.sin(turn(place[1]))]
      return [x + round * c - aft * s, y + round * s + aft * c]
    },
    turn,
    circle: (station, from, to) => {
      const n = count(to - from)
      return Array.from({ length: n + 1 }, (_, k) => at([station, from + ((to - from) * k) / n]))
    },
    fins: Array.from({ length: tube.finCount }, (_, i) => (i + 0.5) * bay),
    centres: Array.from({ length: tube.finCount + 1 }, (_, i) => i * bay),
    forward: Math.min(...stations),
    aft: Math.max(...stations),
    round: (station) =>
      fullTurn *
      1e3 *
      (tube.radius_m - (station - tube.root_m.forward) * Math.sin(kappa) + thickness / (2 * Math.cos(kappa))),
  }
}

/** A fin's line or a bay's: its places moved to an angle on the paper. */
export const places = (line: readonly (readonly [number, number])[], about: number): WrapPlace[] =>
  line.map(([station, angle]) => [station, about + (angle * Math.PI) / 180])

/** The place of a line at a station, in between by its neighbours. */
export function placeAt(line: readonly WrapPlace[], station: number): WrapPlace {
  const k = Math.max(
    1,
    line.findIndex(([a]) => a >= station),
  )
  const [a, b] = [line[k - 1], line[k]]
  const share = (station - a[0]) / (b[0] - a[0])
  return [station, a[1] + share * (b[1] - a[1])]
}
