/** Derivations of what the flight brings. */
import { plain, ratio } from '../layout/figures.ts'
import { computed, type Derive, sourcesOf } from './derivation.ts'

const flown = [
  'flight.liftOffMass',
  'flight.propellantMass',
  'flight.diameter',
  'flight.siteAltitude',
  'flight.temperatureOffset',
]

const leaning =
  'A flight that leans stays lower and faster in thicker air: then the dynamic pressure is higher than here. Where that matters, fly it elsewhere and name the history in the plan.'

export const flightDerivations: Readonly<Record<string, Derive>> = {
  'flight.mach': ({ assessment, field }) => ({
    title: 'Greatest Mach number',
    value: ratio(assessment.flight.maximumMach),
    formula: [
      'h′ = v;  v′ = (F(t) − C_d(v/a) ½ ρ v² A) / m(t) − g(h);  M = v / a(h)',
      'Point mass straight up; F thrust, C_d drag against Mach number, ρ and a of the standard atmosphere; m falls as the impulse is spent.',
    ],
    inputs: flown.map(field),
    sources: sourcesOf(assessment, [['flight', 'air against altitude']]),
    uncertainty: ['It is as good as the drag table and the thrust curve of the plan; neither carries a scatter here.'],
    limits: [leaning, 'No wind, no rotation, no thrust misalignment.'],
    method: 'flight',
  }),
  'flight.pressure': ({ assessment, figures, field }) => ({
    title: 'Greatest dynamic pressure',
    value: figures.pressure(assessment.flight.maximumDynamicPressure_Pa),
    formula: ['q = ½ ρ v², the greatest along the flight; it is what loads and flutters a fin.'],
    inputs: [
      computed('Greatest Mach number', ratio(assessment.flight.maximumMach), 'flight.mach'),
      ...flown.map(field),
    ],
    sources: sourcesOf(assessment, [['flight', 'air against altitude']]),
    uncertainty: ['Twice the relative error of the speed, plus that of the air’s density on the day.'],
    limits: [leaning],
    method: 'flight',
  }),
  'flight.recovery': ({ assessment, figures }) => ({
    title: 'Temperature to which the air at the skin recovers',
    value: figures.temperature(assessment.flight.recovery?.temperature_K),
    formula: [
      'T_r = T (1 + r (γ − 1)/2 · M²) = T (1 + 0.178 M²),  r = Pr^(1/3): turbulent',
      'T and M at the instant that makes it greatest.',
    ],
    inputs: [computed('Greatest Mach number', ratio(assessment.flight.maximumMach), 'flight.mach')],
    sources: sourcesOf(assessment, [['flight', 'recovery temperature']]),
    uncertainty: ['The recovery factor is known to a per cent or two; the flight’s speed matters more.'],
    limits: [
      'Of the air, not of the skin: how warm the skin gets takes time and stands in the table of heat. No shock on the fin, no exhaust.',
    ],
    method: 'heat',
  }),
  'flight.softening': ({ assessment, field }) => ({
    title: 'Stiffness that the heat leaves the resin',
    value: (assessment.flight.heat?.resinStiffness ?? [])
      .map(({ state, factor }) => `${plain(100 * factor, 0)} % ${state}`)
      .join(', '),
    formula: [
      'P(T) = (1 − s (T − T₀)) · ½ ((1 + r) − (1 − r) tanh k (T − T_g));  factor = min(1, P(T)/P(T₀)),  T₀ = 20 °C',
      'Mean over the skins’ turbulent strips at the greatest dynamic pressure; T from conduction through skin and core.',
    ],
    inputs: [
      field('resin.glassTransition'),
      field('resin.glassTransitionPostCured'),
      field('resin.postCure'),
      field('shop.temperature'),
      computed('Recovery temperature', '', 'flight.recovery'),
    ],
    sources: sourcesOf(assessment, [
      ['flight', 'heat of the skins'],
      ['flutter', 'stiffness at temperature'],
    ]),
    uncertainty: [
      'The parameters of the curve have no source: this is a stated guess until a witness coupon is tested.',
    ],
    limits: ['Core, adhesive and tube stay cold in the seconds of a flight. No radiation, no exhaust.'],
    method: 'heat',
  }),
}
