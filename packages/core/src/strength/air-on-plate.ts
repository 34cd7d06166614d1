/**
 * Steady air on a fin that stands on a body: force on every box of a lifting surface over q, for one radian of angle of attack and
 * for any normalwash, and the way of both to the plate's nodes.
 *
 *   rigid fin       w/V = −α (1 + r²/(r + y)²)      body upwash, its mean over a strip, as the wash of each box (air/body-upwash.ts)
 *   bent fin        w/V = ∂w/∂x added
 *   nodal forces    F = Sᵀ f        slopes = R w       S, R: the fits of air/subsonic/mesh-sampling.ts at force and receiving points
 *
 * S is the matrix by which a flutter solution reads the modes at the force points, so a force does the same work on the nodes as on
 * the boxes; S reproduces 1, x and y, so total force and moments are those of the boxes. The body is a mirror plane, as in flutter.
 *
 *   M ≤ 0.95         doublet lattice at k = 0
 *   M ≥ 1.1          surface of source boxes at k = 0, thickness to second order if given; above Mach 5 held there
 *   between          both edges, to be taken in turn: the larger counts
 */
import { meanUpwash } from '../air/body-upwash.ts'
import { type MeshSampling, meshSampling, weightedSums } from '../air/subsonic/mesh-sampling.ts'
import { steadySurface } from '../air/subsonic/steady.ts'
import { keptFlow, modeForces } from '../air/supersonic/generalized-forces.ts'
import { supersonicFlow } from '../air/supersonic/solution.ts'
import { boxSlopes, thicknessFactors } from '../air/supersonic/thickness.ts'
import { keptByMach } from '../flutter/kept.ts'
import { highestLatticeMach, type SubsonicAir } from '../flutter/lattice-method.ts'
import { highestSurfaceMach, lowestSurfaceMach, type SupersonicAir } from '../flutter/source-method.ts'
import type { PlateLayout } from '../plate/layout.ts'

export interface FinAir {
  readonly subsonic: SubsonicAir
  readonly supersonic: SupersonicAir
  readonly bodyRadius: number
  /** Half the fin's thickness at a point, for the second-order factors of supersonic flow; without it the fin is thin. */
  readonly halfThickness?: (x: number, y: number) => number
}

export type Surface = 'doublet lattice' | 'supersonic surface'

/** Forces at one Mach number; arrays one entry a box, m² (force over q). */
export interface SteadyForces {
  readonly surface: Surface
  /** Of the forces: the flight's own, or that of the edge of a range. */
  readonly mach: number
  /** Per radian of angle of attack. */
  readonly rigid: Float64Array
  readonly respond: (normalwash: Float64Array) => Float64Array
}

/** Where the boxes of a surface feel and load a plate. */
export interface Placement {
  /** Points where forces act. */
  readonly x: Float64Array
  readonly y: Float64Array
  /** ∂w/∂x at the receiving points from deflections at the nodes of the quadratic mesh. */
  readonly slopes: (w: ArrayLike<number>) => Float64Array
  /** Nodal forces from forces on the boxes. */
  readonly toNodes: (force: ArrayLike<number>) => Float64Array
}

export interface SteadyFinAir {
  /** 0 subsonic, 1 in the transonic gap, 2 supersonic. */
  readonly rangeOf: (mach: number) => 0 | 1 | 2
  /** One, or two in the transonic gap. */
  readonly at: (mach: number) => readonly SteadyForces[]
  readonly placement: (surface: Surface, layout: PlateLayout) => Placement
  /** Σ f y over q for one radian, the moment about the body's surface, interpolated over Mach number; the larger in the gap. */
  readonly momentSlope: (mach: number) => number
}

/** Mach numbers between which the moment is interpolated when instants are ranked, to 1 %; what is reported is computed at its own. */
const subsonicGrid = [0, 0.4, 0.6, 0.75, 0.85, 0.9, highestLatticeMach]
const supersonicGrid = [lowestSurfaceMach, 1.2, 1.3, 1.45, 1.6, 1.8, 2.1, 2.5, 3, 4, highestSurfaceMach]

export function steadyFinAir(air: FinAir): SteadyFinAir {
  const sub = keptSurface(air.subsonic, air.bodyRadius, subsonicSurface)
  const sup = () => keptSurface(air.supersonic, air.bodyRadius, supersonicSurface)
  let slopes: Float64Array | undefined
  const factorsAt = (mach: number): Float64Array | null => {
    if (air.halfThickness === undefined) return null
    slopes ??= boxSlopes(air.supersonic.lattice, air.halfThickness)
    return heldFactors(mach, slopes)
  }
  const thin = (mach: number): SteadyForces => sub.at(mach)
  const thick = keptByMach((mach: number) => withThickness(sup().at(mach), factorsAt(mach)))
  const at = (mach: number): SteadyForces[] => {
    if (mach <= highestLatticeMach) return [thin(mach)]
    if (mach >= lowestSurfaceMach) return [thick(Math.min(mach, highestSurfaceMach))]
    return [thin(highestLatticeMach), thick(lowestSurfaceMach)]
  }
  const moment = (surface: KeptSurface, mach: number, factors: Float64Array | null) => {
    const rigid = surface.rigidOnGrid(mach)
    return rigid.reduce((sum, force, box) => sum + force * (factors?.[box] ?? 1) * surface.points.y[box], 0)
  }
  const subsonicMoment = keptByMach((mach: number) => moment(sub, mach, null))
  const supersonicMoment = keptByMach((mach: number) => moment(sup(), mach, factorsAt(mach)))
  const momentSlope = (mach: number): number => {
    if (mach <= highestLatticeMach) return onGrid(subsonicGrid, subsonicMoment, mach)
    if (mach >= lowestSurfaceMach) return onGrid(supersonicGrid, supersonicMoment, Math.min(mach, highestSurfaceMach))
    return Math.max(subsonicMoment(highestLatticeMach), supersonicMoment(lowestSurfaceMach))
  }
  const placement = (surface: Surface, layout: PlateLayout) =>
    (surface === 'doublet lattice' ? sub : sup()).placement(layout)
  return { rangeOf, at, placement, momentSlope }
}

const rangeOf = (mach: number): 0 | 1 | 2 => (mach <= highestLatticeMach ? 0 : mach < lowestSurfaceMach ? 1 : 2)

/** Straight in M below Mach 1, in 1/M above, where moments fall about like that. */
function onGrid(grid: readonly number[], value: (mach: number) => number, mach: number): number {
  let i = 1
  while (i < grid.length - 1 && grid[i] < mach) i++
  const [from, to] = [grid[i - 1], grid[i]]
  const along = (mach - from) / (to - from)
  const share = from < 1 ? along : (along * to) / mach
  return value(from) + share * (value(to) - value(from))
}

/** What depends on the outline and the body alone. */
interface KeptSurface {
  readonly points: BoxPoints
  readonly at: (mach: number) => SteadyForces
  /** The same rigid forces, kept for all Mach numbers of the grid without what a response needs. */
  readonly rigidOnGrid: (mach: number) => Float64Array
  readonly placement: (layout: PlateLayout) => Placement
}

interface BoxPoints {
  /** Ends of the box's strip. */
  readonly yIn: ArrayLike<number>
  readonly yOut: ArrayLike<number>
  readonly y: Float64Array
  readonly forceX: Float64Array
  readonly receiveX: Float64Array
}

/** Forces for several normalwashes at once. */
type RespondAll = (washes: readonly Float64Array[]) => Float64Array[]

const surfaces = new WeakMap<object, { readonly bodyRadius: number; readonly surface: KeptSurface }>()

/** Of the body asked for last; as long as the air itself lives. */
function keptSurface<Air extends object>(
  air: Air,
  bodyRadius: number,
  make: (air: Air) => { name: Surface; points: BoxPoints; respondAt: (mach: number) => RespondAll },
): KeptSurface {
  const known = surfaces.get(air)
  if (known?.bodyRadius === bodyRadius) return known.surface
  const { name, points, respondAt } = make(air)
  const wash = points.y.map((_, box) => -meanUpwash(bodyRadius, points.yIn[box], points.yOut[box]))
  const at = keptByMach((mach): SteadyForces => {
    const respond = matrixOf(respondAt(mach), wash.length)
    return { surface: name, mach, rigid: respond(wash), respond }
  })
  const onGridKept = new Map<number, Float64Array>()
  const rigidOnGrid = (mach: number): Float64Array => {
    const rigid = onGridKept.get(mach) ?? respondAt(mach)([wash])[0]
    onGridKept.set(mach, rigid)
    return rigid
  }
  const surface = { points, at, rigidOnGrid, placement: keptPlacement(points) }
  surfaces.set(air, { bodyRadius, surface })
  return surface
}

function subsonicSurface({ at }: SubsonicAir) {
  const { surface } = at(0)
  const { area } = surface.lattice
  const respondAt = (mach: number): RespondAll => {
    const solve = steadySurface(surface, mach)
    return (washes) => washes.map((wash) => solve(wash).map((pressure, box) => pressure * area[box]))
  }
  return { name: 'doublet lattice' as const, points: surface.lattice, respondAt }
}

function supersonicSurface({ lattice }: SupersonicAir) {
  const none = new Float64Array(lattice.count)
  const strips = Array.from(lattice.stripOf, (s) => lattice.strips[s])
  const ends = { yIn: strips.map(({ yIn }) => yIn), yOut: strips.map(({ yOut }) => yOut) }
  const respondAt = (mach: number): RespondAll => {
    const harmonic = keptFlow(supersonicFlow(lattice, mach))(0)
    return (washes) =>
      modeForces(
        harmonic,
        washes.map((slope) => ({ rise: none, slope, forceRise: none })),
      ).map(({ re }) => re)
  }
  return { name: 'supersonic surface' as const, points: { ...lattice, ...ends }, respondAt }
}

/** One product instead of a solution: forces for a unit wash on each box, n × n, column by column. */
function matrixOf(respond: RespondAll, n: number): SteadyForces['respond'] {
  const columns = respond(
    Array.from({ length: n }, (_, box) => {
      const unit = new Float64Array(n)
      unit[box] = 1
      return unit
    }),
  )
  return (wash) => {
    const force = new Float64Array(n)
    for (let j = 0; j < n; j++) {
      const [w, column] = [wash[j], columns[j]]
      if (w !== 0) for (let i = 0; i < n; i++) force[i] += w * column[i]
    }
    return force
  }
}

function withThickness(forces: SteadyForces, factors: Float64Array | null): SteadyForces {
  if (factors === null) return forces
  const times = (force: Float64Array) => force.map((f, box) => f * factors[box])
  return { ...forces, rigid: times(forces.rigid), respond: (wash) => times(forces.respond(wash)) }
}

/** Held between 0 and 2, as in the flutter solution, so that no pressure changes sign beyond the theory's range. */
const heldFactors = (mach: number, slopes: Float64Array): Float64Array =>
  thicknessFactors(mach, slopes).map((factor) => Math.min(2, Math.max(0, factor)))

/** Kept a mesh, told apart by identity: a new layout of the same mesh has the same nodes. */
function keptPlacement(points: BoxPoints): (layout: PlateLayout) => Placement {
  const known = new WeakMap<object, Placement>()
  return ({ mesh, nodes }) => {
    const found = known.get(mesh)
    if (found !== undefined) return found
    const field = { X: nodes.X, T: nodes.T, perTriangle: 6 as const }
    const force = meshSampling(field, points.forceX, points.y)
    const receive = points.receiveX === points.forceX ? force : meshSampling(field, points.receiveX, points.y)
    const count = nodes.X.length / 2
    const made: Placement = {
      x: points.forceX,
      y: points.y,
      slopes: (w) => weightedSums(receive, receive.slope, w),
      toNodes: (f) => transposedSums(force, f, count),
    }
    known.set(mesh, made)
    return made
  }
}

function transposedSums({ start, node, value }: MeshSampling, force: ArrayLike<number>, count: number): Float64Array {
  const F = new Float64Array(count)
  for (let p = 0; p + 1 < start.length; p++) {
    for (let e = start[p]; e < start[p + 1]; e++) F[node[e]] += value[e] * force[p]
  }
  return F
}
