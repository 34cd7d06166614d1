/** Where a sweep over the speed begins and ends, and what counts as unstable in it. */
import { type Aeroelastic, highest } from './roots.ts'

/** Growth above which a root counts as unstable: above the 1e-8 that rounding leaves on two roots about to meet. */
const unstableGrowth = 1e-7
/**
 * The same where nothing damps at all. There two frequencies that are equal by symmetry, and that only the mesh couples, part
 * with a growth of 1e-5 at any speed; roots that truly meet pass this value within 1e-5 of their speed.
 */
const unstableUndamped = 5e-4

/** Where q |A₀| reaches four times the square of the highest frequency: beyond it the modes kept cannot tell. */
export function basisLimit({ omegas, forces, density }: Aeroelastic): number {
  const q = (4 * highest(omegas) ** 2) / frobenius(forces.at(0).A0)
  return Math.sqrt((2 * q) / density)
}

/** Where the air's stiffness or damping first reaches a twentieth of the lowest mode's own stiffness. */
export function firstSpeed({ omegas, forces, density }: Aeroelastic): number {
  const { A0, A1 } = forces.at(0)
  const share = 0.05
  const lowest = Math.min(...Array.from(omegas))
  const byStiffness = Math.sqrt((2 * share * lowest ** 2) / (density * frobenius(A0)))
  const byDamping = (2 * share * lowest) / (density * forces.referenceLength * frobenius(A1))
  return Math.min(byStiffness, byDamping)
}

export const leastGrowth = (system: Aeroelastic): number => (isDamped(system) ? unstableGrowth : unstableUndamped)

export function isDamped({ structuralDamping, forces }: Aeroelastic): boolean {
  return structuralDamping > 0 || !forces.quasiSteady || forces.at(0).A1.some((v) => v !== 0)
}

function frobenius(A: Float64Array): number {
  return Math.sqrt(A.reduce((sum, v) => sum + v * v, 0))
}
