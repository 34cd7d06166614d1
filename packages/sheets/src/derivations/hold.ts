/** Derivations of what decides whether it holds. */
import {
  frozenSubsonic,
  frozenSupersonic,
  subsonicFactor,
  supersonicFactor,
  transonicFactor,
} from '@finwright/core/flutter/envelope-factors.data.ts'
import { hertz, percent, plain, ratio } from '../layout/figures.ts'
import { computed, type Derive, sourcesOf } from './derivation.ts'

const scatter = 'A hand lay-up scatters: weigh it, tap it, and compare frequencies before trusting any ratio here.'
const oneFin = 'One fin on a plane: no neighbours, no body bending, no roll. It is no permission to fly.'
const skins = ['layup.resinPerCloth', 'layup.voids', 'fins.core.thickness', 'fins.core.material', 'plies']

export const holdDerivations: Readonly<Record<string, Derive>> = {
  'flutter.ratio': ({ assessment, field }) => {
    const { margin, drivers } = assessment.flutter
    const strongest = drivers[0]
    return {
      title: 'Flutter speed over flight speed, the least along the flight',
      value: margin.speedRatio === null ? 'not determined' : ratio(margin.speedRatio),
      formula: [
        'ratio(t) = V_envelope(M, ρ, stiffness at t) / V(t), the least over the flight',
        'V_envelope: the least of several linear readings of flutter and divergence, each times its factor. Each reading raises the speed until a root of  (s² + (1 + i g) Ω²) ξ = q Q(s, M) ξ  no longer decays (p-k).',
      ],
      inputs: [
        computed('Flight', '', 'flight.mach'),
        computed('Envelope and its factors', '', 'flutter.envelope'),
        computed('Modes on the can', hertz(assessment.structure.root?.modes_Hz[0]), 'structure.first'),
        computed('Stiffness the heat leaves', '', 'flight.softening'),
        field('loads.structuralDamping'),
        field('loads.speedRatio'),
        ...skins.map(field),
      ],
      sources: sourcesOf(assessment, [
        ['flutter', 'flutter speed'],
        ['flutter', 'conservative envelope'],
        ['flutter', 'air forces below Mach 1'],
        ['flutter', 'air forces above Mach 1'],
        ['flutter', 'stiffness at temperature'],
      ]),
      uncertainty: [
        ...(strongest === undefined
          ? []
          : [`What moves it most: ${strongest.input} ${strongest.change} makes it ${ratio(strongest.speedRatio)}.`]),
        scatter,
      ],
      limits: [
        `${ratio(margin.requiredRatio)} is asked for on top of the envelope’s own factors.`,
        oneFin,
        'Between Mach 0.95 and 1.2 no linear method is right; there the envelope is experience, not theory.',
      ],
      method: 'flutter-envelope',
    }
  },
  'flutter.envelope': ({ assessment }) => ({
    title: 'The conservative envelope',
    value: 'factors on linear speeds',
    formula: [
      `subsonic reading × ${plain(subsonicFactor, 2)};  around Mach 1 × ${plain(transonicFactor, 2)}, frozen from Mach ${plain(frozenSubsonic, 1)} and ${plain(frozenSupersonic, 1)};  supersonic × ${plain(supersonicFactor, 2)}; the least counts`,
    ],
    inputs: [],
    sources: sourcesOf(assessment, [['flutter', 'conservative envelope']]),
    uncertainty: [
      'Linear speeds read 3 to 8 % above the tunnel test of the AGARD 445.6 wing at Mach 0.5 and 12 to 17 % above it at Mach 0.95.',
      'The transonic factor covers the dip of that one wing; the dip of another section is not known.',
    ],
    limits: [
      'Chosen by us; no standard prescribes them.',
      'That they cover divergence through Mach 1 is our own assumption.',
    ],
    method: 'flutter-envelope',
  }),
  'flutter.screening': ({ assessment, figures, field }) => {
    const { screening } = assessment.flutter
    return {
      title: 'Screening number',
      value: ratio(screening?.speedRatio),
      formula: [
        'V² = π GJ (A + 2) / (4 ε ρ A L² c²) · 2/(λ + 1),  GJ of the fin as computed, ε = ¼',
        `Gives ${figures.speed(screening?.speed_m_s)}; the printed line ${figures.speed(screening?.printedLine.speed_m_s)}.`,
      ],
      inputs: [field('fins.outline'), field('fins.core.thickness')],
      sources: sourcesOf(assessment, [['flutter', 'screening number']]),
      uncertainty: ['A correlation line through experience.'],
      limits: ['Subsonic lift slope, centre of gravity at mid-chord, no damping, no body motion. It gives no verdict.'],
      method: 'flutter',
    }
  },
  'structure.first': ({ assessment, field }) => {
    const { modes, root, mesh } = assessment.structure
    const error = mesh?.frequencyError?.[0]
    return {
      title: 'Frequency of the first mode',
      value: hertz(root?.modes_Hz[0] ?? modes[0]?.frequency_Hz),
      formula: [
        'K φ = ω² M φ,  f = ω / 2π',
        'Shear-deformable plate elements, every place with its own laminate; on its can: fillets in, the root on the springs of joint and tube.',
      ],
      inputs: [
        computed('Thickness', '', 'fin.thickness'),
        computed('Mass', '', 'fin.mass'),
        ...['fins.outline', ...skins, 'tube.wall', 'fins.fillet.radius'].map(field),
      ],
      sources: sourcesOf(assessment, [
        ['structure', 'modes and static'],
        ['structure', 'how joint and tube'],
        ['fin', 'laminate stiffness'],
      ]),
      uncertainty: [
        ...(error === undefined ? [] : [`Error of the mesh, estimated by refining it: ${percent(error, 1)}.`]),
        'The stiffness of hand-laid cloth is known far less well than that. Tap each finished fin: a tenth or more off says that it is not the fin computed.',
      ],
      limits: ['How much the root gives is the least certain number.', 'No air, cold.'],
      method: 'plate',
    }
  },
  'structure.tip': ({ assessment, figures, field }) => ({
    title: 'Deflection under the tip load',
    value: figures.length(assessment.structure.tipLoad?.deflection_m),
    formula: [
      'K u = F, the force at the middle of the tip, the root clamped along the body’s surface, without fillets, cold',
    ],
    inputs: [field('loads.tipLoad'), ...skins.map(field)],
    sources: sourcesOf(assessment, [['structure', 'modes and static']]),
    uncertainty: ['On its can the fin moves more, because the root gives.'],
    limits: ['Small deflections.'],
    method: 'plate',
  }),
  'strength.index': ({ assessment, figures, field }) => {
    const { failureIndex, criterion, ply, load } = assessment.strength
    return {
      title: 'Strength: how often the worst air load could be borne before the first ply fails',
      value:
        failureIndex === null
          ? 'not determined'
          : `${plain(1 / failureIndex, 1)} times; failure index ${ratio(failureIndex, failureIndex < 0.1 ? 3 : 2)}`,
      formula: [
        'index = stress over strength in the ply’s own axes, the greatest of all plies, faces and places; load factor = 1 / index',
        `${ply ?? 'A ply'} by ${criterion ?? 'the first criterion to reach it'}.`,
      ],
      inputs: [
        computed('Worst air load', figures.force(load?.force_N), 'strength.load'),
        ...skins.map(field),
        field('materials'),
      ],
      sources: sourcesOf(assessment, [
        ['strength', 'first-ply failure'],
        ['fin', 'ply stiffness'],
      ]),
      uncertainty: ['Strengths are typical values for generic cloth, no allowables.', scatter],
      limits: [
        'Where an edge meets the root the stress of a thin plate has no limit as the mesh is refined: read the map, not the last digit.',
        'Impact, fatigue, voids and wet or hot resin are left out.',
      ],
      method: 'strength',
    }
  },
  'strength.load': ({ assessment, figures, field }) => ({
    title: 'Worst air load of one fin',
    value: figures.force(assessment.strength.load?.force_N),
    formula: [
      'K u = q Sᵀ (α f₀ + P R u): the pressure of the lifting surface at the angle of attack, with the body’s upwash, on the fin as it bends',
      'α = atan(gust / V), at the rail’s end with the steady wind too; the plan’s own angle where that is greater. The worst instant of the whole flight.',
    ],
    inputs: [
      ...['loads.angleOfAttack', 'loads.wind.steady', 'loads.wind.gust', 'loads.wind.railLength'].map(field),
      computed(
        'Greatest dynamic pressure',
        figures.pressure(assessment.flight.maximumDynamicPressure_Pa),
        'flight.pressure',
      ),
    ],
    sources: sourcesOf(assessment, [
      ['strength', 'air load of a fin'],
      ['strength', 'gust and wind'],
    ]),
    uncertainty: ['The angle of attack is stated or follows from the stated wind; a tumble or a landing can be worse.'],
    limits: [
      'No ringing: a gust that rises in less than a period of the fin overshoots.',
      'Beyond 10° lift is no longer proportional.',
    ],
    method: 'strength',
  }),
  'bond.margin': ({ assessment, figures, field }) => {
    const { margin, joint } = assessment.bond
    return {
      title: 'Root joint: how often the worst air load could be borne',
      value:
        margin === null
          ? 'not determined'
          : `${plain(margin + 1, 2)} times; margin ${margin >= 0 ? '+' : ''}${plain(margin, 2)}`,
      formula: [
        'margin = what may be used / stress − 1, the least of four ways to go at every place along the root',
        `Weakest: ${joint?.worst.mode ?? '–'}, ${figures.stress(joint?.worst.stress_Pa)} where ${figures.stress(joint?.worst.allowable_Pa)} may be used. Stresses of the section in plane strain, means over a millimetre.`,
      ],
      inputs: [
        computed('Worst air load', figures.force(assessment.strength.load?.force_N), 'strength.load'),
        computed('What may be used of the adhesive', '', 'bond.allowable'),
        ...['fins.fillet.radius', 'fins.fillet.adhesive', 'fins.joint.bondLine', 'fins.joint.opening', 'tube.wall'].map(
          field,
        ),
      ],
      sources: sourcesOf(assessment, [['bond', 'root joint']]),
      uncertainty: [
        'Agrees with an independent plane model of three radii within 4 %; the knock-down and the thickness of the bond line are far less certain.',
      ],
      limits: [
        'The ends of the root and peeling by impact are not in the model.',
        'A proof load of every fin, both ways, stands above any margin here.',
      ],
      method: 'bond-joint',
    }
  },
  'bond.allowable': ({ assessment, figures, field }) => ({
    title: 'What may be used of the adhesive’s lap shear',
    value: figures.stress(
      assessment.bond.joint === null ? null : assessment.bond.joint.lapShear_Pa / assessment.bond.joint.knockDown,
    ),
    formula: ['lap shear of the data sheet / knock-down'],
    inputs: [
      computed('Lap shear of the data sheet', figures.stress(assessment.bond.joint?.lapShear_Pa)),
      field('fins.joint.knockDown'),
      field('fins.fillet.adhesive'),
    ],
    sources: sourcesOf(assessment, [['bond', 'root joint']]),
    uncertainty: ['A coupon’s mean at failure is no design stress (ASTM D4896).'],
    limits: ['Adhesive softens with heat: compare its glass transition with the fillet’s temperature.'],
    method: 'bond-joint',
  }),
  'bond.fillet': ({ assessment, figures, field }) => ({
    title: 'Adhesive for the fillets of one can',
    value: figures.grams(assessment.bond.fillet?.mixMass_kg),
    formula: [
      'area between fin face, tube and a circle that touches both × length of the root × fillets × density × (1 + waste)',
    ],
    inputs: [
      'fins.fillet.radius',
      'fins.fillet.waste',
      'fins.outline.root',
      'tube.outerDiameter',
      'fins.count',
      'fins.fillet.adhesive',
    ].map(field),
    sources: sourcesOf(assessment, [['bond', 'fillet section']]),
    uncertainty: ['Exact for the section drawn; a hand leaves more.'],
    limits: ['Run-outs past the ends of the root come on top.'],
    method: 'bond',
  }),
  'fin.mass': ({ assessment, figures, field }) => ({
    title: 'Mass of one finished fin',
    value: figures.grams(assessment.fin.mass_kg),
    formula: [
      'core by its thickness × density + Σ over both skins of each ply’s exact area × its cured areal mass',
      'cured areal mass = areal mass of the dry cloth × (1 + resin to cloth)',
    ],
    inputs: ['fins.core.thickness', 'fins.core.material', 'layup.resinPerCloth', 'plies', 'fins.outline'].map(field),
    sources: sourcesOf(assessment, [['fin', 'cured ply thickness']]),
    uncertainty: [
      'Cloth is allowed ± 10 % of its nominal mass (ASTM D4389); the resin that a hand leaves scatters more. Weigh the fin.',
    ],
    limits: ['Both skins, fillets apart.'],
    method: 'assess',
  }),
  'fin.thickness': ({ assessment, figures, field }) => ({
    title: 'Thickness at the root',
    value: figures.length(assessment.fin.thickness_m.root, 1e-5),
    formula: [
      'core + Σ over both skins of t;  t = m_A / (ρ_f V_f),  V_f = (1 − V_v) / (1 + (ρ_f/ρ_m)(1/W_f − 1))',
      `Cured plies: ${assessment.fin.plies.map(({ id, thickness_m }) => `${id} ${figures.length(thickness_m, 1e-5)}`).join(', ')}.`,
    ],
    inputs: ['fins.core.thickness', 'layup.resinPerCloth', 'layup.voids', 'plies'].map(field),
    sources: sourcesOf(assessment, [['fin', 'cured ply thickness']]),
    uncertainty: ['As uncertain as the resin that is left in the cloth; measure a cured panel.'],
    limits: ['Where all plies lie; steps are thinner.'],
    method: 'laminate',
  }),
}
