/**
 * Screening number for fin flutter after NACA TN 4197: a correlation line through experience, not a stability analysis. It is
 * shown beside a boundary, never instead of one, and gives no verdict.
 *
 *   printed    (V/a)² = G_E / { [39.3 A³ / ((t/c)³ (A + 2))] · [(λ + 1)/2] · [p/p₀] }       G_E and 39.3 in psi
 *   here       (V/a)² = G_E / { [C A³ / ((t/c)³ (A + 2))] · [(λ + 1)/2] · [p/p₀] }           G_E = 3 GJ/(c t³)
 *              C = 12 ε γ p₀/π = 135.5 kPa (19.65 psi)
 *   which is   V² = π GJ (A + 2) / (4 ε ρ A L² c² (λ + 1)/2)                                  t drops out
 *
 * A = L/c aspect ratio of one panel (span squared over area), c mean chord, L span, λ taper, t/c thickness ratio of the mean
 * chord, ε = ¼ the distance of the centre of gravity behind the quarter chord, in chords, ρ the air's density; a the speed of
 * sound, p = ρ a²/γ the static pressure.
 *
 * The printed constant is 39.3 psi = 24 ε γ p₀/π, and contains J = c t³/6, a solid streamlined section. Here the torsional
 * stiffness GJ of the fin is computed, so J must not be assumed a second time: the speed follows from GJ itself. Written with
 * the effective shear modulus of a plate, G_E = 3 GJ/(c t³) (J = c t³/3), that is the printed formula with half its constant.
 * Reading the printed line with that G_E gives a speed lower by √2; it is reported beside ours as `printedLineSpeed`.
 *
 * Behind it: V = b ω_α sqrt((r²/κ) · ½/(½ + a + x)) for small ω_h/ω_α (Theodorsen & Garrick, NACA Rep. 685, 1940), uniform
 * torsion fixed-free ω_α² = (π/2L)² GJ/I_α, lift slope reduced by A/(A + 2). Assumes: centre of gravity at mid-chord, bending
 * much slower than torsion, subsonic lift slope, no body freedom, no damping.
 * Source: D. J. Martin, NACA TN 4197 (1958) (formula recalled, report not opened; constant derived again in
 * docs/methods/flutter.md).
 */
import { standard } from '../air/atmosphere.data.ts'
import type { AirPoint } from './air-points.ts'

export interface ScreeningFin {
  /** GJ of the uniform bar of the fin's span that twists as the fin does, N m². */
  readonly torsionalStiffness: number
  readonly area: number
  /** Exposed span of one fin. */
  readonly span: number
  /** Tip chord over root chord. */
  readonly taper: number
  /** Thickness at the mean chord; enters the effective shear modulus only. */
  readonly thickness: number
}

export interface Screening {
  readonly label: 'screening, not a verdict'
  /** Least over the points of flutter speed by this formula over flight speed. */
  readonly speedRatio: number
  readonly speed: number
  readonly at: AirPoint
  /** 3 GJ/(c t³), Pa. */
  readonly effectiveShearModulus: number
  readonly torsionalStiffness: number
  /** C of the formula with that modulus, Pa. */
  readonly constant: number
  /** With the printed constant and the same modulus, at the same point: lower by √2. */
  readonly printedLineSpeed: number
  readonly printedConstant: number
  readonly source: string
}

const centreOfGravity = 0.25
/** 24 ε γ p₀/π = 270.9 kPa = 39.3 psi: for J = c t³/6, as printed. */
export const printedConstant = (24 * centreOfGravity * standard.gamma * standard.p0) / Math.PI
/** For J = c t³/3, a plate of uniform thickness. */
export const plateConstant = printedConstant / 2

export const screeningSource =
  'NACA TN 4197 (Martin, 1958), screening correlation; constant 135.5 kPa (19.65 psi) for J = c t³/3 in place of the printed 39.3 psi, which contains J = c t³/6'

/** The point of the least ratio, which is the one of greatest dynamic pressure; null for no points. */
export function screenFin(fin: ScreeningFin, points: readonly AirPoint[]): Screening | null {
  if (points.length === 0) return null
  const pressure = ({ density, speed }: AirPoint): number => 0.5 * density * speed ** 2
  const at = points.reduce((most, point) => (pressure(point) > pressure(most) ? point : most))
  const speed = screeningSpeed(fin, at.density)
  const chord = fin.area / fin.span
  return {
    label: 'screening, not a verdict',
    speedRatio: speed / at.speed,
    speed,
    at,
    effectiveShearModulus: (3 * fin.torsionalStiffness) / (chord * fin.thickness ** 3),
    torsionalStiffness: fin.torsionalStiffness,
    constant: plateConstant,
    printedLineSpeed: speed / Math.sqrt(printedConstant / plateConstant),
    printedConstant,
    source: screeningSource,
  }
}

/** From GJ itself. */
export function screeningSpeed(
  { torsionalStiffness: GJ, area, span: L, taper }: ScreeningFin,
  density: number,
): number {
  const c = area / L
  const A = L / c
  const load = 4 * centreOfGravity * density * A * L ** 2 * c ** 2 * ((taper + 1) / 2)
  return Math.sqrt((Math.PI * GJ * (A + 2)) / load)
}

export interface ChartReading {
  /** Pa, like the constant. */
  readonly shearModulus: number
  readonly constant: number
  readonly thicknessRatio: number
  readonly aspectRatio: number
  readonly taper: number
  /** Static pressure over that at sea level. */
  readonly pressureRatio: number
}

/** V/a by the formula as printed, for a given constant. */
export function chartSpeedRatio(reading: ChartReading): number {
  const { shearModulus, constant, thicknessRatio, aspectRatio: A, taper, pressureRatio } = reading
  const X = (constant * A ** 3) / (thicknessRatio ** 3 * (A + 2))
  return Math.sqrt(shearModulus / (X * ((taper + 1) / 2) * pressureRatio))
}
