/**
 * The traveller's steps, in the order in which a can is built. What is checked and written at each is common practice of
 * builders where no source is named; limits marked as defaults are this program's own, no standard.
 */
import { cautions } from './cautions.data.ts'

export interface StepField {
  readonly label: string
  readonly unit?: string
  readonly share?: number
}

export interface TravellerStep {
  readonly title: string
  readonly work: readonly string[]
  readonly fields: readonly StepField[]
  /** A step that may not be passed unsigned. */
  readonly hold: readonly string[]
  readonly cautions: readonly string[]
  /** A table with one row a fin, by its column heads. */
  readonly perFin?: readonly string[]
  /** Names of the rows of one fin, where it has more than one. */
  readonly ways?: readonly string[]
}

export const beforeLayup: readonly TravellerStep[] = [
  {
    title: 'Cores',
    work: [
      'Cut the cores oversize, mark the sheet’s lengthwise direction, dress them as one pinned stack.',
      'Equal matters more than exact: outlines within 0.25 mm, masses within 1 % (defaults).',
    ],
    fields: [{ label: 'sheet, lot' }, { label: 'cut by' }, { label: 'date' }],
    perFin: ['mass, g', 'root, mm', 'tip, mm', 'span, mm', 'thickness, mm', 'twist, mm', 'bevels, mm'],
    hold: ['Spread of masses and outlines accepted, or cores paired: nearest masses opposite.'],
    cautions: [cautions.dust],
  },
  {
    title: 'Tube and jig',
    work: [
      'Measure the tube twice, at right angles. Wrap the printed strip: its edges meet within 0.5 mm.',
      'Scribe fin 1 on the datum, every fin line, both root ends. Release tape where adhesive must not hold the jig.',
    ],
    fields: [
      { label: 'outer diameter, 1', unit: 'mm' },
      { label: 'outer diameter, 2', unit: 'mm' },
      { label: 'wrap’s gap', unit: 'mm' },
      { label: 'jig no.' },
    ],
    hold: [],
    cautions: [],
  },
  {
    title: 'Root bond',
    work: [
      'Prepare both surfaces; contour the root to the tube. Mix by mass, coat both, seat, clamp.',
      'A bead squeezed out along the whole root on both sides is the only sight of a full joint.',
    ],
    fields: [
      { label: 'adhesive, lot', share: 1.6 },
      { label: 'mixed at' },
      { label: 'do not move until' },
      { label: 'shop', unit: '°C / %' },
    ],
    perFin: ['bead 100 %, next face', 'bead 100 %, previous face', 'initials'],
    hold: [],
    cautions: [cautions.resin],
  },
  {
    title: 'Alignment 1, before the fillets',
    work: [
      'Read each fin twice with the tube rolled exactly half a turn between: gravity gauge or dial at 3 and 9 o’clock, laser or batten at 12 and 6.',
      'Half the difference is the cant; half the sum is the bench’s own error and must be equal for all fins.',
    ],
    fields: [{ label: 'gauge' }, { label: 'gauge length', unit: 'mm' }, { label: 'read by' }],
    perFin: ['1st position', '2nd position', 'cant °', 'bench °', 'lean °', 'clocking °'],
    hold: [
      'Cant accepted on every fin. This is the last cheap moment to correct one: after the fillets there is none.',
    ],
    cautions: [],
  },
  {
    title: 'Fillets',
    work: [
      'One bay up at a time, both its fillets in one pour; the opposite bay next. Mask at the foot and top lines.',
      'Draw the tool once or twice, lift the tape while it is soft, turn when it no longer runs.',
    ],
    fields: [
      { label: 'adhesive, lot', share: 1.6 },
      { label: 'mixed in all', unit: 'g' },
      { label: 'gauge fits' },
      { label: 'greatest void', unit: 'mm' },
    ],
    perFin: ['next face', 'previous face', 'radius checked'],
    hold: ['Radius within 1 mm of the tool, no void over 1 mm, no ridge at the edge lines (defaults).'],
    cautions: [cautions.fillets],
  },
]

export const afterLayup: readonly TravellerStep[] = [
  {
    title: 'Trim',
    work: [
      'Pull off film and peel ply, saw and sand to the net line. Guard tape over tube and faces. Sanding into a structural ply is a deviation.',
      'Seal every open edge with resin.',
    ],
    fields: [{ label: 'done by' }, { label: 'date' }, { label: 'flash, weighed', unit: 'g' }],
    hold: [],
    cautions: [cautions.needles, cautions.dust],
  },
  {
    title: 'Mass and resin share',
    work: [
      'Gain of each bay, flash apart, against its dry cloth: a missing ply shows here before it shows anywhere else.',
    ],
    fields: [
      { label: 'can, before skins', unit: 'g' },
      { label: 'can, trimmed', unit: 'g' },
      { label: 'film, peel ply and flash', unit: 'g' },
      { label: 'resin share', unit: '%' },
    ],
    hold: [],
    cautions: [],
  },
  {
    title: 'Look and tap',
    work: [
      'Light through the skins; a coin over a 10 mm grid, the same spots on every fin. Mark findings on the bay map.',
      'None over 3 mm in the root band and 10 mm from the edges, none over 6 mm elsewhere (defaults). Tapping finds what is 10 mm or more.',
    ],
    fields: [{ label: 'looked by' }, { label: 'tapped by' }, { label: 'date' }],
    perFin: ['next face', 'previous face', 'edges', 'root line'],
    hold: [
      'Every finding has a disposition: accept, rework, repair, demote or scrap. No test of the finished part proves a bond.',
    ],
    cautions: [],
  },
  {
    title: 'Post-cure',
    work: ['Heat only after it is hard, the can supported. Log the temperature of the part, not of the box.'],
    fields: [
      { label: 'start', unit: 'h' },
      { label: 'at', unit: '°C' },
      { label: 'for', unit: 'h' },
      { label: 'greatest, on the part', unit: '°C' },
      { label: 'witness hard' },
    ],
    hold: ['Log attached, or “no post-cure” written and signed here: the warnings on heat then stand.'],
    cautions: [cautions.heat, cautions.postCure],
  },
  {
    title: 'Alignment 2, after everything hot',
    work: ['As alignment 1, on the finished can, at the root and near the tip.'],
    fields: [{ label: 'gauge' }, { label: 'gauge length', unit: 'mm' }, { label: 'read by' }],
    perFin: ['1st position', '2nd position', 'cant °', 'bench °', 'cant at tip °'],
    hold: ['Mean cant and roll rate accepted.'],
    cautions: [],
  },
  {
    title: 'Proof load',
    work: [
      'Every fin, both ways: the two faces have separate bonds. A padded beam where the root moment is right, a catch block.',
      'Steps of 20, 40, 60, 80, 100 %; hold 60 s, the last 120 s; read up and down; then none, wait 2 min, read what stays. Twice.',
    ],
    fields: [
      { label: 'limit load', unit: 'N' },
      { label: 'proof load', unit: 'N' },
      { label: 'at span', unit: 'mm' },
      { label: 'weights from' },
    ],
    ways: ['to next', 'to previous'],
    perFin: ['20 %', '40 %', '60 %', '80 %', '100 %', 'stays, mm', 'sound at'],
    hold: ['Residual under 2 %, second cycle like the first, silent below the first cycle’s load (defaults).'],
    cautions: [cautions.proof],
  },
  {
    title: 'Mass and balance',
    work: ['Weigh the can; find its centre of mass on two scales. A backup inherits nothing from the flight can.'],
    fields: [{ label: 'mass', unit: 'g' }, { label: 'centre of mass from the aft end', unit: 'mm' }, { label: 'date' }],
    hold: [],
    cautions: [],
  },
]
