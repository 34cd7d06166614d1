/**
 * What is left of a resin's modulus, and of all that lives by it (G12, G13, G23, E2 of a ply, an adhesive), at a
 * temperature.
 *
 *   P(T) = (1 − s (T − T0)) · ½ ((1 + r) − (1 − r) tanh(k (T − Tg)))        factor = min(1, P(T) / P(T0))
 *
 * T0 = 293.15 K is where the modulus of the catalogue holds; the factor is 1 there and below. The form with tanh is
 * that of A. G. Gibson et al., J. Compos. Mater. 40 (2006) 639, for laminates in fire (recalled; their factor for
 * decomposed resin left out); the slope s of the glass is added here. The parameters have no source:
 *   k = 0.08 1/K     95 % of the fall within ± 23 K of Tg; room-cured epoxies fall over some 40 to 60 K: common practice
 *   r = 0.02         rubber over glass of a cross-linked epoxy, 0.01 to 0.03: common practice
 *   s = 0.003 1/K    glassy epoxy loses 0.2 to 0.4 % a kelvin: common practice
 * At Tg itself about half the modulus is gone. Tg is the middle of the fall: a value read at the peak of tan δ lies 10
 * to 20 K above it, one by calorimetry near it. Vibration of some 100 Hz and seconds of heat act stiffer than a slow
 * test, by some 5 to 10 K: that is left out, on the safe side.
 */
export interface ResinSoftening {
  /** 1/K, default 0.08. */
  readonly steepness?: number
  /** Rubbery over glassy modulus, default 0.02. */
  readonly rubber?: number
  /** Loss of the glassy modulus a kelvin, 1/K, default 0.003. */
  readonly glassSlope?: number
}

export const referenceTemperature = 293.15

/** 0–1, of the modulus at 293.15 K. */
export const resinModulusFactor = (T: number, Tg: number, softening: ResinSoftening = {}): number =>
  resinModulusCurve(Tg, softening)(T)

/** The same for many temperatures of one resin. */
export function resinModulusCurve(Tg: number, softening: ResinSoftening = {}): (T: number) => number {
  const { steepness: k = 0.08, rubber: r = 0.02, glassSlope: s = 0.003 } = softening
  const P = (T: number): number => {
    const glass = Math.max(r, 1 - s * (T - referenceTemperature))
    return (glass * (1 + r - (1 - r) * Math.tanh(k * (T - Tg)))) / 2
  }
  const P0 = P(referenceTemperature)
  return (T) => Math.min(1, P(T) / P0)
}
