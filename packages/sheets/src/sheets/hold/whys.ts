/**
 * How each page's numbers were made and how far they carry, in plain words. Figures in the words are the assessment's own,
 * or those of the checks that every test run redoes (docs/checks.md), or the named constants of the envelope.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import {
  frozenSubsonic,
  frozenSupersonic,
  subsonicFactor,
  supersonicFactor,
  transonicFactor,
  transonicStart,
} from '@finwright/core/flutter/envelope-factors.data.ts'
import { type Figures, percent, plain, ratio } from '../../layout/figures.ts'
import type { Why } from './why.ts'

/** One decimal at most. */
const short = (value: number | undefined): string => String(Math.round((value ?? 0) * 10) / 10)

const some = (condition: boolean, ...words: string[]): string[] => (condition ? words : [])

export function flightWhy({ flight }: Assessment): Why {
  return {
    how: [
      ...some(
        flight.history !== null,
        'A point mass straight up through the standard atmosphere, with the plan’s thrust, mass and drag; or the history that the plan names.',
      ),
      'Dynamic pressure is half the air’s density times speed squared: what loads and flutters a fin.',
      ...some(
        flight.heat !== null,
        'Heat runs through skin and core, one-dimensional, from the shop’s temperature; turbulent flow unless a row says otherwise.',
      ),
    ],
    trust: [
      ...some(
        flight.history !== null,
        'A flight that leans stays lower and faster in thicker air: then its dynamic pressure is the higher one. Where that matters, fly it elsewhere and import the history.',
        'It is as good as the drag table and the motor’s curve in the plan.',
      ),
      ...some(
        flight.heat !== null,
        'How fast a resin loses stiffness near its glass transition is a stated guess until a witness coupon is tested. No radiation, no exhaust, no shock on the fin.',
      ),
    ],
    sections: ['flight'],
  }
}

/**
 * Errors of the linear speeds: AGARD wing 445.6 (Yates, AGARD R-765, 1985), imposed frequencies to material data: 3.0 to 7.7 %
 * high at Mach 0.499, 11.7 to 16.8 % at 0.954, as checked in core/checks/agard-445-6.
 */
const linearError =
  'Raw linear speeds read 3 to 8 % above the tunnel test of the AGARD 445.6 wing at Mach 0.5 and 12 to 17 % above it at Mach 0.95: on the unsafe side.'

export function boundaryWhy({ flutter, structure }: Assessment): Why {
  const { covers, margin, boundary } = flutter
  const { root } = structure
  const enveloped = boundary.some(({ envelope }) => envelope !== null)
  return {
    how: [
      'At each Mach number, in the air the flight has there, the speed is raised until a mode no longer dies away (p-k solution) or the fin turns over (divergence). Thin lines: straight from the linear methods.',
      ...some(
        root !== null,
        'The fin is held as its can holds it, and as stiff as its skins are at that instant of the flight.',
      ),
      ...some(
        enveloped,
        `The envelope is the least of those speeds times a factor: ${plain(subsonicFactor, 2)} subsonic, ${plain(transonicFactor, 2)} around Mach 1, ${plain(supersonicFactor, 2)} supersonic. From Mach ${plain(transonicStart, 2)} to ${plain(frozenSupersonic, 1)} it is frozen from Mach ${plain(frozenSubsonic, 1)} and ${plain(frozenSupersonic, 1)}.`,
      ),
      `The plan asks for ${ratio(margin.requiredRatio)} times the flight’s speed${enveloped ? ', on top of that' : ''}.`,
    ],
    trust: [
      linearError,
      ...some(
        enveloped,
        `From Mach ${plain(transonicStart, 2)} to ${plain(frozenSupersonic, 1)} the factor covers the dip of that one wing: experience, not theory. The dip of another section is not known, nor how divergence fares there.`,
      ),
      ...some(
        covers !== null,
        `The envelope answers from Mach ${short(covers?.from)} to ${short(covers?.to)}; outside there is no verdict.`,
      ),
      'One fin on a plane: no neighbours, no body bending, no roll. It is no permission to fly.',
    ],
    sections: [],
  }
}

export function curvesWhy({ flutter, flight }: Assessment): Why {
  const heat = flight.heat?.resinStiffness[0]
  return {
    how: [
      ...some(
        flutter.curves !== null,
        'Roots of the fin’s modes in air of one density, its forces those of one Mach number, speed alone rising. Above zero a root grows: that is flutter. No factor is in these curves.',
      ),
      ...some(
        flutter.drivers.length > 0,
        'For what moves it, one input at a time is changed and the whole margin is solved again.',
      ),
    ],
    trust: [
      'Damping of the structure is an input and no fin’s is known before a tap test; leave it at zero unless measured.',
      ...some(
        heat !== undefined,
        `Skins, ${heat?.state}, keep ${percent(heat?.factor)} of the resin’s cold stiffness at the greatest dynamic pressure. How a resin softens is a guess, stated under Sources; the rows above show what it moves.`,
      ),
      'A hand lay-up scatters: weigh it, tap it, and compare frequencies before trusting any ratio here.',
    ],
    // named on the sheet with the boundary in figures
    sections: [],
  }
}

export function modesWhy({ structure, kind }: Assessment): Why {
  const { root, mesh } = structure
  return {
    how: [
      `Shear-deformable plate elements${mesh === null ? '' : `, ${mesh.triangles} triangles`}; every place has its own laminate. No air.`,
      ...some(
        kind === 'can',
        'Drawn and in large figures: the root clamped along the body’s surface, without fillets, cold.',
      ),
      ...some(root !== null, 'On its can: fillets in, the root giving as joint and tube let it.'),
      ...some(
        mesh !== null && mesh.frequencyError !== null,
        'The error of the mesh is estimated by refining it; it says nothing about the materials.',
      ),
    ],
    trust: [
      'The same plate theory meets an independent solid model of a clamped fin of this kind within 1 % in its first four modes. The stiffness of hand-laid cloth is known far less well.',
      ...some(
        kind === 'can',
        'Tap each finished fin: a first frequency a tenth or more off the one on its can says that the fin is not the one computed.',
      ),
      ...some(root !== null, 'How much the root gives is the least certain number here; compare the two frequencies.'),
    ],
    sections: ['structure'],
  }
}

export function strengthWhy({ strength }: Assessment): Why {
  const { load } = strength
  return {
    how: [
      ...some(load !== null, `Load: ${load?.basis}.`),
      'Stresses in every ply, on both faces of it, under that load either way. The index is stress over strength by the first criterion to reach it; 1 is failure.',
    ],
    trust: [
      'The angle of attack is the plan’s, or follows from the wind it states; a gust, a tumble or a landing can be worse.',
      'Strengths are typical values for generic cloth, no allowables. Where an edge meets the root the stress of a thin plate has no limit as the mesh is refined: read the map, not the last digit.',
      'Impact, fatigue, voids and wet or hot resin are left out.',
    ],
    sections: ['strength'],
  }
}

export function jointWhy(figures: Figures, { bond }: Assessment): Why {
  const { joint } = bond
  return {
    how: [
      'The root in section: core, skins, base bond, two fillets and the tube, in plane strain, under the force and moment that the plate hands over at each place along the root.',
      ...some(
        joint !== null,
        `The data sheet’s lap shear, ${figures.stress(joint?.lapShear_Pa)}, is divided by ${plain(joint?.knockDown ?? 1, 1)}: a coupon’s mean at failure is no design stress (ASTM D4896).`,
      ),
      'Stresses are means over a millimetre, because a corner’s own peak depends on the mesh.',
    ],
    trust: [
      'Agrees with an independent plane model of three radii within 4 %. The knock-down and the thickness of the bond line are far less certain.',
      'The ends of the root, where fillet and skins run out, are not in the model, nor is peeling by impact.',
      'Adhesive softens too: compare its glass transition with the fillet’s temperature. A proof load of every fin, both ways, stands above any margin printed here.',
    ],
    sections: ['bond'],
  }
}
