/** A wind-tunnel fin, from plate modes to the conservative envelope and the linear values beside it. Shared by the checks. */

import { conservativeEnvelope } from '../src/flutter/envelope.ts'
import { type EnvelopeEntry, envelopeBoundary } from '../src/flutter/envelope-boundary.ts'
import type { AerodynamicMethod } from '../src/flutter/forces.ts'
import { doubletLatticeMethod } from '../src/flutter/lattice-method.ts'
import { ownModes } from '../src/flutter/modal-system.ts'
import { solvePk } from '../src/flutter/pk.ts'
import { supersonicSurfaceMethod } from '../src/flutter/source-method.ts'
import type { PlateFin } from './supersonic-flutter.ts'

export interface TunnelFin {
  readonly fin: PlateFin
  readonly halfThickness: (x: number, y: number) => number
  /** rad/s; as many modes are kept. */
  readonly omegas: readonly number[]
}

export interface TunnelPoint {
  readonly mach: number
  readonly density: number
}

export interface TunnelMethods {
  readonly subsonic: AerodynamicMethod
  readonly supersonic: AerodynamicMethod
  readonly thin: AerodynamicMethod
}

export function tunnelMethods({ fin, halfThickness, omegas }: TunnelFin): TunnelMethods {
  const { outline, mesh, modes } = fin
  const shapes = modes.shapes.slice(0, omegas.length).map(({ w }) => w)
  return {
    subsonic: doubletLatticeMethod({ outline, mesh, shapes }),
    supersonic: supersonicSurfaceMethod({ outline, mesh, shapes, halfThickness }),
    thin: supersonicSurfaceMethod({ outline, mesh, shapes }),
  }
}

export function envelopeAt(methods: TunnelMethods, omegas: readonly number[], point: TunnelPoint): EnvelopeEntry {
  const { boundary } = envelopeBoundary({
    envelope: conservativeEnvelope(methods),
    // A tunnel's speed of sound does not matter to the envelope.
    points: [{ ...point, soundSpeed: 340, speed: 340 * point.mach, time: null, altitude: null }],
    ...{ modes: ownModes(omegas), structuralDamping: 0 },
  })
  return boundary[0]
}

/** m/s */
export function linearSpeed(
  method: AerodynamicMethod,
  omegas: readonly number[],
  { mach, density }: TunnelPoint,
): number {
  const { flutter } = solvePk({ omegas, structuralDamping: 0, forces: method.forces(mach), density })
  if (flutter.kind !== 'flutter') throw new Error(`${method.name} at Mach ${mach}: ${flutter.kind}`)
  return flutter.V
}
