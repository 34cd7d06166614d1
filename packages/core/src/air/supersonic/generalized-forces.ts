/**
 * Pressure on a fin and generalized air forces on its mode shapes, F_i = q Σ_j Q_ij(k, M) ξ_j, in supersonic flow.
 *
 *   w_j / V = ∂z_j/∂x + i κ z_j           κ = k / b = ω / V
 *   Δc_p = 4 (∂/∂x + i κ) φ/V             φ on the upper face, Δc_p = (lower − upper)/q, up like z
 *   force of a panel from x₁ to x₂:  q · 4 Δy [φ₂ − φ₁ + i κ ∫φ dx]/V          Q_ij = Σ z_i × (that, of mode j)
 *
 * The mean pressure over a panel comes from the potential at its two ends, so a pressure that is infinite at a leading edge needs
 * no care. z_j is the displacement (normal to the fin, m per unit of ξ_j) of mode j; with z a length per unit ξ, Q is in m³ per
 * unit ξ²; b is the length k is referred to.
 */
import { type ComplexMatrix, type ComplexVector, complexVector } from '../../numeric/complex-matrix.ts'
import { type ModeOnLattice, workOn } from '../subsonic/generalized-forces.ts'
import { type FieldMesh, meshSampling, weightedSums } from '../subsonic/mesh-sampling.ts'
import type { SourceLattice } from './lattice.ts'
import {
  type HarmonicFlow,
  harmonicFlow,
  potentialAtStations,
  type SupersonicFlow,
  sourceStrengths,
} from './solution.ts'

/** Solutions of one flow, each frequency factored once and kept. */
export type KeptFlow = (wavenumber: number) => HarmonicFlow

export function keptFlow(flow: SupersonicFlow): KeptFlow {
  const kept = new Map<number, HarmonicFlow>()
  return (wavenumber) => {
    const found = kept.get(wavenumber) ?? harmonicFlow(flow, wavenumber)
    kept.set(wavenumber, found)
    return found
  }
}

/**
 * Q(k) for k ≥ 0, n × n over the modes given; k = ω b / V. `pressureFactor` multiplies the pressure of each box
 * (`thickness.ts`); default 1.
 */
export function supersonicForces(
  at: KeptFlow,
  modes: readonly ModeOnLattice[],
  b: number,
  pressureFactor?: ArrayLike<number>,
): (k: number) => ComplexMatrix {
  const weighted = timesPressure(modes, pressureFactor)
  return (k) => workOn(weighted, modeForces(at(k / b), modes))
}

/** What each box's force is weighed with in the work on a mode, its pressure multiplied by a factor; default 1. */
export function timesPressure(
  modes: readonly ModeOnLattice[],
  factor?: ArrayLike<number>,
): readonly Pick<ModeOnLattice, 'forceRise'>[] {
  if (factor === undefined) return modes
  return modes.map(({ forceRise }) => ({ forceRise: forceRise.map((rise, box) => rise * factor[box]) }))
}

/** Force over q on each box for unit amplitude of each mode. */
export function modeForces(harmonic: HarmonicFlow, modes: readonly ModeOnLattice[]): ComplexVector[] {
  const washes = modes.map(({ rise, slope }) => ({
    re: Float64Array.from(slope),
    im: rise.map((z) => harmonic.wavenumber * z),
  }))
  return sourceStrengths(harmonic, washes).map((sigma) => boxForces(harmonic, potentialAtStations(harmonic, sigma)))
}

/** Steady Δc_p on each box for a normalwash w/V at the receiving points: −α for a flat fin at the angle of attack α. */
export function steadyPressure(at: KeptFlow, normalwash: Float64Array): Float64Array {
  const harmonic = at(0)
  const { area } = harmonic.flow.field.lattice
  const [sigma] = sourceStrengths(harmonic, [{ re: normalwash, im: new Float64Array(normalwash.length) }])
  const { re } = boxForces(harmonic, potentialAtStations(harmonic, sigma))
  return re.map((force, box) => (area[box] > 0 ? force / area[box] : 0))
}

/** Force over q on each box, Δc_p times area, from the potential at the stations. */
function boxForces(harmonic: HarmonicFlow, phi: ComplexVector): ComplexVector {
  const { field } = harmonic.flow
  const { panels, strips, count } = field.lattice
  const force = complexVector(count)
  const kappa = harmonic.wavenumber
  for (let p = 0; p < panels.length; p++) {
    const { box, strip, from, to } = panels[p]
    const [a, b] = [field.panelFrom[p], field.panelTo[p]]
    const [re1, im1] = a < 0 ? [0, 0] : [phi.re[a], phi.im[a]]
    // A trailing edge's station may stand a little way down the wake, where the potential is the edge's, carried along.
    const [cos, sin] = turn(kappa * (field.stations[b].x - to))
    const [re2, im2] = [phi.re[b] * cos - phi.im[b] * sin, phi.im[b] * cos + phi.re[b] * sin]
    // Mean of φ over a panel: straight, or a square root from a leading edge that the flow turns round.
    const share = field.subsonicLead[p] ? 2 / 3 : 1 / 2
    const length = kappa * (to - from)
    const scale = 4 * (strips[strip].yOut - strips[strip].yIn)
    force.re[box] += scale * (re2 - re1 - length * (share * im2 + (1 - share) * im1))
    force.im[box] += scale * (im2 - im1 + length * (share * re2 + (1 - share) * re1))
  }
  return force
}

const turn = (angle: number): readonly [number, number] => (angle === 0 ? [1, 0] : [Math.cos(angle), Math.sin(angle)])

/** A shape given by functions of (x, y), m, on the boxes. */
export function shapeOnBoxes(
  { receiveX, y }: SourceLattice,
  z: (x: number, y: number) => number,
  dzdx: (x: number, y: number) => number,
): ModeOnLattice {
  const rise = receiveX.map((x, i) => z(x, y[i]))
  return { rise, slope: receiveX.map((x, i) => dzdx(x, y[i])), forceRise: rise }
}

/** Mode shapes given by displacements at the nodes of a mesh, on the boxes. */
export function shapesOnBoxes(
  { receiveX, y }: SourceLattice,
  mesh: FieldMesh,
): (z: ArrayLike<number>) => ModeOnLattice {
  const sampling = meshSampling(mesh, receiveX, y)
  return (z) => {
    const rise = weightedSums(sampling, sampling.value, z)
    return { rise, slope: weightedSums(sampling, sampling.slope, z), forceRise: rise }
  }
}
