/**
 * The depth of a wall, from its outer face inward, cut into control volumes about nodes.
 *
 *   capacity of a node      C = Σ ρ cp ∫ a ds over its two half intervals      J/(m² K)
 *   between two nodes       K = k a(middle) / Δs                               W/(m² K)
 *
 * Everything is for a square metre of outer face. A slab has a = 1; in a cylinder of radius R, heated all round, a = 1
 * − s/R and the depth ends on the axis. Nodes lie on the outer face, on every face between layers and at the inner end.
 * Intervals are even within a layer and shared out by the layers' √(time to diffuse through), so that heat needs about
 * as long for each. Source: any text on finite volumes, e.g. Patankar, Numerical Heat Transfer and Fluid Flow (1980),
 * chapter 4 (recalled).
 */
import { invariant } from '../../issue.ts'

export interface ThermalLayer {
  /** m */
  readonly thickness: number
  /** Through the thickness, W/(m K). */
  readonly conductivity: number
  /** kg/m³ */
  readonly density: number
  /** J/(kg K) */
  readonly specificHeat: number
  /** Default: the layer that holds the middle is core, the others skin; a layer alone is skin. */
  readonly part?: 'skin' | 'core'
}

/** The inner end: no heat crosses it (the middle plane of a fin, an axis), or it is the other face and heated alike. */
export type InnerEnd = 'adiabatic' | 'heated'

export interface WallShape {
  readonly layers: readonly ThermalLayer[]
  readonly shape: 'slab' | 'cylinder'
  readonly inner: InnerEnd
  /** Intervals through the depth, about; every layer has two or more. */
  readonly cells: number
}

export interface Wall {
  readonly inner: InnerEnd
  /** Of the nodes below the outer face, m. */
  readonly depth: Float64Array
  readonly capacity: Float64Array
  /** Between a node and the next, one fewer than nodes. */
  readonly conductance: Float64Array
  /** Share of a node's cell in the mean over the skin, over the core; each adds up to 1, or to 0 where there is none. */
  readonly skin: Float64Array
  readonly core: Float64Array
  /** As `skin`, weighed by the square of the distance to the middle: what bending feels. */
  readonly bending: Float64Array
  /** Depths of the middle of the outer skin, of where it meets the core, and of the middle of the wall, m. */
  readonly places: { readonly skinMiddle: number; readonly interface: number; readonly middle: number }
  /** Thickness over conductivity of the outer skin, and from the outer face to the middle, m² K/W. */
  readonly resistance: { readonly skin: number; readonly half: number }
}

const leastIntervals = 2

export function wallOf({ layers, shape, inner, cells }: WallShape): Wall {
  invariant(layers.length > 0, 'a wall without layers')
  for (const { thickness, conductivity, density, specificHeat } of layers) {
    const all = [thickness, conductivity, density, specificHeat]
    invariant(
      all.every((value) => value > 0 && Number.isFinite(value)),
      `a layer of ${all.join(', ')}`,
    )
  }
  invariant(shape === 'slab' || inner === 'adiabatic', 'a cylinder has no other face')
  const total = layers.reduce((sum, { thickness }) => sum + thickness, 0)
  const middle = inner === 'heated' ? total / 2 : total
  const parts = partsOf(layers, middle)
  const counts = intervalsOf(layers, cells)
  const n = counts.reduce((sum, count) => sum + count, 0) + 1
  const wall = { depth: new Float64Array(n), capacity: new Float64Array(n), conductance: new Float64Array(n - 1) }
  const [skin, core, bending] = [new Float64Array(n), new Float64Array(n), new Float64Array(n)]
  const area = (s: number): number => (shape === 'slab' ? 1 : 1 - s / total)
  let [i, s] = [0, 0]
  layers.forEach(({ thickness, conductivity, density, specificHeat }, layer) => {
    const ds = thickness / counts[layer]
    for (let j = 0; j < counts[layer]; j++, i++) {
      wall.conductance[i] = (conductivity * area(s + ds / 2)) / ds
      for (const half of [0, 1]) {
        const centre = s + (0.25 + 0.5 * half) * ds
        const volume = area(centre) * (ds / 2)
        wall.capacity[i + half] += density * specificHeat * volume
        const share = parts[layer] === 'skin' ? skin : core
        share[i + half] += volume
        if (parts[layer] === 'skin') bending[i + half] += volume * (centre - middle) ** 2
      }
      s += ds
      wall.depth[i + 1] = s
    }
  })
  for (const weights of [skin, core, bending]) normalise(weights)
  return { inner, ...wall, skin, core, bending, ...landmarks(layers, parts, middle) }
}

function partsOf(layers: readonly ThermalLayer[], middle: number): readonly ('skin' | 'core')[] {
  let end = 0
  const holdsMiddle = layers.findIndex(({ thickness }) => {
    end += thickness
    return end >= middle * (1 - 1e-12)
  })
  return layers.map(({ part }, i) => part ?? (i === holdsMiddle && layers.length > 1 ? 'core' : 'skin'))
}

function intervalsOf(layers: readonly ThermalLayer[], cells: number): readonly number[] {
  const lag = layers.map(({ thickness, conductivity, density, specificHeat }) =>
    Math.sqrt((thickness ** 2 * density * specificHeat) / conductivity),
  )
  const whole = lag.reduce((sum, part) => sum + part, 0)
  return lag.map((part) => Math.max(leastIntervals, Math.round((cells * part) / whole)))
}

function normalise(weights: Float64Array): void {
  const sum = weights.reduce((total, weight) => total + weight, 0)
  if (sum > 0) for (let i = 0; i < weights.length; i++) weights[i] /= sum
}

/** The skin without a core reaches to the middle. */
function landmarks(
  layers: readonly ThermalLayer[],
  parts: readonly ('skin' | 'core')[],
  middle: number,
): Pick<Wall, 'places' | 'resistance'> {
  const found = parts.indexOf('core')
  const skins = layers.slice(0, found < 0 ? layers.length : found)
  const skinThickness = Math.min(
    middle,
    skins.reduce((sum, { thickness }) => sum + thickness, 0),
  )
  return {
    places: { skinMiddle: skinThickness / 2, interface: skinThickness, middle },
    resistance: { skin: resistanceTo(layers, skinThickness), half: resistanceTo(layers, middle) },
  }
}

function resistanceTo(layers: readonly ThermalLayer[], depth: number): number {
  let [s, sum] = [0, 0]
  for (const { thickness, conductivity } of layers) {
    sum += Math.max(0, Math.min(thickness, depth - s)) / conductivity
    s += thickness
  }
  return sum
}
