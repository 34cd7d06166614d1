/**
 * Elastic layers seen in the section across the root, in plane strain (nothing strains along the root).
 *
 * Axes of a layer: 1 along its line in the section (spanwise on the fin, round the fillet, round the tube), 2 along the
 * root, 3 through the thickness. With the compliance S of an orthotropic solid, S11 = 1/E1, S12 = −ν12/E1, S13 = −ν13/E1,
 * S23 = −ν23/E2, …, and ε2 = 0:
 *
 *   sij = Sij − Si2 S2j / S22      i, j ∈ {1, 3}      1/Pa
 *   C   = s⁻¹ over (11, 33), and G13                  Pa
 *
 * Source: Lekhnitskii, Theory of Elasticity of an Anisotropic Body (1963, English ed.), the reduced coefficients of
 * generalised plane strain (recalled).
 */

/** Pa; νij is the contraction along j under a stress along i. */
export interface LayerModuli {
  readonly E1: number
  readonly E2: number
  readonly E3: number
  readonly nu12: number
  readonly nu13: number
  readonly nu23: number
  readonly G13: number
}

/** Pa, over (11, 33, 13) with the engineering shear strain. */
export interface PlaneStrainStiffness {
  readonly C11: number
  readonly C13: number
  readonly C33: number
  readonly G13: number
}

/** An isotropic layer from its two moduli; ν = E / 2G − 1. */
export function isotropicLayer({ E, G }: { readonly E: number; readonly G: number }): LayerModuli {
  const nu = E / (2 * G) - 1
  return { E1: E, E2: E, E3: E, nu12: nu, nu13: nu, nu23: nu, G13: G }
}

/** In the layer's plane, as `Lamina` has it, with axis 1 in the section; G13 is the shear that the thickness sees in it. */
export interface SheetModuli {
  readonly E1: number
  readonly E2: number
  readonly nu12: number
  readonly G13: number
}

/**
 * A cloth layer or a sheet, of which only the moduli in its plane and one transverse shear modulus are known. Estimate, no
 * source: through the thickness it behaves like an isotropic solid of shear modulus G13 and Poisson ratio 0.35,
 *
 *   E3 = 2 G13 (1 + 0.35), at most the greater of E1 and E2      νi3 = 0.35 min(1, √(Ei / E3))
 *
 * docs/methods/bond-joint.md says how little it moves.
 */
export function layerFromSheet({ E1, E2, nu12, G13 }: SheetModuli): LayerModuli {
  const E3 = Math.min(2 * G13 * (1 + nuThrough), Math.max(E1, E2))
  const nu = (E: number): number => nuThrough * Math.min(1, Math.sqrt(E / E3))
  return { E1, E2, E3, nu12, nu13: nu(E1), nu23: nu(E2), G13 }
}

const nuThrough = 0.35

export function planeStrainStiffness({ E1, E2, E3, nu12, nu13, nu23, G13 }: LayerModuli): PlaneStrainStiffness {
  const s11 = (1 - (nu12 ** 2 * E2) / E1) / E1
  const s33 = (1 - (nu23 ** 2 * E3) / E2) / E3
  const s13 = -(nu13 + nu12 * nu23) / E1
  const det = s11 * s33 - s13 ** 2
  return { C11: s33 / det, C13: -s13 / det, C33: s11 / det, G13 }
}

/** Whether a solid of these moduli can exist: every modulus positive and the strain energy too. */
export function isStable(m: LayerModuli): boolean {
  const { E1, E2, E3, nu12, nu13, nu23, G13 } = m
  if (![E1, E2, E3, G13].every((value) => value > 0 && value < Number.POSITIVE_INFINITY)) return false
  const [a, b, c] = [nu12 ** 2 * (E2 / E1), nu23 ** 2 * (E3 / E2), nu13 ** 2 * (E3 / E1)]
  return a < 1 && b < 1 && c < 1 && 1 - a - b - c - 2 * nu12 * nu23 * nu13 * (E3 / E1) > 0
}
