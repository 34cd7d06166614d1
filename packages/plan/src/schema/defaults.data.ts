/**
 * What a plan takes for what it leaves out, each with its source. Filled into the complete document, so that the builder
 * sees them; `[]` stands for every place of a list. A function derives the value from the plan.
 */

export interface Default {
  readonly path: string
  readonly value: unknown
  readonly source: string
}

/** Something of the plan that is already complete above this field. */
export interface DerivedDefault {
  readonly path: string
  /** `at` reads the plan, `near` the object that the field is missing from; undefined when there is no default. */
  readonly derive: (at: (path: string) => unknown, near: Readonly<Record<string, unknown>>) => unknown
  readonly source: string
}

const practice = 'common practice, no source'
const faa = 'FAA AC 43.13-1B (1998), chapter 3, section 1: light laminates at 50 % resin by weight'
const scarf = 'FAA AC 43.13-1B (1998), chapter 3, section 1: scarf of 50 ply thicknesses; by analogy'
const eurocomp =
  '1.5 typical properties, 1.5 by hand, 2 for service: our own proposal in the manner of EUROCOMP Design Code (1996), section 5.1, recalled; a data-sheet lap shear is no design value (ASTM D4896)'
const nothing = 'nothing stated, nothing assumed'

const stepBack = (field: string, short: string): DerivedDefault => ({
  path: `plies[].stepBack.${field}`,
  derive: (_, near) => near[short] ?? '0 mm',
  source: `the ply's '${short}' where stated, otherwise full size`,
})

/** In this order; an object stands before its fields. */
export const defaults: readonly (Default | DerivedDefault)[] = [
  { path: 'note', value: '', source: nothing },
  { path: 'units', value: 'metric', source: 'how numbers are shown; yours are kept as typed' },

  {
    path: 'tube.aftDiameter',
    derive: (at) => at('tube.outerDiameter'),
    source: 'a straight tube under the root',
  },
  { path: 'tube.backing', value: 'none', source: 'the least stiff case' },
  { path: 'fins.mounting', value: { kind: 'surface' }, source: practice },
  { path: 'fins.cant', value: '0 deg', source: 'fins stand along the axis' },
  { path: 'fins.core.grain', value: '0 deg', source: `lengthwise along the root; ${practice}` },
  { path: 'fins.edges', value: {}, source: 'square edges where no shape is stated' },
  { path: 'fins.edges.leading', value: { shape: 'square' }, source: 'no shape stated' },
  { path: 'fins.edges.tip', value: { shape: 'square' }, source: 'no shape stated' },
  { path: 'fins.edges.trailing', value: { shape: 'square' }, source: 'no shape stated' },
  {
    path: 'fins.fillet.radiusAft',
    derive: (at) => at('fins.fillet.radius'),
    source: 'one tool for the whole fillet',
  },
  { path: 'fins.fillet.runOut', value: {}, source: practice },
  {
    path: 'fins.fillet.runOut.forward',
    derive: (at) => at('fins.fillet.radius'),
    source: `the fillet runs out over about its own radius past the root; ${practice}`,
  },
  {
    path: 'fins.fillet.runOut.aft',
    derive: (at) => at('fins.fillet.radiusAft'),
    source: `the fillet runs out over about its own radius past the root; ${practice}`,
  },
  { path: 'fins.fillet.adhesive', value: 'epoxy-paste', source: practice },
  { path: 'fins.fillet.waste', value: '30 %', source: `25 to 40 %; ${practice}` },
  { path: 'fins.joint', value: {}, source: practice },
  { path: 'fins.joint.bondLine', value: '0.3 mm', source: `a core's end pressed on by hand; ${practice}` },
  { path: 'fins.joint.knockDown', value: 4.5, source: eurocomp },
  {
    path: 'fins.joint.opening',
    value: '5 MPa',
    source: 'hand-laid glass, 10 to 25 MPa from memory; the lower end halved for voids: our own proposal, no source',
  },

  { path: 'layup', value: {}, source: practice },
  { path: 'layup.overhang', value: {}, source: practice },
  { path: 'layup.overhang.edges', value: '10 mm', source: `5 to 13 mm; ${practice}` },
  { path: 'layup.overhang.bodyEnds', value: '10 mm', source: `5 to 13 mm; ${practice}` },
  { path: 'layup.overrun', value: {}, source: practice },
  {
    path: 'layup.overrun.forward',
    derive: (at) => at('fins.fillet.radius'),
    source: `the fillet runs out over about its own radius past the root; ${practice}`,
  },
  {
    path: 'layup.overrun.aft',
    derive: (at) => at('fins.fillet.radius'),
    source: `the fillet runs out over about its own radius past the root; ${practice}`,
  },
  { path: 'layup.resinPerCloth', value: '1:1', source: faa },
  { path: 'layup.voids', value: '2 %', source: `hand lay-up without vacuum; ${practice}` },
  { path: 'layup.biasShear', value: '4 deg', source: `careful handling; ${practice}` },
  { path: 'layup.mirrorAlternateBays', value: false, source: 'every bay laid alike' },
  { path: 'layup.stepPerThickness', value: 50, source: scarf },
  { path: 'layup.losses', value: {}, source: practice },
  { path: 'layup.losses.peelPly', value: '80 g/m2', source: `60 to 100 g/m2; ${practice}` },
  { path: 'layup.losses.primer', value: '60 g/m2', source: `50 to 80 g/m2; ${practice}` },
  { path: 'layup.losses.cup', value: '8 g', source: `6 to 10 g a batch; ${practice}` },

  { path: 'plies[].role', value: 'structural', source: 'the usual kind' },
  {
    path: 'plies[].angle',
    derive: (_, near) => (['surface', 'peel', 'film'].includes(String(near.role)) ? '0 deg' : undefined),
    source: 'carries no load, so that any angle will do',
  },
  { path: 'plies[].stepBack', value: {}, source: 'full size' },
  stepBack('leading', 'chord'),
  stepBack('trailing', 'chord'),
  { path: 'plies[].stepBack.tip', value: '0 mm', source: 'full size' },
  stepBack('bodyForward', 'body'),
  stepBack('bodyAft', 'body'),
  { path: 'plies[].cover', value: 'bay', source: 'from tip to tip' },
  {
    path: 'plies[].onBody',
    derive: (_, near) => (near.cover === 'next' || near.cover === 'previous' ? '15 mm' : undefined),
    source: `a patch's lap on the body; ${practice}`,
  },
  { path: 'plies[].wrap', value: '0 mm', source: "trimmed at the fin's edges" },
  { path: 'plies[].overhang', value: {}, source: 'as stated for the whole lay-up' },
  {
    path: 'plies[].overhang.edges',
    derive: (at) => at('layup.overhang.edges'),
    source: 'as stated for the whole lay-up',
  },
  {
    path: 'plies[].overhang.bodyEnds',
    derive: (at) => at('layup.overhang.bodyEnds'),
    source: 'as stated for the whole lay-up',
  },

  { path: 'resin.tolerance', value: '3 %', source: `aim 3 %, limit 5 %; ${practice}` },
  { path: 'resin.postCure', value: false, source: 'no post-cure counted on' },

  { path: 'shop', value: {}, source: practice },
  { path: 'shop.temperature', value: '20 degC', source: practice },
  { path: 'shop.humidity', value: '50 %', source: practice },
  { path: 'shop.setUp', value: '5 min', source: practice },
  { path: 'shop.perPly', value: '6 min', source: `5 to 7 min, inspection in; ${practice}` },
  { path: 'shop.scaleResolution', value: '1 g', source: 'a kitchen scale: the coarsest one met; state yours' },
  { path: 'shop.cupLimit', value: '170 g', source: `6 oz, a homebuilders' rule against a hot cup; ${practice}` },
  { path: 'shop.workingShare', value: '75 %', source: practice },

  { path: 'stock', value: {}, source: 'no stock stated: everything is to be bought' },
  { path: 'stock.rolls', value: [], source: 'no stock stated' },
  { path: 'stock.rolls[].selvedge', value: '10 mm', source: practice },
  { path: 'stock.rolls[].defects', value: [], source: 'no flaw stated' },
  { path: 'stock.resin', value: '0 g', source: 'no stock stated' },
  { path: 'stock.hardener', value: '0 g', source: 'no stock stated' },
  { path: 'stock.usable', value: '95 %', source: practice },
  { path: 'stock.reserve', value: '0 g', source: 'no practice panel stated' },

  { path: 'cans', value: [{ letter: 'A', purpose: 'flight' }], source: 'one can, to fly' },
  { path: 'cans[].purpose', value: 'flight', source: 'the usual purpose' },

  { path: 'loads', value: {}, source: practice },
  {
    path: 'loads.angleOfAttack',
    derive: (_, near) => (near.wind === undefined ? '2 deg' : undefined),
    source: `2 deg where no wind is stated (1 to 3 deg for gusts and coning); ${practice}`,
  },
  {
    path: 'loads.wind.gust',
    derive: (_, near) => near.steady,
    source: `a gust as strong as the wind itself; ${practice}`,
  },
  { path: 'loads.wind.railLength', value: '2 m', source: `a short rail: the rocket leaves it slowly; ${practice}` },
  { path: 'loads.tipLoad', value: '100 N', source: `a hand's push, to compare with a test; ${practice}` },
  { path: 'loads.structuralDamping', value: 0, source: 'no damping counted on: the safe side' },
  {
    path: 'loads.speedRatio',
    value: 1.15,
    source: "15 % of speed as in aircraft practice (14 CFR 25.629, recalled), on top of the envelope's own factors",
  },

  { path: 'printing', value: {}, source: practice },
  { path: 'printing.paperThickness', value: '0.1 mm', source: `office paper of 80 g/m2; ${practice}` },
  { path: 'printing.sections', value: [], source: 'the standard sections stand on the sheets anyway' },
  { path: 'materials', value: {}, source: 'the catalogue as it stands' },
]

/** Only in a plan whose flight is flown from a thrust curve. */
export const thrustDefaults: readonly (Default | DerivedDefault)[] = [
  {
    path: 'flight.diameter',
    derive: (at, near) => (near.referenceArea === undefined ? at('tube.outerDiameter') : undefined),
    source: 'the drag coefficient refers to the tube',
  },
  { path: 'flight.siteAltitude', value: '0 m', source: 'sea level: the densest air' },
  { path: 'flight.temperatureOffset', value: '0 degC', source: 'U.S. Standard Atmosphere, 1976' },
]

/** Only in a plan whose flight is a recorded history. */
export const historyDefaults: readonly (Default | DerivedDefault)[] = [
  { path: 'flight.temperatureOffset', value: '0 degC', source: 'U.S. Standard Atmosphere, 1976' },
]

export const mountingDefaults: readonly (Default | DerivedDefault)[] = [
  { path: 'fins.mounting.forward', value: '0 mm', source: 'the tab is as long as the root' },
  { path: 'fins.mounting.aft', value: '0 mm', source: 'the tab is as long as the root' },
]

export const studyDefaults: readonly (Default | DerivedDefault)[] = [
  { path: 'note', value: '', source: nothing },
  { path: 'units', value: 'metric', source: 'how numbers are shown; yours are kept as typed' },
  { path: 'study.plate.axis', value: '0 deg', source: "the material's axis 1 along x" },
  { path: 'study.air.flowDirection', value: '0 deg', source: 'the air flows along x' },
  { path: 'study.air.pistonOrder', value: 2, source: 'thickness counted: the first order alone is unsafe' },
  { path: 'study.air.aerodynamicDamping', value: true, source: 'the whole of piston theory' },
  { path: 'study.air.faces', value: 2, source: 'a fin has air on both faces' },
  { path: 'study.modes', value: 6, source: practice },
  { path: 'study.structuralDamping', value: 0, source: 'no damping counted on: the safe side' },
  { path: 'materials', value: {}, source: 'the catalogue as it stands' },
]

/** The default that does not depend on the rest of the plan, if there is one. */
export function defaultText(path: string): unknown {
  const all = [...defaults, ...thrustDefaults, ...historyDefaults, ...mountingDefaults, ...studyDefaults]
  const found = all.find((one) => one.path === path)
  return found !== undefined && 'value' in found ? found.value : undefined
}
