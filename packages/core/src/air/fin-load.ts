/**
 * Normal force of one fin by closed formulas, for comparison with the lifting surfaces that load it: three ranges of Mach number.
 *
 *   M ≤ 0.8        C_Nα = 2 π AR / (2 + sqrt(4 + (β AR / cos Γ)²))      β = sqrt(1 − M²), Γ mid-chord sweep
 *   M ≥ 1.2        C_Nα = 4/β                                           β = sqrt(M² − 1)
 *   between        the larger of the values at 0.8 and at 1.2
 *   times the upwash of the body  K = 1 + r/(r + s);    N = q A_f C_Nα K α
 *
 * Per radian on the fin's own area A_f. 4/β is two-dimensional: above the linear value of every rectangular fin
 * (1 − 1/(2 β AR) of it) and of every delta, by a third and more at low β AR; a swept fin with a supersonic leading edge can
 * come near it. The band from 0.8 to 1.2 is our own choice of an envelope: no linear method is right there.
 * Sources: Diederich, NACA TN 2335 (1951), as used by Barrowman, M.S. thesis, Catholic Univ. of America (1967), chapter 3;
 * K: Barrowman's K_T(B), after Pitts, Nielsen & Kaattari, NACA Rep. 1307 (1957); 4/β: Ackeret (1925) (all recalled).
 */
import type { FinForm } from './fin-form.ts'
import { machParameter, twoDimensionalSlope } from './supersonic-slope.ts'

export const subsonicEnd = 0.8
export const supersonicStart = 1.2

export interface FinNormalForce {
  /** Per radian, on the fin's own area, body upwash in. */
  readonly slope: number
  /** The same without the body. */
  readonly alone: number
  readonly upwash: number
  /** Spanwise centre of pressure from the body surface, for the uniform pressure this version uses. */
  readonly centreOfPressureSpan: number
  readonly method: 'Diederich subsonic' | 'transonic envelope' | 'two-dimensional supersonic bound'
}

type SlopeForm = Pick<FinForm, 'aspectRatio' | 'midChordSweep' | 'span' | 'bodyRadius' | 'centroidSpan'>

export function finNormalForce(form: SlopeForm, mach: number): FinNormalForce {
  const { alone, method } = slopeAlone(form, mach)
  const upwash = bodyUpwash(form)
  return { slope: alone * upwash, alone, upwash, centreOfPressureSpan: form.centroidSpan, method }
}

/** Diederich's slope of the fin and its mirror image, on their area; M < 1. */
export function subsonicSlope({ aspectRatio, midChordSweep }: SlopeForm, mach: number): number {
  const ratio = (machParameter(mach) * aspectRatio) / Math.cos(midChordSweep)
  return (2 * Math.PI * aspectRatio) / (2 + Math.sqrt(4 + ratio ** 2))
}

export function bodyUpwash({ bodyRadius: r, span: s }: Pick<FinForm, 'bodyRadius' | 'span'>): number {
  return 1 + r / (r + s)
}

function slopeAlone(form: SlopeForm, mach: number): Pick<FinNormalForce, 'alone' | 'method'> {
  if (mach <= subsonicEnd) return { alone: subsonicSlope(form, mach), method: 'Diederich subsonic' }
  if (mach >= supersonicStart) {
    return { alone: twoDimensionalSlope(mach), method: 'two-dimensional supersonic bound' }
  }
  const alone = Math.max(subsonicSlope(form, subsonicEnd), twoDimensionalSlope(supersonicStart))
  return { alone, method: 'transonic envelope' }
}
