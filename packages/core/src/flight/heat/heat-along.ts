/**
 * Temperatures through a fin's wall along a flight, at stated stations, and what they mean for the resin.
 *
 * At each station the air heats the outer face, q = h (Tr − Tw), with h and Tr of a flat plate (`flat-plate.ts`) or of
 * a leading edge (`attachment-line.ts`), and the heat is conducted inward in one dimension (`section.ts`,
 * `conduction.ts`). The air is taken straight between the samples of the history; each interval is cut into equal steps
 * no longer than `longestStep`.
 *
 * Left out, so that the fin reads somewhat hot: radiation to the sky (1 kW/m² at 130 °C beside 50 of convection), heat
 * that flows along the fin, the rise of the laminate's specific heat. Left out, so that it may read cold: sun on the
 * pad (choose the initial temperature), shocks that strike the fin, exhaust heat, incidence (choose a pressure ratio).
 */
import { type Issue, invariant } from '../../issue.ts'
import type { FlightHistory } from '../history.ts'
import { attachmentLine } from './attachment-line.ts'
import { type Conduction, conduction, stageShare } from './conduction.ts'
import { plateHeating } from './flat-plate.ts'
import { against, largestBiot, peaks, recorder } from './record.ts'
import { type ThermalLayer, wallOf } from './section.ts'
import type { GlassTransition, HeatStation, StationHeat } from './station.ts'
import type { Stream, SurfaceHeating } from './stream.ts'
import { heatWarnings } from './warnings.ts'

export interface HeatInput {
  readonly history: Pick<FlightHistory, 'time' | 'temperature' | 'density' | 'speed' | 'mach'>
  /** Outer face first, ending on the middle plane. */
  readonly layers: readonly ThermalLayer[]
  readonly stations: readonly HeatStation[]
  /** Of the whole fin at the start, K. */
  readonly initialTemperature: number
  /** The one in force first; warnings speak of that one. */
  readonly glassTransitions: readonly GlassTransition[]
  /** s, default 0.1. */
  readonly longestStep?: number
  /** Intervals through the depth, about; default 40. */
  readonly cells?: number
}

export interface FinHeat {
  readonly time: readonly number[]
  readonly stations: readonly StationHeat[]
  readonly warnings: readonly Issue[]
}

export function heatAlong(input: HeatInput): FinHeat {
  const { history, initialTemperature, longestStep = 0.1 } = input
  invariant(history.time.length >= 2, `a history of ${history.time.length} samples`)
  invariant(initialTemperature > 0 && longestStep > 0, `from ${initialTemperature} K in steps of ${longestStep} s`)
  const stations = input.stations.map((station) => heatAt(station, input, longestStep))
  return { time: history.time, stations, warnings: heatWarnings(history, stations) }
}

function heatAt(station: HeatStation, input: HeatInput, longestStep: number): StationHeat {
  const { history, glassTransitions, initialTemperature } = input
  const { at, layers = input.layers, shape = 'slab', inner = 'adiabatic' } = station
  const wall = wallOf({ layers, shape, inner, cells: input.cells ?? 40 })
  const heating = heatingAt(station)
  const { time } = history
  const T = new Float64Array(wall.depth.length).fill(initialTemperature)
  const note = recorder(wall, glassTransitions)
  const run = { steps: 0, absorbed: 0, iterations: 0, residual: 0 }
  const advance = conduction(wall)
  note.take(T, heating(streamBetween(history, 0, 0)))
  for (let i = 1; i < time.length; i++) {
    invariant(time[i] > time[i - 1], `history time ${i} does not rise`)
    const steps = Math.max(1, Math.ceil((time[i] - time[i - 1]) / longestStep - 1e-9))
    const { heat, iterations, residual } = overInterval({ history, i, steps, T, advance, heating })
    run.steps += steps
    run.absorbed += heat
    run.iterations = Math.max(run.iterations, iterations)
    run.residual = Math.max(run.residual, residual)
    note.take(T, heating(streamBetween(history, i - 1, 1)))
  }
  const stored = wall.capacity.reduce((sum, C, i) => sum + C * (T[i] - initialTemperature), 0)
  const { steps, absorbed, iterations, residual } = run
  return {
    name: station.name,
    at,
    role: station.role ?? (at.kind === 'edge' ? 'edge' : 'flat'),
    share: station.share ?? 1,
    ...note.columns,
    peak: peaks(time, note.columns),
    against: against(time, note, glassTransitions),
    biot: largestBiot(note.columns.coefficient, wall),
    energy: { absorbed, stored },
    numerics: { nodes: T.length, steps, iterations, residual },
  }
}

type Heating = (stream: Stream) => SurfaceHeating

function heatingAt({ at, coefficientFactor: factor = 1 }: HeatStation): Heating {
  const plain: Heating =
    at.kind === 'plate' ? (stream) => plateHeating(at, stream) : (stream) => attachmentLine(at, stream)
  if (factor === 1) return plain
  return (stream) => {
    const { recovery, coefficient } = plain(stream)
    return { recovery, coefficient: (Tw) => factor * coefficient(Tw) }
  }
}

interface Interval {
  readonly history: HeatInput['history']
  /** From sample i − 1 to sample i. */
  readonly i: number
  readonly steps: number
  readonly T: Float64Array
  readonly advance: Conduction
  readonly heating: Heating
}

function overInterval({ history, i, steps, T, advance, heating }: Interval) {
  const duration = (history.time[i] - history.time[i - 1]) / steps
  const at = (share: number): SurfaceHeating => heating(streamBetween(history, i - 1, share))
  let [heat, iterations, residual] = [0, 0, 0]
  let start = at(0)
  for (let j = 0; j < steps; j++) {
    const end = at((j + 1) / steps)
    const report = advance(T, { duration, start, stage: at((j + stageShare) / steps), end })
    heat += report.heat
    iterations = Math.max(iterations, report.iterations)
    residual = Math.max(residual, report.residual)
    start = end
  }
  return { heat, iterations, residual }
}

/** The free stream a share of the way from sample i to the next. */
function streamBetween({ temperature, density, speed }: HeatInput['history'], i: number, share: number): Stream {
  const between = (column: readonly number[]): number => column[i] + share * (column[i + 1] - column[i])
  return { temperature: between(temperature), density: between(density), speed: between(speed) }
}
