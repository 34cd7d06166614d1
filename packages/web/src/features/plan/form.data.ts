/**
 * The plan's fields in the order in which a builder thinks of them. Names, units and limits of a quantity come from the plan package's
 * own table; here stands only where it is shown, and words for what is chosen rather than measured.
 */
import type { Json } from '@finwright/plan/protocol/record.ts'
import { type Path, valueAt } from '@finwright/plan/schema/locate.ts'

export type Row =
  | { readonly kind: 'quantity'; readonly path: Path; readonly label?: string }
  | { readonly kind: 'switch'; readonly path: Path; readonly label: string }
  | { readonly kind: 'text'; readonly path: Path; readonly label: string; readonly hint?: string }
  | { readonly kind: 'material'; readonly path: Path; readonly label: string; readonly of: MaterialKind }
  | { readonly kind: 'choice'; readonly path: Path; readonly label: string; readonly options: readonly Choice[] }

export type MaterialKind = 'cloth' | 'resin' | 'adhesive' | 'sheet'

/** A choice that brings fields of its own is written as the whole object. */
export interface Choice {
  readonly value: string
  readonly label: string
  readonly write?: { readonly path: Path; readonly value: Json }
}

export interface Group {
  readonly title?: string
  /** Left out where it does not apply to this plan. */
  readonly when?: (plan: unknown) => boolean
  readonly rows: readonly Row[]
}

export interface FormSection {
  readonly id: string
  readonly title: string
  readonly lead?: string
  readonly groups: readonly Group[]
}

const q = (text: string, label?: string): Row => ({
  kind: 'quantity',
  path: text.split('.'),
  ...(label === undefined ? {} : { label }),
})

const is =
  (text: string, value: string) =>
  (plan: unknown): boolean =>
    valueAt(plan, text.split('.')) === value

const edge = (name: 'leading' | 'tip' | 'trailing', words: string): readonly Group[] => {
  const path = ['fins', 'edges', name]
  const cut = { width: '12 mm', land: '0.8 mm' }
  return [
    {
      rows: [
        {
          kind: 'choice',
          path: [...path, 'shape'],
          label: words,
          options: [
            { value: 'square', label: 'square', write: { path, value: { shape: 'square' } } },
            { value: 'bevel', label: 'bevelled', write: { path, value: { shape: 'bevel', ...cut } } },
            { value: 'round', label: 'rounded', write: { path, value: { shape: 'round' } } },
          ],
        },
      ],
    },
    {
      when: (plan) => ['bevel', 'round'].includes(String(valueAt(plan, [...path, 'shape']))),
      rows: [q(`fins.edges.${name}.width`), q(`fins.edges.${name}.land`)],
    },
  ]
}

export const form: readonly FormSection[] = [
  {
    id: 'fins',
    title: 'Fins and tube',
    groups: [
      {
        title: 'Tube',
        rows: [
          q('tube.outerDiameter'),
          q('tube.aftDiameter'),
          q('tube.ahead'),
          q('tube.behind'),
          q('tube.wall'),
          { kind: 'material', path: ['tube', 'material'], label: 'Tube material', of: 'sheet' },
          {
            kind: 'choice',
            path: ['tube', 'backing'],
            label: 'Behind the wall at the fins',
            options: [
              { value: 'none', label: 'nothing' },
              { value: 'coupler', label: 'a coupler' },
              { value: 'motor case', label: 'the motor case' },
              { value: 'rings', label: 'rings' },
            ],
          },
        ],
      },
      { title: 'Outline', rows: [q('fins.count'), q('fins.cant')] },
      {
        when: is('fins.outline.kind', 'trapezoid'),
        rows: [q('fins.outline.root'), q('fins.outline.tip'), q('fins.outline.span'), q('fins.outline.tipOffset')],
      },
      {
        title: 'Core',
        rows: [
          { kind: 'material', path: ['fins', 'core', 'material'], label: 'Core material', of: 'sheet' },
          q('fins.core.thickness'),
          q('fins.core.grain'),
        ],
      },
      { title: 'Edges of the core', rows: [] },
      ...edge('leading', 'Leading edge'),
      ...edge('tip', 'Tip'),
      ...edge('trailing', 'Trailing edge'),
      {
        title: 'Root',
        rows: [
          {
            kind: 'choice',
            path: ['fins', 'mounting', 'kind'],
            label: 'How the core meets the tube',
            options: [
              {
                value: 'surface',
                label: 'on its surface',
                write: { path: ['fins', 'mounting'], value: { kind: 'surface' } },
              },
              {
                value: 'tabbed',
                label: 'through a slot, with a tab',
                write: { path: ['fins', 'mounting'], value: { kind: 'tabbed', depth: '10 mm' } },
              },
            ],
          },
        ],
      },
      {
        when: is('fins.mounting.kind', 'tabbed'),
        rows: [q('fins.mounting.depth'), q('fins.mounting.forward'), q('fins.mounting.aft')],
      },
      {
        rows: [
          q('fins.fillet.radius'),
          q('fins.fillet.radiusAft'),
          q('fins.fillet.runOut.forward'),
          q('fins.fillet.runOut.aft'),
          { kind: 'material', path: ['fins', 'fillet', 'adhesive'], label: 'Fillet adhesive', of: 'adhesive' },
          q('fins.fillet.waste'),
          q('fins.joint.bondLine'),
          q('fins.joint.knockDown'),
          q('fins.joint.opening'),
        ],
      },
    ],
  },
  {
    id: 'lay-up',
    title: 'Lay-up',
    groups: [
      {
        rows: [
          q('layup.resinPerCloth'),
          q('layup.voids'),
          { kind: 'switch', path: ['layup', 'mirrorAlternateBays'], label: 'Mirror every other bay' },
          q('layup.stepPerThickness'),
          q('layup.biasShear'),
        ],
      },
      {
        title: 'Cut larger than the net shape',
        rows: [
          q('layup.overhang.edges'),
          q('layup.overhang.bodyEnds'),
          q('layup.overrun.forward'),
          q('layup.overrun.aft'),
        ],
      },
    ],
  },
  {
    id: 'flight',
    title: 'Flight and loads',
    groups: [
      {
        when: is('flight.kind', 'thrust'),
        rows: [
          q('flight.liftOffMass'),
          q('flight.propellantMass'),
          q('flight.diameter'),
          q('flight.siteAltitude'),
          q('flight.temperatureOffset'),
        ],
      },
      {
        when: is('flight.kind', 'history'),
        rows: [q('flight.temperatureOffset')],
      },
      {
        title: 'Loads',
        rows: [q('loads.angleOfAttack'), q('loads.tipLoad'), q('loads.structuralDamping'), q('loads.speedRatio')],
      },
    ],
  },
  {
    id: 'resin',
    title: 'Resin and shop',
    groups: [
      {
        title: 'Resin',
        rows: [
          { kind: 'material', path: ['resin', 'system'], label: 'Resin system', of: 'resin' },
          q('resin.ratio.value'),
          {
            kind: 'choice',
            path: ['resin', 'ratio', 'by'],
            label: 'That ratio is by',
            options: [
              { value: 'mass', label: 'mass' },
              { value: 'volume', label: 'volume' },
            ],
          },
          q('resin.tolerance'),
          { kind: 'switch', path: ['resin', 'postCure'], label: 'Post-cured' },
          q('resin.workingTime'),
          q('resin.workingTemperature'),
          q('resin.workingMass'),
          q('resin.minimumTemperature'),
          q('resin.glassTransition'),
          q('resin.glassTransitionPostCured'),
          q('resin.activationEnergy'),
          q('resin.resinDensity'),
          q('resin.hardenerDensity'),
          q('resin.density'),
          q('resin.E'),
          q('resin.nu'),
          q('resin.strength'),
        ],
      },
      {
        title: 'Shop',
        rows: [
          q('shop.temperature'),
          q('shop.humidity'),
          q('shop.setUp'),
          q('shop.perPly'),
          q('shop.scaleResolution'),
          q('shop.cupLimit'),
          q('shop.workingShare'),
        ],
      },
      {
        title: 'Resin that ends up elsewhere',
        rows: [q('layup.losses.peelPly'), q('layup.losses.primer'), q('layup.losses.cup')],
      },
    ],
  },
  {
    id: 'stock',
    title: 'On the shelf',
    groups: [{ rows: [q('stock.resin'), q('stock.hardener'), q('stock.usable'), q('stock.reserve')] }],
  },
  {
    id: 'print',
    title: 'Printing',
    groups: [{ rows: [q('printing.paperThickness')] }],
  },
]
