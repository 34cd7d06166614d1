/**
 * What the adhesive and the skin may be asked to carry: stresses to compare with the measures of root-joint.ts.
 *
 * A data sheet's lap shear is no allowable: ASTM D4896 says of results of single-lap tests that they must not be used as
 * design stresses. It is a mean at failure on metal that was prepared as a laboratory does, of one thin bond line, made by the
 * maker. Here it is divided by three factors. They are **our own proposal**, in the manner of the partial factors for adhesives
 * of the EUROCOMP Design Code (Clarke, ed., 1996, section 5.1, recalled: 1.5 for typical or text-book properties, 1.5 for
 * manual application without control of thickness, 2.0 for service other than the test's), and a plan may state its own:
 *
 *   allowable = lap shear / (properties · application · service)
 *
 * Temperature stands aside: near its glass transition no factor saves an adhesive. Five lap coupons of the builder's own, cut
 * from his core sheet and bonded with the real mix, deserve `properties` 1.25 in place of 1.5 (same source, recalled).
 *
 * The allowable is one number, for the largest principal stress: a brittle, filled adhesive breaks across its greatest tension,
 * and in pure shear that equals the shear stress (maximum-principal-stress criterion).
 */
export interface KnockDown {
  /** The printed value is typical, of another bond than this one. */
  readonly properties: number
  /** Mixed and spread by hand, thickness as it falls. */
  readonly application: number
  /** Damp, age and repeated load, which the test did not see. */
  readonly service: number
}

export const proposedKnockDown: KnockDown = { properties: 1.5, application: 1.5, service: 2 }

/** Pa. For the largest principal stress in the adhesive, averaged over `averagingLength`. */
export function adhesiveAllowable(lapShear: number, knockDown: KnockDown = proposedKnockDown): number {
  const { properties, application, service } = knockDown
  return lapShear / (properties * application * service)
}

/**
 * m. Stresses in the adhesive are averaged over this length. Own proposal: a fillet passes inspection with voids up to 1 mm
 * (common practice, no source), so nothing finer than that is known of it. For epoxies the line method would average over
 * 2 L = (2/π) (Kc / σ0)², 0.3 mm for Kc = 1 MPa√m and σ0 = 45 MPa and 3 mm for a toughened 3 MPa√m (both from memory).
 */
export const averagingLength = 1e-3

/**
 * Pa. Through-thickness tension of a hand-laid glass laminate: 10 to 25 MPa from memory, no source; the lower end, halved for
 * voids in the hollow of the fillet (own proposal).
 */
export const proposedOpening = 5e6
