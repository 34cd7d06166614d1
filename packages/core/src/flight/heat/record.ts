/**
 * Writes down the temperatures of a wall at the history's times, and what follows from them for the resin.
 */
import { peakOf, secondsAbove } from './exposure.ts'
import { resinModulusCurve } from './resin-modulus.ts'
import type { Wall } from './section.ts'
import { type DepthName, depthNames, type GlassTransition, type StationHeat } from './station.ts'
import type { SurfaceHeating } from './stream.ts'

export type Columns = { [key in DepthName | 'recovery' | 'coefficient' | 'skinMean']: number[] } & {
  coreMean: number[] | null
}

export interface HeatRecord {
  readonly columns: Columns
  /** One a glass transition. */
  readonly resinFactors: readonly number[][]
  /** Notes one instant. */
  readonly take: (T: Float64Array, heating: SurfaceHeating) => void
}

export function recorder(wall: Wall, transitions: readonly GlassTransition[]): HeatRecord {
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

export function peaks(time: readonly number[], columns: Columns): StationHeat['peak'] {
  return { ...byDepth((depth) => peakOf(time, columns[depth])), recovery: peakOf(time, columns.recovery) }
}

export const against = (
  time: readonly number[],
  { columns, resinFactors }: HeatRecord,
  transitions: readonly GlassTransition[],
): StationHeat['against'] =>
  transitions.map((transition, g) => ({
    ...transition,
    secondsAbove: byDepth((depth) => secondsAbove(time, columns[depth], transition.temperature)),
    resinFactor: resinFactors[g],
  }))

export function largestBiot(coefficient: readonly number[], { resistance }: Wall): StationHeat['biot'] {
  const h = Math.max(...coefficient)
  return { skin: h * resistance.skin, half: h * resistance.half }
}
