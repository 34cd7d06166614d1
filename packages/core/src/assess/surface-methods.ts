/** The lifting surfaces and piston theory on a plate's modes, and the conservative envelope over them. */
import { conservativeEnvelope, type Envelope } from '../flutter/envelope.ts'
import type { AerodynamicMethod } from '../flutter/forces.ts'
import { doubletLatticeMethod } from '../flutter/lattice-method.ts'
import { type PistonInput, pistonScope, pistonTheory } from '../flutter/piston.ts'
import { supersonicSurfaceMethod } from '../flutter/source-method.ts'
import type { Point } from '../geometry/point.ts'
import { fourfoldMesh, type QuadraticMesh } from '../plate/quadratic-mesh.ts'
import type { KeptAir } from './fin-air.ts'

export type Thickness = (x: number, y: number) => number

export interface OnModes {
  readonly nodes: QuadraticMesh
  /** Deflection at every node, of unit modal mass, one a mode. */
  readonly shapes: readonly Float64Array[]
  /** Whole thickness at a point, in the plate's axes. */
  readonly thicknessAt: Thickness
}

export type Stream = Pick<PistonInput, 'flowDirection' | 'order' | 'faces'> & { readonly aerodynamicDamping: boolean }

/** A fin's own stream: along x, on both faces, with thickness. */
export const alongFin: Stream = { flowDirection: 0, order: 2, faces: 2, aerodynamicDamping: true }

export interface FinEnvelope {
  readonly envelope: Envelope
  /** The method that answers with the aerodynamics of a Mach number itself. */
  readonly own: (mach: number) => AerodynamicMethod | null
}

/** Plate axes and stream axes: x along the stream, y away from the root. */
export interface StreamAxes {
  readonly to: (x: number, y: number) => Point
  readonly back: (x: number, y: number) => Point
}

export interface InFlow {
  readonly air: KeptAir
  /** Left out where the plate's axes are those of the stream. */
  readonly axes?: StreamAxes
}

export function finEnvelope(modes: OnModes, { air, axes }: InFlow, stream: Stream = alongFin): FinEnvelope {
  const { nodes, shapes, thicknessAt } = modes
  const { X, T } = nodes
  const mesh = { X: axes === undefined ? X : turnedNodes(X, axes), T, perTriangle: 6 as const }
  const input = { outline: air.outline, mesh, shapes }
  const half = (x: number, y: number): number =>
    thicknessAt(...(axes === undefined ? ([x, y] as const) : axes.back(x, y))) / 2
  const subsonic = doubletLatticeMethod({ ...input, air: air.subsonic })
  const supersonic = supersonicSurfaceMethod({
    ...{ ...input, air: air.supersonic },
    ...(stream.order === 2 ? { halfThickness: half } : {}),
  })
  const own = (mach: number): AerodynamicMethod | null =>
    [subsonic, supersonic].find(({ machRange }) => mach >= machRange.from && mach <= machRange.to) ?? null
  return { envelope: conservativeEnvelope({ subsonic, supersonic, piston: pistonMethod(modes, stream) }), own }
}

function turnedNodes(X: Float64Array, { to }: StreamAxes): Float64Array {
  const turned = new Float64Array(X.length)
  for (let i = 0; i < X.length; i += 2) turned.set(to(X[i], X[i + 1]), i)
  return turned
}

/** Computed when a Mach number asks for it: most flights stay below its range. */
export function pistonMethod(modes: OnModes, stream: Stream): AerodynamicMethod {
  let made: AerodynamicMethod | undefined
  const method = (): AerodynamicMethod => {
    made ??= pistonOn(modes, stream)
    return made
  }
  return {
    ...pistonScope(stream.order),
    forces: (mach) => method().forces(mach),
    warnings: (mach) => method().warnings(mach),
  }
}

function pistonOn({ nodes, shapes, thicknessAt }: OnModes, stream: Stream): AerodynamicMethod {
  const mesh = fourfoldMesh(nodes)
  const { X, T } = mesh
  const half = Float64Array.from({ length: X.length / 2 }, (_, i) => thicknessAt(X[2 * i], X[2 * i + 1]) / 2)
  const [c, s] = [Math.cos(stream.flowDirection), Math.sin(stream.flowDirection)]
  const slopes = Float64Array.from({ length: T.length / 3 }, (_, e) => {
    const [i, j, k] = [T[3 * e], T[3 * e + 1], T[3 * e + 2]]
    const [ax, ay] = [X[2 * j] - X[2 * i], X[2 * j + 1] - X[2 * i + 1]]
    const [bx, by] = [X[2 * k] - X[2 * i], X[2 * k + 1] - X[2 * i + 1]]
    const [p, q] = [half[j] - half[i], half[k] - half[i]]
    return (c * (p * by - q * ay) + s * (q * ax - p * bx)) / (ax * by - bx * ay)
  })
  return pistonTheory({ mesh, shapes, slopes, ...stream })
}
