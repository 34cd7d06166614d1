/** Derivations of what is mixed, and when. */
import { plain } from '../layout/figures.ts'
import { computed, type Derive, sourcesOf } from './derivation.ts'

export const mixDerivations: Readonly<Record<string, Derive>> = {
  'resin.mix': ({ assessment, figures, field }) => {
    const { resin_kg, hardener_kg } = assessment.resin
    return {
      title: 'Mixed resin for one bay',
      value: figures.grams(resin_kg === null || hardener_kg === null ? null : resin_kg + hardener_kg),
      formula: [
        'Σ over the plies that stay of areal mass × cut area × resin per cloth',
        '+ peel ply’s uptake × its cut area + primer × net area of the largest ply + cup loss × batches',
      ],
      inputs: ['layup.resinPerCloth', 'layup.losses.peelPly', 'layup.losses.primer', 'layup.losses.cup', 'plies'].map(
        field,
      ),
      sources: [],
      uncertainty: [
        'Equal masses of resin and cloth: FAA AC 43.13-1B, chapter 3, section 1. The losses are common practice, no source; a practice panel measures your own.',
      ],
      limits: ['By mass; never by volume.'],
      method: 'resin',
    }
  },
  'resin.spare': ({ assessment, figures, field }) => ({
    title: 'Working time to spare, tightest batch',
    value: `${plain(Math.min(...assessment.resin.batches.map(({ spare_min }) => spare_min)), 0)} min`,
    formula: [
      'end of the batch’s working time − the minute at which its last ply is down',
      'Ply i goes down from set-up + i τ to set-up + (i + 1) τ; the first batch is mixed at zero, later ones three minutes before their first ply.',
    ],
    inputs: [
      computed('Working time', '', 'resin.workingTime'),
      ...['shop.setUp', 'shop.perPly', 'shop.workingShare'].map(field),
      computed(
        'Mix for one bay',
        figures.grams((assessment.resin.resin_kg ?? 0) + (assessment.resin.hardener_kg ?? 0)),
        'resin.mix',
      ),
    ],
    sources: sourcesOf(assessment, [['resin', 'working time']]),
    uncertainty: ['As uncertain as the time that a ply takes you; time one on a practice panel.'],
    limits: [
      'Two pairs of hands from the second batch on; alone, count three minutes more a batch.',
      'A cup that runs warm early is at its end, whatever stands here.',
    ],
    method: 'resin',
  }),
  'resin.workingTime': ({ assessment, field }) => ({
    title: 'Working time at the shop’s temperature',
    value: assessment.resin.workingTime_min === null ? '–' : `${plain(assessment.resin.workingTime_min, 0)} min`,
    formula: [
      't = t₀ · exp[ (E/R)(1/T − 1/T₀) ] · min(1, m₀/m)',
      't₀ the data sheet’s time for the mass m₀ at T₀, E the activation energy of the cure.',
    ],
    inputs: [
      'resin.workingTime',
      'resin.workingTemperature',
      'resin.workingMass',
      'shop.temperature',
      'resin.system',
    ].map(field),
    sources: sourcesOf(assessment, [['resin', 'working time']]),
    uncertainty: [
      assessment.resin.workingTimeBand_min === null
        ? ''
        : `${plain(assessment.resin.workingTimeBand_min[0], 0)} to ${plain(assessment.resin.workingTimeBand_min[1], 0)} min over published activation energies of 44 to 65 kJ/mol.`,
    ].filter((words) => words !== ''),
    limits: [
      'More than 10 K from the data sheet’s temperature it is extrapolated.',
      'Above the data sheet’s mass the time is shortened in proportion: our own assumption.',
    ],
    method: 'resin',
  }),
  'resin.ratio': ({ assessment, field }) => ({
    title: 'Hardener to resin, by mass',
    value: assessment.resin.ratio === null ? '–' : `100 : ${plain(100 * assessment.resin.ratio.hardenerPerResin, 1)}`,
    formula: ['as stated; a ratio v by volume is h = v · ρ_hardener / ρ_resin by mass'],
    inputs: ['resin.ratio.value', 'resin.ratio.by', 'resin.resinDensity', 'resin.hardenerDensity'].map(field),
    sources: [],
    uncertainty: ['Weighed, it is as good as the scale.'],
    limits: ['Never change it to change the speed.'],
    method: 'resin',
  }),
  'resin.smallest': ({ assessment, figures, field }) => ({
    title: 'Smallest batch that this scale can mix',
    value: figures.grams(assessment.resin.smallestBatch_kg),
    formula: [
      'B_min = δ (1 + h)² / (h ε)',
      'δ one display count of the scale, h hardener over resin, ε the allowed error of the ratio.',
    ],
    inputs: [...['shop.scaleResolution', 'resin.tolerance'].map(field), computed('Ratio', '', 'resin.ratio')],
    sources: sourcesOf(assessment, [['resin', 'smallest batch']]),
    uncertainty: ['± 3 % of the ratio is common practice; no primary study of strength against ratio error was found.'],
    limits: ['The scale itself must be right: check it with a known mass.'],
    method: 'resin',
  }),
  'resin.kit': ({ assessment, figures, field }) => ({
    title: 'Resin for every session, and what the stock gives',
    value: `${figures.grams(assessment.resin.kit?.needed_kg, 0)} of ${figures.grams(assessment.resin.kit?.usable_kg, 0)}`,
    formula: ['needed = mix of one bay × bays × cans + reserve', 'stock gives u · min(R (1 + h), K (1 + h)/h)'],
    inputs: [
      ...['stock.resin', 'stock.hardener', 'stock.usable', 'stock.reserve', 'fins.count', 'cans'].map(field),
      computed('Mix of one bay', '', 'resin.mix'),
    ],
    sources: [],
    uncertainty: ['What can be got out of a bottle is common practice, no source.'],
    limits: ['The ratio is never stretched to make a stock last.'],
    method: 'resin',
  }),
}
