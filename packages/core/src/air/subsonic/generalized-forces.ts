/**
 * Generalized air forces of a fin on its mode shapes, F_i = q Σ_j Q_ij(k, M) ξ_j, by the doublet lattice.
 *
 *   w_j / V = ∂z_j/∂x + i κ z_j  at the receiving points        κ = k / b = ω / V
 *   Δc_p = D(κ, M)⁻¹ w / V                                      Q_ij = Σ_boxes z_i A Δc_p,j  at the force points
 *
 * z_j is the displacement (normal to the fin, m per unit of ξ_j) of mode j, b the length k is referred to. With z a length per
 * unit ξ, Q is in m³ per unit ξ²; F is then a work in J per unit ξ.
 */
import {
  type ComplexLu,
  type ComplexMatrix,
  type ComplexVector,
  complexLu,
  complexMatrix,
  complexSolve,
  complexVector,
} from '../../numeric/complex-matrix.ts'
import type { LiftingSurface } from './surface.ts'
import { type SurfaceAtMach, surfaceAtMach } from './surface-at-mach.ts'
import { washMatrix } from './wash.ts'

/** One mode shape at the points a lattice asks for, one entry a box. */
export interface ModeOnLattice {
  /** z at the receiving points. */
  readonly rise: Float64Array
  /** ∂z/∂x at the receiving points. */
  readonly slope: Float64Array
  /** z at the force points. */
  readonly forceRise: Float64Array
}

/** Factors of D at one Mach number; each frequency is factored once and kept. */
export interface FactoredWash {
  readonly surface: LiftingSurface
  readonly mach: number
  readonly factors: (wavenumber: number) => ComplexLu
}

export function factoredWash(surface: LiftingSurface, mach: number): FactoredWash {
  let at: SurfaceAtMach | undefined
  const kept = new Map<number, ComplexLu>()
  const factors = (wavenumber: number): ComplexLu => {
    const found = kept.get(wavenumber)
    if (found !== undefined) return found
    at ??= surfaceAtMach(surface, mach)
    const made = complexLu(washMatrix(at, wavenumber))
    kept.set(wavenumber, made)
    return made
  }
  return { surface, mach, factors }
}

/** Q(k) for k ≥ 0, n × n over the modes given; k = ω b / V. */
export function generalizedForces(
  wash: FactoredWash,
  modes: readonly ModeOnLattice[],
  b: number,
): (k: number) => ComplexMatrix {
  return (k) => workOn(modes, boxForces(wash, modes, k / b))
}

/** Force over q on each box for unit amplitude of each mode. */
export function boxForces(wash: FactoredWash, modes: readonly ModeOnLattice[], wavenumber: number): ComplexVector[] {
  const { area } = wash.surface.lattice
  return modes.map((mode) => {
    const { re, im } = modePressure(wash, mode, wavenumber)
    return { re: re.map((pressure, box) => pressure * area[box]), im: im.map((pressure, box) => pressure * area[box]) }
  })
}

/** Q_ij: the work on mode i of force j over q on each box. */
export function workOn(
  modes: readonly Pick<ModeOnLattice, 'forceRise'>[],
  forces: readonly ComplexVector[],
): ComplexMatrix {
  const Q = complexMatrix(modes.length)
  modes.forEach(({ forceRise }, i) => {
    forces.forEach(({ re, im }, j) => {
      let sumRe = 0
      let sumIm = 0
      for (let box = 0; box < forceRise.length; box++) {
        sumRe += forceRise[box] * re[box]
        sumIm += forceRise[box] * im[box]
      }
      Q.re[i * modes.length + j] = sumRe
      Q.im[i * modes.length + j] = sumIm
    })
  })
  return Q
}

/** Δc_p on each box for unit amplitude of a mode at κ = ω/V. */
export function modePressure(wash: FactoredWash, { rise, slope }: ModeOnLattice, wavenumber: number): ComplexVector {
  const w = complexVector(rise.length)
  w.re.set(slope)
  for (let i = 0; i < rise.length; i++) w.im[i] = wavenumber * rise[i]
  return complexSolve(wash.factors(wavenumber), w)
}

/** Steady Δc_p on each box for a normalwash w/V at the receiving points: −α for a flat fin at the angle of attack α. */
export function steadyPressure(wash: FactoredWash, normalwash: Float64Array): Float64Array {
  return complexSolve(wash.factors(0), { re: normalwash, im: new Float64Array(normalwash.length) }).re
}

/** A shape given by functions of (x, y), m. */
export function shapeOnLattice(
  { lattice }: LiftingSurface,
  z: (x: number, y: number) => number,
  dzdx: (x: number, y: number) => number,
): ModeOnLattice {
  const { y, receiveX, forceX } = lattice
  return {
    rise: receiveX.map((x, i) => z(x, y[i])),
    slope: receiveX.map((x, i) => dzdx(x, y[i])),
    forceRise: forceX.map((x, i) => z(x, y[i])),
  }
}
