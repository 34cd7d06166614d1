/**
 * Every measured or counted field of the plan: what it is called, its quantity and its limits. One table for the validator,
 * the JSON Schema, the manual, forms and messages. `[]` stands for any place in a list, `[0]` for the first.
 *
 * Limits keep out slips of the unit and of the point; they are no engineering advice (common practice, no source).
 */
import type { QuantityName } from '../quantity/quantities.data.ts'

export interface Field {
  /** As a message calls it. */
  readonly label: string
  readonly quantity: QuantityName
  /** Limits, both allowed, written as in a plan. */
  readonly least: string | number
  readonly most: string | number
}

const span = { quantity: 'length', least: '1 mm', most: '3 m' } as const
const reach = { quantity: 'length', least: '-3 m', most: '3 m' } as const
const setBack = { quantity: 'length', least: '0 mm', most: '1 m' } as const
const turn = { quantity: 'angle', least: '-360 deg', most: '360 deg' } as const
const share = { quantity: 'fraction', least: 0, most: 1 } as const
const modulus = { quantity: 'pressure', least: '1 MPa', most: '2000 GPa' } as const
const strength = { quantity: 'pressure', least: '10 kPa', most: '20 GPa' } as const
const density = { quantity: 'density', least: '1 kg/m3', most: '25000 kg/m3' } as const
const poisson = { quantity: 'number', least: -0.99, most: 2 } as const
const warmth = { quantity: 'temperature', least: '-100 degC', most: '1000 degC' } as const

export const fields = {
  'tube.outerDiameter': { label: 'tube outer diameter', quantity: 'length', least: '15 mm', most: '2 m' },
  'tube.aftDiameter': {
    label: "tube outer diameter at the root's aft end",
    quantity: 'length',
    least: '10 mm',
    most: '2 m',
  },
  'tube.ahead': { label: "can ahead of the root's leading end", ...reach },
  'tube.behind': { label: "can behind the root's trailing end", ...reach },
  'tube.wall': { label: 'tube wall', quantity: 'length', least: '0.2 mm', most: '100 mm' },

  'fins.count': { label: 'number of fins', quantity: 'count', least: 3, most: 8 },
  'fins.cant': { label: 'designed cant', quantity: 'angle', least: '-10 deg', most: '10 deg' },
  'fins.mounting.depth': { label: 'tab depth', ...span },
  'fins.mounting.forward': { label: 'start of the tab behind the root leading edge', ...setBack },
  'fins.mounting.aft': { label: 'end of the tab ahead of the root trailing edge', ...setBack },
  'fins.outline.root': { label: 'root chord', quantity: 'length', least: '10 mm', most: '3 m' },
  'fins.outline.tip': { label: 'tip chord', quantity: 'length', least: '0 mm', most: '3 m' },
  'fins.outline.span': { label: 'span', quantity: 'length', least: '5 mm', most: '3 m' },
  'fins.outline.tipOffset': { label: 'tip leading edge aft of the root leading edge', ...reach },
  'fins.outline.points[][0]': { label: 'outline point, aft', ...reach },
  'fins.outline.points[][1]': { label: 'outline point, outboard', ...reach },
  'fins.core.thickness': { label: 'core thickness', quantity: 'length', least: '0.2 mm', most: '60 mm' },
  'fins.core.grain': { label: 'grain direction of the core', ...turn },
  'fins.edges.leading.width': { label: 'leading edge width', quantity: 'length', least: '0.1 mm', most: '1 m' },
  'fins.edges.leading.land': { label: 'leading edge land', quantity: 'length', least: '0.05 mm', most: '60 mm' },
  'fins.edges.tip.width': { label: 'tip edge width', quantity: 'length', least: '0.1 mm', most: '1 m' },
  'fins.edges.tip.land': { label: 'tip edge land', quantity: 'length', least: '0.05 mm', most: '60 mm' },
  'fins.edges.trailing.width': { label: 'trailing edge width', quantity: 'length', least: '0.1 mm', most: '1 m' },
  'fins.edges.trailing.land': { label: 'trailing edge land', quantity: 'length', least: '0.05 mm', most: '60 mm' },
  'fins.fillet.radius': { label: 'fillet radius', quantity: 'length', least: '1 mm', most: '300 mm' },
  'fins.fillet.radiusAft': {
    label: "fillet radius at the root's aft end",
    quantity: 'length',
    least: '1 mm',
    most: '300 mm',
  },
  'fins.fillet.runOut.forward': { label: 'run-out of the fillet ahead of the root', ...setBack },
  'fins.fillet.runOut.aft': { label: 'run-out of the fillet behind the root', ...setBack },
  'fins.fillet.waste': { label: 'fillet waste', ...share, most: 2 },
  'fins.joint.bondLine': { label: "adhesive under the core's end", quantity: 'length', least: '0.05 mm', most: '3 mm' },
  'fins.joint.knockDown': {
    label: 'lap shear of the data sheet over what may be used',
    quantity: 'number',
    least: 1,
    most: 20,
  },
  'fins.joint.opening': {
    label: 'tension across the skin that may be used',
    quantity: 'pressure',
    least: '0.1 MPa',
    most: '100 MPa',
  },

  'plies[].angle': { label: 'ply angle', ...turn },
  'plies[].stepBack.leading': { label: 'step back from the leading edge', ...setBack },
  'plies[].stepBack.trailing': { label: 'step back from the trailing edge', ...setBack },
  'plies[].stepBack.chord': { label: 'step back from the leading and trailing edges', ...setBack },
  'plies[].stepBack.tip': { label: 'step back from the tip', ...setBack },
  'plies[].stepBack.bodyForward': { label: "step back from the lay-up's forward end on the body", ...setBack },
  'plies[].stepBack.bodyAft': { label: "step back from the lay-up's aft end on the body", ...setBack },
  'plies[].stepBack.body': { label: "step back from the lay-up's ends on the body", ...setBack },
  'plies[].overhang.edges': { label: "overhang at the fin's edges", ...setBack, most: '200 mm' },
  'plies[].overhang.bodyEnds': { label: 'overhang at the ends on the body', ...setBack, most: '200 mm' },
  'plies[].onBody': { label: "patch on the body from the fillet's foot", ...setBack },
  'plies[].wrap': { label: 'wrap on to the other face', ...setBack, most: '200 mm' },

  'layup.overhang.edges': { label: "overhang at the fin's edges", ...setBack, most: '200 mm' },
  'layup.overhang.bodyEnds': { label: 'overhang at the ends on the body', ...setBack, most: '200 mm' },
  'layup.overrun.forward': { label: 'lay-up ahead of the root', ...setBack },
  'layup.overrun.aft': { label: 'lay-up aft of the root', ...setBack },
  'layup.resinPerCloth': { label: 'resin to dry cloth, by mass', quantity: 'proportion', least: 0.2, most: 5 },
  'layup.voids': { label: 'void content', ...share, most: 0.2 },
  'layup.biasShear': {
    label: 'shear allowed for when a 45 deg ply is handled',
    quantity: 'angle',
    least: '0 deg',
    most: '20 deg',
  },
  'layup.stepPerThickness': { label: 'least step, in ply thicknesses', quantity: 'number', least: 0, most: 500 },
  'layup.losses.peelPly': {
    label: 'resin taken up by the peel ply',
    quantity: 'arealMass',
    least: '0 g/m2',
    most: '1000 g/m2',
  },
  'layup.losses.primer': {
    label: 'resin put down as primer',
    quantity: 'arealMass',
    least: '0 g/m2',
    most: '1000 g/m2',
  },
  'layup.losses.cup': { label: 'resin left in cup and brush, a batch', quantity: 'mass', least: '0 g', most: '500 g' },

  'resin.ratio.value': { label: 'resin to hardener', quantity: 'ratio', least: 0.2, most: 50 },
  'resin.tolerance': { label: 'allowed error of the mix ratio', ...share, least: 0.001, most: 0.2 },

  'shop.temperature': { label: 'shop temperature', quantity: 'temperature', least: '-10 degC', most: '50 degC' },
  'shop.humidity': { label: 'relative humidity in the shop', ...share },
  'shop.setUp': { label: 'time from mixing to the first ply', quantity: 'time', least: '0 min', most: '4 h' },
  'shop.perPly': { label: 'time for one ply', quantity: 'time', least: '10 s', most: '4 h' },
  'shop.scaleResolution': { label: 'resolution of the scale', quantity: 'mass', least: '0.1 mg', most: '100 g' },
  'shop.cupLimit': { label: 'most resin mixed in one cup', quantity: 'mass', least: '5 g', most: '10 kg' },
  'shop.workingShare': { label: 'share of the working time that may be used', ...share, least: 0.05 },

  'stock.rolls[].width': { label: 'roll width', quantity: 'length', least: '10 mm', most: '5 m' },
  'stock.rolls[].length': { label: 'length left on the roll', quantity: 'length', least: '0 m', most: '1 km' },
  'stock.rolls[].selvedge': { label: 'unusable at each long edge', quantity: 'length', least: '0 mm', most: '200 mm' },
  'stock.rolls[].defects[][][0]': {
    label: 'corner of a flaw, along the roll from the cut end',
    quantity: 'length',
    least: '0 mm',
    most: '1 km',
  },
  'stock.rolls[].defects[][][1]': {
    label: 'corner of a flaw, across from the left selvedge, cut end on top and outer face up',
    quantity: 'length',
    least: '0 mm',
    most: '5 m',
  },
  'stock.layout[].x': {
    label: 'place of a kept piece along the roll',
    quantity: 'length',
    least: '-100 m',
    most: '1100 m',
  },
  'stock.layout[].y': {
    label: 'place of a kept piece across the roll',
    quantity: 'length',
    least: '-100 m',
    most: '100 m',
  },
  'stock.layout[].turn': {
    label: 'turn of a kept piece on the roll',
    quantity: 'angle',
    least: '-360 deg',
    most: '360 deg',
  },
  'stock.resin': { label: 'resin in stock', quantity: 'mass', least: '0 g', most: '1000 kg' },
  'stock.hardener': { label: 'hardener in stock', quantity: 'mass', least: '0 g', most: '1000 kg' },
  'stock.usable': { label: 'share of the stock that can be got out', ...share, least: 0.05 },
  'stock.reserve': {
    label: 'mixed resin put aside for practice panels',
    quantity: 'mass',
    least: '0 g',
    most: '100 kg',
  },

  'flight.thrust[][0]': { label: 'time', quantity: 'time', least: '0 s', most: '1000 s' },
  'flight.thrust[][1]': { label: 'thrust', quantity: 'force', least: '0 N', most: '1000 kN' },
  'flight.liftOffMass': { label: 'lift-off mass', quantity: 'mass', least: '50 g', most: '5000 kg' },
  'flight.propellantMass': { label: 'propellant mass', quantity: 'mass', least: '1 g', most: '4000 kg' },
  'flight.diameter': {
    label: 'reference diameter of the drag coefficient',
    quantity: 'length',
    least: '10 mm',
    most: '2 m',
  },
  'flight.referenceArea': {
    label: 'reference area of the drag coefficient',
    quantity: 'area',
    least: '1 cm2',
    most: '4 m2',
  },
  'flight.drag[][0]': { label: 'Mach number', quantity: 'number', least: 0, most: 25 },
  'flight.drag[][1]': { label: 'drag coefficient', quantity: 'number', least: 0.01, most: 20 },
  'flight.siteAltitude': { label: 'altitude of the launch site', quantity: 'length', least: '-450 m', most: '6 km' },
  'flight.temperatureOffset': {
    label: 'air temperature above the standard atmosphere',
    quantity: 'temperatureInterval',
    least: '-60 degC',
    most: '60 degC',
  },
  'flight.history[][0]': { label: 'time', quantity: 'time', least: '-100 s', most: '10 h' },
  'flight.history[][1]': {
    label: 'altitude above mean sea level',
    quantity: 'length',
    least: '-450 m',
    most: '200 km',
  },
  'flight.history[][2]': { label: 'speed', quantity: 'speed', least: '-5000 m/s', most: '5000 m/s' },
  'flight.states[].mach': { label: 'Mach number', quantity: 'number', least: 0.01, most: 25 },
  'flight.states[].density': { label: 'air density', quantity: 'density', least: '1e-6 kg/m3', most: '100 kg/m3' },
  'flight.states[].soundSpeed': { label: 'speed of sound', quantity: 'speed', least: '50 m/s', most: '1000 m/s' },
  'flight.states[].temperature': {
    label: 'air temperature',
    quantity: 'temperature',
    least: '-200 degC',
    most: '500 degC',
  },

  'loads.angleOfAttack': { label: 'angle of attack', quantity: 'angle', least: '-30 deg', most: '30 deg' },
  'loads.wind.steady': { label: 'wind over the rail', quantity: 'speed', least: '0 m/s', most: '50 m/s' },
  'loads.wind.gust': { label: 'gust across the flight', quantity: 'speed', least: '0 m/s', most: '50 m/s' },
  'loads.wind.railLength': { label: 'guided length of the rail', quantity: 'length', least: '0.1 m', most: '50 m' },
  'loads.tipLoad': { label: 'point load at the tip', quantity: 'force', least: '0 N', most: '100 kN' },
  'loads.structuralDamping': { label: 'structural damping', quantity: 'number', least: 0, most: 0.2 },
  'loads.speedRatio': { label: 'flutter speed asked for over flight speed', quantity: 'number', least: 1, most: 5 },

  'printing.checkSquare.across': {
    label: 'check square, across the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.checkSquare.along': {
    label: 'check square, along the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.rollSquare.across': {
    label: 'check square of the roll print, across the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.rollSquare.along': {
    label: 'check square of the roll print, along the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.cutterSquare.across': {
    label: 'check square of the cutter or plotter, across the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.cutterSquare.along': {
    label: 'check square of the cutter or plotter, along the feed',
    quantity: 'length',
    least: '50 mm',
    most: '200 mm',
  },
  'printing.paperThickness': { label: 'paper thickness', quantity: 'length', least: '0 mm', most: '3 mm' },

  'printing.sections[].from[0]': {
    label: 'beginning of a section, aft of the root',
    quantity: 'length',
    least: '-10 m',
    most: '10 m',
  },
  'printing.sections[].from[1]': {
    label: 'beginning of a section, across from the centre line',
    quantity: 'length',
    least: '-10 m',
    most: '10 m',
  },
  'printing.sections[].to[0]': {
    label: 'end of a section, aft of the root',
    quantity: 'length',
    least: '-10 m',
    most: '10 m',
  },
  'printing.sections[].to[1]': {
    label: 'end of a section, across from the centre line',
    quantity: 'length',
    least: '-10 m',
    most: '10 m',
  },

  'study.outline[][0]': { label: 'outline point, x', quantity: 'length', least: '-100 m', most: '100 m' },
  'study.outline[][1]': { label: 'outline point, y', quantity: 'length', least: '-100 m', most: '100 m' },
  'study.plate.axis': { label: "material's axis 1 from x", ...turn },
  'study.plate.thickness.value': { label: 'thickness', quantity: 'length', least: '1 um', most: '10 m' },
  'study.plate.thickness.stations[][0]': { label: 'share of the chord', ...share },
  'study.plate.thickness.stations[][1]': { label: 'thickness', quantity: 'length', least: '0 mm', most: '10 m' },
  'study.plate.thickness.shares[][0]': { label: 'share of the chord', ...share },
  'study.plate.thickness.shares[][1]': { label: 'thickness as a share of the chord', ...share },
  'study.plate.plies[].angle': { label: 'ply angle', ...turn },
  'study.plate.plies[].thickness': { label: 'ply thickness', quantity: 'length', least: '1 um', most: '1 m' },
  'study.air.states[].mach': { label: 'Mach number', quantity: 'number', least: 0, most: 25 },
  'study.air.states[].density': { label: 'air density', quantity: 'density', least: '1e-6 kg/m3', most: '2000 kg/m3' },
  'study.air.states[].soundSpeed': { label: 'speed of sound', quantity: 'speed', least: '1 m/s', most: '10000 m/s' },
  'study.air.states[].temperature': {
    label: 'air temperature',
    quantity: 'temperature',
    least: '-200 degC',
    most: '500 degC',
  },
  'study.air.flowDirection': { label: 'flow direction from x', ...turn },
  'study.modes': { label: 'number of modes', quantity: 'count', least: 1, most: 40 },
  'study.imposedFrequencies[]': {
    label: 'imposed frequency',
    quantity: 'frequency',
    least: '0.0001 Hz',
    most: '1000000 Hz',
  },
  'study.angleOfAttack': { label: 'angle of attack', quantity: 'angle', least: '-45 deg', most: '45 deg' },
  'study.structuralDamping': { label: 'structural damping', quantity: 'number', least: 0, most: 0.2 },
  'study.pointLoad.at[0]': { label: 'point load, x', quantity: 'length', least: '-100 m', most: '100 m' },
  'study.pointLoad.at[1]': { label: 'point load, y', quantity: 'length', least: '-100 m', most: '100 m' },
  'study.pointLoad.force': { label: 'point load', quantity: 'force', least: '-1000 kN', most: '1000 kN' },

  'material.arealMass': { label: 'areal mass, dry', quantity: 'arealMass', least: '5 g/m2', most: '5000 g/m2' },
  'material.warpShare': { label: 'share of the fibre in the warp', ...share },
  'material.maximumShear': {
    label: 'shear the weave takes before it wrinkles',
    quantity: 'angle',
    least: '1 deg',
    most: '70 deg',
  },
  'material.crimpFactor': { label: 'stiffness left after crimp', ...share, least: 0.1 },
  'material.density': { label: 'density', ...density },
  'material.E': { label: 'modulus E', ...modulus },
  'material.G': { label: 'shear modulus G', ...modulus },
  'material.nu': { label: "Poisson's ratio", quantity: 'number', least: -0.99, most: 0.499 },
  'material.E1': { label: 'modulus E1', ...modulus },
  'material.E2': { label: 'modulus E2', ...modulus },
  'material.G12': { label: 'shear modulus G12', ...modulus },
  'material.nu12': { label: "Poisson's ratio nu12", ...poisson },
  'material.G13': { label: 'shear modulus G13', ...modulus },
  'material.G23': { label: 'shear modulus G23', ...modulus },
  'material.strengths.Xt': { label: 'tensile strength along', ...strength },
  'material.strengths.Xc': { label: 'compressive strength along', ...strength },
  'material.strengths.Yt': { label: 'tensile strength across', ...strength },
  'material.strengths.Yc': { label: 'compressive strength across', ...strength },
  'material.strengths.S': { label: 'shear strength', ...strength },
  'material.strengths.fibreFraction': { label: 'fibre fraction the strengths were measured at', ...share, least: 0.05 },
  'material.strength': { label: 'tensile strength', ...strength },
  'material.lapShear': { label: 'lap shear strength of the data sheet', ...strength },
  'material.resinDensity': {
    label: 'density of the resin',
    quantity: 'density',
    least: '500 kg/m3',
    most: '3000 kg/m3',
  },
  'material.hardenerDensity': {
    label: 'density of the hardener',
    quantity: 'density',
    least: '500 kg/m3',
    most: '3000 kg/m3',
  },
  'material.workingTime': { label: 'working time', quantity: 'time', least: '1 min', most: '100 h' },
  'material.workingTemperature': { label: 'temperature of the working time', ...warmth },
  'material.workingMass': { label: 'mass of the working time', quantity: 'mass', least: '1 g', most: '100 kg' },
  'material.activationEnergy': {
    label: 'activation energy of cure',
    quantity: 'molarEnergy',
    least: '10 kJ/mol',
    most: '200 kJ/mol',
  },
  'material.minimumTemperature': { label: 'lowest shop temperature of the data sheet', ...warmth },
  'material.glassTransition': { label: 'glass transition', ...warmth },
  'material.glassTransitionPostCured': { label: 'glass transition after post-cure', ...warmth },
} as const satisfies Readonly<Record<string, Field>>

export type FieldKey = keyof typeof fields
