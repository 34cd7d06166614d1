/**
 * Temperatures through a fin's wall along a flight, at stated stations, and what they mean for the resin.
 *
 * At each station the air heats the outer face, q = h (Tr − Tw), with h and Tr of a flat plate (`flat-plate.ts`) or of a leading
 * edge (`attachment-line.ts`), and the heat is conducted inward in one dimension (`section.ts`, `conduction.ts`). The air is taken
 * straight between the samples of the history; each interval is cut into equal steps no longer than `longestStep`.
 *
 * Left out, so that the fin reads somewhat hot: radiation to the sky (1 kW/m² at 130 °C beside 50 of convection), heat that flows
 * along the fin, the rise of the laminate's specific heat. Left out, so that it may read cold: sun on the pad (choose the initial
 * temperature), shocks that strike the fin, exhaust heat, incidence (choose a pressure ratio).
 */
import { type Issue, invariant } from '../../issue.ts'
import type { FlightHistory } from '../history.ts'
import { attachmentLine, type EdgePlace } from './attachment-line.ts'
import { type Conduction, conduction, stageShare } from './conduction.ts'
import { type Peak, peakOf, secondsAbove } from './exposure.ts'
import { type PlatePlace, plateHeating } from './flat-plate.ts'
import { resinModulusCurve } from './resin-modulus.ts'
import { type InnerEnd, type ThermalLayer, type Wall, wallOf } from './section.ts'
import type { Stream, SurfaceHeating } from './stream.ts'
import { heatWarnings } from './warnings.ts'

export type StationRole = 'flat' | 'bevel' | 'edge' | 'fillet'

export interface HeatStation {
  readonly name: string
  readonly at: PlatePlace | EdgePlace
  /** Default `edge` on an edge and `flat` elsewhere; what the fin does as a plate is judged by its flat. */
  readonly role?: StationRole
  /** Weight in the mean over the flat (`laminate-temperature.ts`), e.g. the share of the area it stands for; default 1. */
  readonly share?: number
  /** Outer face first; default those of the whole input. */
  readonly layers?: readonly ThermalLayer[]
  /** Default slab; a cylinder is heated all round, its layers end on its axis. */
  readonly shape?: 'slab' | 'cylinder'
  /** Default adiabatic: the layers end on the fin's middle plane. Heated: they run through to the other face. */
  readonly inner?: InnerEnd
  /** Multiplies the heat transfer coefficient, to carry its uncertainty; default 1. */
  readonly coefficientFactor?: number
}

export interface GlassTransition {
  /** E.g. `as cured at room temperature`. */
  readonly name: string
  /** K */
  readonly temperature: number
}

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

/** The depths at which temperatures are told; without a core the interface is the middle. */
export const depthNames = ['surface', 'skinMiddle', 'interface', 'middle'] as const
export type DepthName = (typeof depthNames)[number]

/** Columns over the history's times; K, W/(m² K). */
export interface StationHeat extends Readonly<Record<DepthName, readonly number[]>> {
  readonly name: string
  readonly at: PlatePlace | EdgePlace
  readonly role: StationRole
  readonly share: number
  readonly recovery: readonly number[]
  readonly coefficient: readonly number[]
  /** Mean over the skin. */
  readonly skinMean: readonly number[]
  /** Null without a core. */
  readonly coreMean: readonly number[] | null
  readonly peak: Readonly<Record<DepthName | 'recovery', Peak>>
  /** One a glass transition, in the order given. */
  readonly against: readonly GlassExposure[]
  /** Largest of the flight: coefficient times thickness over conductivity, of the outer skin and from face to middle. */
  readonly biot: { readonly skin: number; readonly half: number }
  /** J/m² of outer face: taken up through it, and held at the end more than at the start. */
  readonly energy: { readonly absorbed: number; readonly stored: number }
  readonly numerics: {
    readonly nodes: number
    readonly steps: number
    /** Most in a step, and the largest relative change left, of the surface temperature. */
    readonly iterations: number
    readonly residual: number
  }
}

export interface GlassExposure extends GlassTransition {
  readonly secondsAbove: Readonly<Record<DepthName, number>>
  /** Over the history's times: mean of `resinModulusFactor` over the skin, as bending feels it. */
  readonly resinFactor: readonly number[]
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
    const steps = Math.ceil((time[i] - time[i - 1]) / longestStep - 1e-9)
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
    against: glassTransitions.map((transition, g) => ({
      ...transition,
      secondsAbove: byDepth((depth) => secondsAbove(time, note.columns[depth], transition.temperature)),
      resinFactor: note.resinFactors[g],
    })),
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

type Columns = { [key in DepthName | 'recovery' | 'coefficient' | 'skinMean']: number[] } & {
  coreMean: number[] | null
}

function recorder(wall: Wall, transitions: readonly GlassTransition[]) {
  const { depth, places, skin, core, bending } = wall
  const hasCore = core.some((share) => share > 0)
  const columns: Columns = {
    surface: [],
    skinMiddle: [],
    interface: [],
    middle: [],
    recovery: [],
    coefficient: [],
    skinMean: [],
    coreMean: hasCore ? [] : null,
  }
  const resinCurves = transitions.map(({ temperature }) => resinModulusCurve(temperature))
  const resinFactors = transitions.map((): number[] => [])
  const take = (T: Float64Array, { recovery, coefficient }: SurfaceHeating): void => {
    columns.surface.push(T[0])
    columns.skinMiddle.push(temperatureAt(depth, T, places.skinMiddle))
    columns.interface.push(temperatureAt(depth, T, places.interface))
    columns.middle.push(temperatureAt(depth, T, places.middle))
    columns.recovery.push(recovery)
    columns.coefficient.push(coefficient(T[0]))
    columns.skinMean.push(weighted(skin, T))
    columns.coreMean?.push(weighted(core, T))
    resinCurves.forEach((curve, g) => {
      resinFactors[g].push(weighted(bending, T, curve))
    })
  }
  return { columns, resinFactors, take }
}

function temperatureAt(depth: Float64Array, T: Float64Array, s: number): number {
  let i = 0
  while (i < depth.length - 2 && s > depth[i + 1]) i++
  return T[i] + ((T[i + 1] - T[i]) * (s - depth[i])) / (depth[i + 1] - depth[i])
}

function weighted(weights: Float64Array, T: Float64Array, value: (t: number) => number = (t) => t): number {
  let sum = 0
  for (let i = 0; i < T.length; i++) if (weights[i] !== 0) sum += weights[i] * value(T[i])
  return sum
}

const byDepth = <V>(value: (depth: DepthName) => V): Record<DepthName, V> =>
  Object.fromEntries(depthNames.map((depth) => [depth, value(depth)])) as Record<DepthName, V>

function peaks(time: readonly number[], columns: Columns): StationHeat['peak'] {
  return { ...byDepth((depth) => peakOf(time, columns[depth])), recovery: peakOf(time, columns.recovery) }
}

function largestBiot(coefficient: readonly number[], { resistance }: Wall): StationHeat['biot'] {
  const h = Math.max(...coefficient)
  return { skin: h * resistance.skin, half: h * resistance.half }
}
