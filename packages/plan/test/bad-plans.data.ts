/**
 * Plans that must be refused: the demo with something wrong. Each row states every issue that must come, and no other;
 * `says` must stand in the message of the first, `schema` whether the JSON Schema alone refuses it as well.
 */
export type Json = { [key: string]: Json | undefined } | Json[] | string | number | boolean | null

export interface BadPlan {
  readonly name: string
  /** Paths to what is put there; `null` as an entry removes the key. */
  readonly edits?: readonly (readonly [path: string, value: Json | undefined])[]
  /** Instead of the demo's. */
  readonly csv?: string
  readonly issues: readonly (readonly [code: string, path: string])[]
  readonly says: string
  readonly schema: boolean
}

const cloth = 'glass-plain-200'
const free = (...points: readonly (readonly [string, string])[]): Json => ({
  kind: 'points',
  points: points.map(([x, y]) => [x, y]),
})

export const badPlans: readonly BadPlan[] = [
  {
    name: 'a thickness without a unit',
    edits: [['fins.core.thickness', '3.2']],
    issues: [['quantity/missing-unit', 'fins.core.thickness']],
    says: 'Core thickness is "3.2", which has no unit; it must be a length',
    schema: true,
  },
  {
    name: 'a bare number for a length',
    edits: [['fins.core.thickness', 3.2]],
    issues: [['quantity/missing-unit', 'fins.core.thickness']],
    says: 'Core thickness is 3.2, which has no unit',
    schema: true,
  },
  {
    name: 'a section without length',
    edits: [['printing.sections', [{ from: ['10 mm', '0 mm'], to: ['10 mm', '0.2 mm'] }]]],
    issues: [['plan/section-short', 'printing.sections[0].to']],
    says: 'Section 1 begins and ends at one place',
    schema: false,
  },
  {
    name: 'a mass where a length is wanted',
    edits: [['tube.wall', '3 kg']],
    issues: [['quantity/wrong-dimension', 'tube.wall']],
    says: 'Tube wall is "3 kg", which is a mass; it must be a length',
    schema: true,
  },
  {
    name: 'a negative thickness',
    edits: [['fins.core.thickness', '-3.2 mm']],
    issues: [['value/out-of-range', 'fins.core.thickness']],
    says: 'Core thickness is "-3.2 mm"; it must lie between 0.2 mm and 60 mm',
    schema: false,
  },
  {
    name: 'an enormous span, in inches',
    edits: [['fins.outline.span', '1e9 in']],
    issues: [['value/out-of-range', 'fins.outline.span']],
    says: 'Span is "1e9 in"; it must lie between 0.197 in and 118 in',
    schema: false,
  },
  {
    name: 'not a number with a unit',
    edits: [['fins.fillet.radius', 'NaN mm']],
    issues: [['quantity/not-a-number', 'fins.fillet.radius']],
    says: 'Fillet radius is "NaN mm", which is not a number',
    schema: true,
  },
  {
    name: 'infinite and overflowing lengths',
    edits: [
      ['tube.outerDiameter', 'Infinity m'],
      ['fins.outline.root', '1e999 m'],
    ],
    issues: [
      ['quantity/not-finite', 'tube.outerDiameter'],
      ['quantity/not-finite', 'fins.outline.root'],
    ],
    says: 'Tube outer diameter is "Infinity m", which is not finite',
    schema: true,
  },
  {
    name: 'an empty text for a quantity',
    edits: [['shop.temperature', '']],
    issues: [['quantity/empty', 'shop.temperature']],
    says: 'Shop temperature is "", which is empty; it must be a temperature',
    schema: true,
  },
  {
    name: 'an angle without a unit',
    edits: [['plies.1.angle', 45]],
    issues: [['quantity/missing-unit', 'plies[1].angle']],
    says: 'Ply angle is 45, which has no unit; it must be an angle with its unit (deg, rad, mrad)',
    schema: true,
  },
  {
    name: 'zero fins',
    edits: [['fins.count', 0]],
    issues: [['value/out-of-range', 'fins.count']],
    says: 'Number of fins is 0; it must lie between 3 and 8',
    schema: true,
  },
  {
    name: 'half a fin',
    edits: [['fins.count', 3.5]],
    issues: [['quantity/syntax', 'fins.count']],
    says: 'Number of fins is 3.5, which is not whole',
    schema: true,
  },
  {
    name: 'an unknown cloth, misspelt',
    edits: [['plies.0.cloth', 'glass-plian-200']],
    issues: [['material/unknown-cloth', 'plies[0].cloth']],
    says: "The cloth is 'glass-plian-200', which the catalogue does not have; it must be one of: glass-plain-49",
    schema: false,
  },
  {
    name: 'a resin for a cloth, and unknown resin, sheet and adhesive',
    edits: [
      ['plies.0.cloth', 'epoxy-slow'],
      ['resin.system', 'epoxy-slwo'],
      ['tube.material', 'cardboard'],
      ['fins.fillet.adhesive', 'glue'],
    ],
    issues: [
      ['material/unknown-resin', 'resin.system'],
      ['material/unknown-sheet', 'tube.material'],
      ['material/unknown-adhesive', 'fins.fillet.adhesive'],
      ['material/unknown-cloth', 'plies[0].cloth'],
    ],
    says: "The resin system is 'epoxy-slwo'",
    schema: false,
  },
  {
    name: 'unknown keys at three depths',
    edits: [
      ['fin', 4],
      ['fins.fillet.radios', '15 mm'],
      ['plies.2.stepBack.tipp', '20 mm'],
    ],
    issues: [
      ['plan/unknown-key', 'fins.fillet.radios'],
      ['plan/unknown-key', 'plies[2].stepBack.tipp'],
      ['plan/unknown-key', 'fin'],
    ],
    says: "'radios' is not known in 'fins.fillet'; allowed there: radius, radiusAft, runOut, adhesive, waste",
    schema: true,
  },
  {
    name: 'missing parts',
    edits: [
      ['tube', undefined],
      ['fins.core.thickness', undefined],
      ['flight.liftOffMass', undefined],
    ],
    issues: [
      ['plan/missing', 'tube'],
      ['plan/missing', 'fins.core.thickness'],
      ['plan/missing', 'flight.liftOffMass'],
    ],
    says: "'tube' is missing; it must be an object in { }",
    schema: true,
  },
  {
    name: 'wrong types',
    edits: [
      ['name', 5],
      ['tube', 'round'],
      ['plies', {}],
      ['resin.postCure', 'yes'],
    ],
    issues: [
      ['plan/wrong-type', 'name'],
      ['plan/wrong-type', 'tube'],
      ['plan/wrong-type', 'plies'],
      ['plan/wrong-type', 'resin.postCure'],
    ],
    says: "'name' is 5; it must be a text in quotes",
    schema: true,
  },
  {
    name: 'choices that do not exist',
    edits: [
      ['tube.backing', 'couplers'],
      ['fins.outline.kind', 'trapeze'],
      ['units', 'imperial'],
      ['flight.kind', 'rocket'],
    ],
    issues: [
      ['plan/choice', 'tube.backing'],
      ['plan/choice', 'fins.outline.kind'],
      ['plan/choice', 'units'],
      ['plan/choice', 'flight.kind'],
    ],
    says: '\'units\' is "imperial"; it must be one of "metric", "us"',
    schema: true,
  },
  {
    name: 'a self-crossing outline',
    edits: [['fins.outline', free(['0 mm', '0 mm'], ['250 mm', '100 mm'], ['100 mm', '100 mm'], ['300 mm', '0 mm'])]],
    issues: [['outline/self-crossing', 'fins.outline']],
    says: 'The outline crosses itself: its piece 1 meets its piece 3',
    schema: false,
  },
  {
    name: 'an outline without area',
    edits: [
      ['fins.outline', free(['0 mm', '0 mm'], ['150 mm', '0.000001 mm'], ['300 mm', '0 mm'])],
      ['fins.edges', {}],
    ],
    issues: [['outline/no-area', 'fins.outline']],
    says: 'it must have an area',
    schema: false,
  },
  {
    name: 'an outline that starts off the root, elsewhere than its origin',
    edits: [['fins.outline', free(['10 mm', '5 mm'], ['150 mm', '110 mm'], ['300 mm', '0 mm'])]],
    issues: [
      ['outline/off-root', 'fins.outline.points[0]'],
      ['outline/origin', 'fins.outline.points[0]'],
    ],
    says: 'The first point of the outline lies 10 mm aft and 5 mm outboard; it must lie on the root',
    schema: false,
  },
  {
    name: 'an outline listed backwards',
    edits: [['fins.outline', free(['0 mm', '0 mm'], ['-100 mm', '110 mm'], ['-300 mm', '0 mm'])]],
    issues: [['outline/reversed', 'fins.outline.points[2]']],
    says: 'it must be the root trailing edge, aft of the first point',
    schema: false,
  },
  {
    name: 'an outline with a point inside the tube, and too many edge names',
    edits: [
      [
        'fins.outline',
        {
          kind: 'points',
          points: [
            ['0 mm', '0 mm'],
            ['100 mm', '-5 mm'],
            ['150 mm', '110 mm'],
            ['300 mm', '0 mm'],
          ],
          edges: ['leading', 'leading', 'tip', 'trailing'],
        },
      ],
    ],
    issues: [
      ['outline/edge-count', 'fins.outline.edges'],
      ['outline/below-root', 'fins.outline.points[1]'],
    ],
    says: 'There are 4 edge names for 4 points; there must be 3',
    schema: false,
  },
  {
    name: 'an outline with the same point twice',
    edits: [['fins.outline', free(['0 mm', '0 mm'], ['150 mm', '110 mm'], ['150 mm', '110 mm'], ['300 mm', '0 mm'])]],
    issues: [['outline/repeated-point', 'fins.outline.points[2]']],
    says: 'Point 3 of the outline is the same as the point before',
    schema: false,
  },
  {
    name: 'a core that meets its neighbours, a wall thicker than the tube',
    edits: [
      ['tube.outerDiameter', '20 mm'],
      ['tube.wall', '12 mm'],
      ['fins.core.thickness', '15 mm'],
    ],
    issues: [
      ['tube/wall-too-thick', 'tube.wall'],
      ['fins/core-too-thick', 'fins.core.thickness'],
    ],
    says: 'The tube wall is 12 mm; it must stay below half the outer diameter of 20 mm',
    schema: false,
  },
  {
    name: 'tabs that do not reach through, or meet in the middle, or have no length',
    edits: [['fins.mounting', { kind: 'tabbed', depth: '1 mm', forward: '200 mm', aft: '100 mm' }]],
    issues: [
      ['fins/tab-too-short', 'fins.mounting.depth'],
      ['fins/tab-too-short', 'fins.mounting.forward'],
    ],
    says: 'The tabs are 1 mm deep; they must reach through the wall of 2.0 mm',
    schema: false,
  },
  {
    name: 'tabs that meet in the middle',
    edits: [['fins.mounting', { kind: 'tabbed', depth: '50 mm' }]],
    issues: [['fins/tab-too-deep', 'fins.mounting.depth']],
    says: 'they must stay below 49.4 mm',
    schema: false,
  },
  {
    name: 'bevels wider than the chord, a land thicker than the core',
    edits: [
      ['fins.edges.leading.width', '200 mm'],
      ['fins.edges.trailing.width', '150 mm'],
      ['fins.edges.trailing.land', '4 mm'],
    ],
    issues: [
      ['edges/land-too-thick', 'fins.edges.trailing.land'],
      ['edges/wider-than-chord', 'fins.edges.leading.width'],
    ],
    says: 'The trailing edge leaves a land of 4 mm; it must be thinner than the core of 3.2 mm',
    schema: false,
  },
  {
    name: 'a tip bevel wider than the span',
    edits: [['fins.edges.tip', { shape: 'bevel', width: '120 mm', land: '1 mm' }]],
    issues: [['edges/wider-than-span', 'fins.edges.tip.width']],
    says: 'that must be less than the span of 110.0 mm',
    schema: false,
  },
  {
    name: 'a structural ply without an angle, and one of peel ply',
    edits: [
      ['plies.0.angle', undefined],
      ['plies.1.cloth', 'peel-ply'],
    ],
    issues: [
      ['plan/missing', 'plies[0].angle'],
      ['plies/carries-no-load', 'plies[1].cloth'],
    ],
    says: 'Ply 1 has no angle',
    schema: false,
  },
  {
    name: 'cloth outside the peel ply, and a step back stated twice',
    edits: [
      ['plies.3.role', 'peel'],
      ['plies.3.cloth', 'peel-ply'],
      ['plies.0.stepBack.leading', '35 mm'],
    ],
    issues: [
      ['plies/step-back-twice', 'plies[0].stepBack.leading'],
      ['plies/outside-peel-ply', 'plies[4].role'],
      ['plies/outside-peel-ply', 'plies[5].role'],
    ],
    says: "'chord' states 60 mm for leading and trailing together, and 'leading' states 35 mm",
    schema: false,
  },
  {
    name: 'a film with an angle and peel ply outside it',
    edits: [
      ['plies.5', { cloth: 'plastic-film', role: 'film', angle: '45 deg' }],
      ['plies.6', { cloth: 'peel-ply', role: 'peel' }],
    ],
    issues: [
      ['plies/film-angle', 'plies[5].angle'],
      ['plies/outside-film', 'plies[6].role'],
    ],
    says: 'a film has no warp and must have none',
    schema: false,
  },
  {
    name: 'roles that do not fit their cloths',
    edits: [
      ['plies.5', { cloth: 'plastic-film', role: 'surface' }],
      ['plies.6', { cloth: 'glass-plain-100', role: 'film' }],
    ],
    issues: [
      ['plies/not-for-this', 'plies[5].cloth'],
      ['plies/not-for-this', 'plies[6].cloth'],
    ],
    says: 'the role must fit the cloth',
    schema: false,
  },
  {
    name: 'no structural ply',
    edits: [['plies', [{ cloth: 'glass-veil-49', role: 'surface' }]]],
    issues: [['plies/none-structural', 'plies']],
    says: 'it must have at least one',
    schema: false,
  },
  {
    name: 'no plies, no cans',
    edits: [
      ['plies', []],
      ['cans', []],
    ],
    issues: [
      ['plan/too-few', 'plies'],
      ['plan/too-few', 'cans'],
    ],
    says: "'plies' has 0 entries; it must have at least 1",
    schema: true,
  },
  {
    name: 'three fins with alternate bays mirrored',
    edits: [
      ['fins.count', 3],
      ['layup.mirrorAlternateBays', true],
    ],
    issues: [['layup/mirror-odd', 'layup.mirrorAlternateBays']],
    says: 'with 3 fins; that needs an even number',
    schema: false,
  },
  {
    name: 'can letters used twice, or no letter',
    edits: [['cans', [{ letter: 'A' }, { letter: 'A' }, { letter: 'ab' }]]],
    issues: [
      ['plan/wrong-form', 'cans[2].letter'],
      ['cans/repeated-letter', 'cans[1].letter'],
    ],
    says: '\'letter\' is "ab"; it must be a single capital letter',
    schema: true,
  },
  {
    name: 'a mix ratio that is none, or neither by mass nor by volume',
    edits: [['resin.ratio', { value: '3-1' }]],
    issues: [
      ['plan/missing', 'resin.ratio.by'],
      ['quantity/syntax', 'resin.ratio.value'],
    ],
    says: '\'by\' is missing; it must be one of "mass", "volume"',
    schema: true,
  },
  {
    name: 'a ratio by volume without the densities',
    edits: [['resin.ratio', { by: 'volume', value: '3:1' }]],
    issues: [
      ['resin/volume-needs-densities', 'resin.resinDensity'],
      ['resin/volume-needs-densities', 'resin.hardenerDensity'],
    ],
    says: "The mix ratio 3:1 is by volume, and 'resinDensity' is not stated",
    schema: false,
  },
  {
    name: 'properties that do not belong to the material, or stand twice',
    edits: [
      ['materials', { [cloth]: { E1: '20 GPa', arealMass: '7' }, 'epoxy-slow': { workingTime: '30 min' }, nylon: {} }],
    ],
    issues: [
      ['quantity/missing-unit', `materials.${cloth}.arealMass`],
      ['material/no-such-property', `materials.${cloth}.E1`],
      ['material/unknown', 'materials.nylon'],
      ['material/stated-twice', 'resin.workingTime'],
    ],
    says: 'Areal mass, dry is "7", which has no unit; it must be a mass per area',
    schema: true,
  },
  {
    name: 'elastic constants that cannot be',
    edits: [['materials', { g10: { E1: '1 GPa', E2: '100 GPa' } }]],
    issues: [['material/poisson', 'materials.g10.nu12']],
    says: "Poisson's ratio nu12 is 0.14; with these moduli it must stay below 0.100",
    schema: false,
  },
  {
    name: 'propellant heavier than the rocket, no thrust',
    edits: [
      ['flight.propellantMass', '12 kg'],
      [
        'flight.thrust',
        [
          ['0 s', '0 N'],
          ['1 s', '0 N'],
        ],
      ],
    ],
    issues: [
      ['flight/propellant-too-heavy', 'flight.propellantMass'],
      ['flight/no-impulse', 'flight.thrust'],
    ],
    says: 'The propellant mass is 12 kg; it must stay below the lift-off mass of 11.2 kg',
    schema: false,
  },
  {
    name: 'times and Mach numbers that do not rise, two reference areas',
    edits: [
      [
        'flight.thrust',
        [
          ['0 s', '10 N'],
          ['2 s', '10 N'],
          ['1 s', '10 N'],
        ],
      ],
      [
        'flight.drag',
        [
          [0.5, 0.5],
          [0.5, 0.6],
        ],
      ],
      ['flight.referenceArea', '80 cm2'],
    ],
    issues: [
      ['flight/not-rising', 'flight.thrust[2][0]'],
      ['flight/not-rising', 'flight.drag[1][0]'],
      ['flight/reference-twice', 'flight.referenceArea'],
    ],
    says: 'Time is 1 s, not above the row before',
    schema: false,
  },
  {
    name: 'air states with no, or two, speeds of sound',
    edits: [
      [
        'flight',
        {
          kind: 'states',
          states: [
            { mach: 2, density: '1 kg/m3' },
            { mach: -1, density: '1 kg/m3', soundSpeed: '340 m/s', temperature: '15 degC' },
          ],
        },
      ],
    ],
    issues: [
      ['value/out-of-range', 'flight.states[1].mach'],
      ['flight/sound-speed', 'flight.states[0]'],
      ['flight/sound-speed', 'flight.states[1]'],
    ],
    says: 'Mach number is -1; it must lie between 0.01 and 25',
    schema: true,
  },
  {
    name: 'a thrust curve that is not there',
    edits: [['flight.thrust', 'gone.csv']],
    issues: [['csv/unreadable', 'flight.thrust']],
    says: "The file 'gone.csv' cannot be read: no such file",
    schema: false,
  },
  {
    name: 'a CSV with a gap, text, NaN and a time that falls back',
    csv: 'time (s),thrust (N)\n0,0\n0.1,\n0.2,lots\n0.3,NaN\n0.25,100\n0.5,0\n',
    issues: [
      ['csv/not-rising', 'flight.thrust'],
      ['csv/gap', 'flight.thrust'],
      ['csv/not-a-number', 'flight.thrust'],
      ['csv/not-a-number', 'flight.thrust'],
    ],
    says: "demo-thrust.csv: line 6, column 'time (s)' is 0.25, not above the row before",
    schema: false,
  },
  {
    name: 'a CSV without units, too short',
    csv: 'time,thrust (mm)\n0,1\n',
    issues: [
      ['csv/missing-unit', 'flight.thrust'],
      ['csv/wrong-dimension', 'flight.thrust'],
      ['csv/too-few-rows', 'flight.thrust'],
    ],
    says: "line 1: the column 'time' has no unit; it must be a time (ms, s, min, h)",
    schema: false,
  },
  {
    name: 'a CSV without one column, the other twice',
    csv: 'thrust (N),thrust (N)\n0,1\n1,2\n',
    issues: [
      ['csv/missing-column', 'flight.thrust'],
      ['csv/repeated-column', 'flight.thrust'],
    ],
    says: "there is no column 'time'; the headings are 'thrust (N)', 'thrust (N)'",
    schema: false,
  },
  {
    name: 'an empty CSV',
    csv: '# nothing\n\n',
    issues: [['csv/empty', 'flight.thrust']],
    says: 'the file is empty',
    schema: false,
  },
  {
    name: 'flaws of a roll that enclose nothing, cross themselves or lie beyond it',
    edits: [
      [
        'stock.rolls.0.defects',
        [
          [
            ['100 mm', '100 mm'],
            ['200 mm', '100 mm'],
          ],
          [
            ['100 mm', '100 mm'],
            ['200 mm', '200 mm'],
            ['200 mm', '100 mm'],
            ['100 mm', '200 mm'],
          ],
          [
            ['13 m', '100 mm'],
            ['14 m', '200 mm'],
          ],
          [
            ['1 m', '970 mm'],
            ['2 m', '990 mm'],
          ],
          [
            ['1 m', '900 mm'],
            ['2 m', '990 mm'],
          ],
        ],
      ],
    ],
    issues: [
      ['stock/defect-outline', 'stock.rolls[0].defects[0]'],
      ['stock/defect-outline', 'stock.rolls[0].defects[1]'],
      ['stock/defect-off-roll', 'stock.rolls[0].defects[2]'],
      ['stock/defect-off-roll', 'stock.rolls[0].defects[3]'],
    ],
    says: 'the roll is 965 mm wide with 12 m left',
    schema: false,
  },
  {
    name: 'a roll that is all selvedge, and two of one name',
    edits: [
      ['stock.rolls.0.selvedge', '150 mm'],
      ['stock.rolls.0.width', '300 mm'],
      ['stock.rolls.1.id', 'peel ply'],
    ],
    issues: [
      ['stock/selvedge', 'stock.rolls[0].selvedge'],
      ['stock/repeated-roll', 'stock.rolls[2].id'],
    ],
    says: 'The selvedge of 150 mm at both edges leaves nothing of a roll 300 mm wide',
    schema: false,
  },
  {
    name: 'shares above one, damping without bound',
    edits: [
      ['fins.fillet.waste', '900 %'],
      ['layup.voids', 1.5],
      ['shop.humidity', '60'],
      ['loads.structuralDamping', 2],
    ],
    issues: [
      ['value/out-of-range', 'fins.fillet.waste'],
      ['value/out-of-range', 'layup.voids'],
      ['quantity/missing-unit', 'shop.humidity'],
      ['value/out-of-range', 'loads.structuralDamping'],
    ],
    says: 'Fillet waste is "900 %"; it must lie between 0 % and 200 %',
    schema: true,
  },
  {
    name: 'a gust without its wind, joint and speed ratio out of bounds',
    edits: [
      ['loads.wind', { gust: '9 mph', railLength: '6' }],
      ['loads.speedRatio', 0.9],
      ['fins.joint', { bondLine: '12 mm', knockDown: '4.5', opening: '5 mm' }],
    ],
    issues: [
      ['plan/missing', 'loads.wind.steady'],
      ['quantity/missing-unit', 'loads.wind.railLength'],
      ['value/out-of-range', 'loads.speedRatio'],
      ['value/out-of-range', 'fins.joint.bondLine'],
      ['quantity/not-a-number', 'fins.joint.knockDown'],
      ['quantity/wrong-dimension', 'fins.joint.opening'],
    ],
    says: 'Flutter speed asked for over flight speed is 0.9; it must lie between 1 and 5',
    schema: true,
  },
  {
    name: 'a can and a study at once',
    edits: [['study', { outline: [['0 m', '0 m']], supports: [], plate: { kind: 'sheet' } }]],
    issues: [
      ...['tube', 'fins', 'plies', 'layup', 'resin', 'shop', 'stock', 'cans', 'flight', 'loads', 'printing'].map(
        (key) => ['plan/mixed', key] as const,
      ),
      ['plan/too-few', 'study.outline'],
      ['plan/missing', 'study.plate.material'],
      ['plan/missing', 'study.plate.thickness'],
    ],
    says: "'outline' has 1 entries; it must have at least 3",
    schema: true,
  },
  {
    name: 'a field at fault does not hide what is wrong between others',
    edits: [
      ['name', undefined],
      ['fins.core.grain', 'along'],
      ['tube.wall', '60 mm'],
      ['fins.edges.leading.land', '5 mm'],
      ['cans.1.letter', 'A'],
      ['flight.propellantMass', '20 kg'],
      ['plies.2.cloth', 'silk'],
    ],
    issues: [
      ['plan/missing', 'name'],
      ['quantity/syntax', 'fins.core.grain'],
      ['tube/wall-too-thick', 'tube.wall'],
      ['edges/land-too-thick', 'fins.edges.leading.land'],
      ['cans/repeated-letter', 'cans[1].letter'],
      ['flight/propellant-too-heavy', 'flight.propellantMass'],
      ['material/unknown-cloth', 'plies[2].cloth'],
    ],
    says: "'name' is missing",
    schema: true,
  },
  {
    name: 'not a plan of ours',
    edits: [['format', 'another/plan']],
    issues: [['plan/format', 'format']],
    says: '\'format\' is "another/plan"; a plan must state "finwright/plan"',
    schema: true,
  },
  {
    name: 'a plan of the future',
    edits: [['version', 99]],
    issues: [['plan/version', 'version']],
    says: "'version' is 99; this Finwright reads versions 0 to 1",
    schema: true,
  },
]
