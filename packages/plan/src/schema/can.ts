/** The shape of a plan of a fin can, as a builder writes it: what may be left out is optional here and filled in later. */
import { z } from 'zod'
import { heading } from './heading.ts'
import { dataSheet, id, materials } from './materials.ts'
import { num, proportion, share, text } from './values.ts'

/** Most rows of a flown history in the plan itself; a longer one stays beside it as a file. Common practice, no source. */
export const mostRowsInPlan = 500

const csv = z.string().min(1).max(200).meta({ description: 'name of a CSV file beside the plan' })

const tube = z.strictObject({
  outerDiameter: text('tube.outerDiameter'),
  aftDiameter: text('tube.aftDiameter').optional(),
  ahead: text('tube.ahead').optional(),
  behind: text('tube.behind').optional(),
  wall: text('tube.wall'),
  material: id,
  backing: z.enum(['none', 'coupler', 'motor case', 'rings']).optional(),
})

const mounting = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('surface') }),
  z.strictObject({
    kind: z.literal('tabbed'),
    depth: text('fins.mounting.depth'),
    forward: text('fins.mounting.forward').optional(),
    aft: text('fins.mounting.aft').optional(),
  }),
])

const edgeName = z.enum(['leading', 'tip', 'trailing'])

const outline = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('trapezoid'),
    root: text('fins.outline.root'),
    tip: text('fins.outline.tip'),
    span: text('fins.outline.span'),
    tipOffset: text('fins.outline.tipOffset'),
  }),
  z.strictObject({
    kind: z.literal('points'),
    points: z
      .array(z.tuple([text('fins.outline.points[][0]'), text('fins.outline.points[][1]')]))
      .min(3)
      .max(500),
    edges: z.array(edgeName).optional(),
  }),
])

type Edge = 'leading' | 'tip' | 'trailing'

const edge = (name: Edge) =>
  z.discriminatedUnion('shape', [
    z.strictObject({ shape: z.literal('square') }),
    z.strictObject({
      shape: z.literal('bevel'),
      width: text(`fins.edges.${name}.width`),
      land: text(`fins.edges.${name}.land`),
    }),
    z.strictObject({
      shape: z.literal('round'),
      width: text(`fins.edges.${name}.width`).optional(),
      land: text(`fins.edges.${name}.land`).optional(),
    }),
  ])

const fins = z.strictObject({
  count: num('fins.count'),
  mounting: mounting.optional(),
  cant: text('fins.cant').optional(),
  outline,
  core: z.strictObject({
    material: id,
    thickness: text('fins.core.thickness'),
    grain: text('fins.core.grain').optional(),
  }),
  edges: z
    .strictObject({
      leading: edge('leading').optional(),
      tip: edge('tip').optional(),
      trailing: edge('trailing').optional(),
    })
    .optional(),
  fillet: z.strictObject({
    radius: text('fins.fillet.radius'),
    radiusAft: text('fins.fillet.radiusAft').optional(),
    runOut: z
      .strictObject({
        forward: text('fins.fillet.runOut.forward').optional(),
        aft: text('fins.fillet.runOut.aft').optional(),
      })
      .optional(),
    adhesive: id.optional(),
    waste: share('fins.fillet.waste').optional(),
  }),
  joint: z
    .strictObject({
      bondLine: text('fins.joint.bondLine').optional(),
      knockDown: num('fins.joint.knockDown').optional(),
      opening: text('fins.joint.opening').optional(),
    })
    .optional(),
})

const ply = z.strictObject({
  cloth: id,
  angle: text('plies[].angle').optional(),
  role: z.enum(['structural', 'surface', 'peel', 'film']).optional(),
  cover: z.enum(['bay', 'next', 'previous']).optional(),
  onBody: text('plies[].onBody').optional(),
  wrap: text('plies[].wrap').optional(),
  stepBack: z
    .strictObject({
      tip: text('plies[].stepBack.tip').optional(),
      chord: text('plies[].stepBack.chord').optional(),
      leading: text('plies[].stepBack.leading').optional(),
      trailing: text('plies[].stepBack.trailing').optional(),
      body: text('plies[].stepBack.body').optional(),
      bodyForward: text('plies[].stepBack.bodyForward').optional(),
      bodyAft: text('plies[].stepBack.bodyAft').optional(),
    })
    .optional(),
  overhang: z
    .strictObject({
      edges: text('plies[].overhang.edges').optional(),
      bodyEnds: text('plies[].overhang.bodyEnds').optional(),
    })
    .optional(),
})

const layup = z.strictObject({
  overhang: z
    .strictObject({
      edges: text('layup.overhang.edges').optional(),
      bodyEnds: text('layup.overhang.bodyEnds').optional(),
    })
    .optional(),
  overrun: z
    .strictObject({ forward: text('layup.overrun.forward').optional(), aft: text('layup.overrun.aft').optional() })
    .optional(),
  resinPerCloth: proportion('layup.resinPerCloth').optional(),
  voids: share('layup.voids').optional(),
  biasShear: text('layup.biasShear').optional(),
  mirrorAlternateBays: z.boolean().optional(),
  stepPerThickness: num('layup.stepPerThickness').optional(),
  losses: z
    .strictObject({
      peelPly: text('layup.losses.peelPly').optional(),
      primer: text('layup.losses.primer').optional(),
      cup: text('layup.losses.cup').optional(),
    })
    .optional(),
})

const resin = z.strictObject({
  system: id,
  ratio: z.strictObject({ by: z.enum(['mass', 'volume']), value: text('resin.ratio.value') }),
  tolerance: share('resin.tolerance').optional(),
  postCure: z.boolean().optional(),
  ...dataSheet,
})

const shop = z.strictObject({
  temperature: text('shop.temperature').optional(),
  humidity: share('shop.humidity').optional(),
  setUp: text('shop.setUp').optional(),
  perPly: text('shop.perPly').optional(),
  scaleResolution: text('shop.scaleResolution').optional(),
  cupLimit: text('shop.cupLimit').optional(),
  workingShare: share('shop.workingShare').optional(),
})

const stock = z.strictObject({
  rolls: z
    .array(
      z.strictObject({
        id: id.optional(),
        cloth: id,
        width: text('stock.rolls[].width'),
        length: text('stock.rolls[].length'),
        selvedge: text('stock.rolls[].selvedge').optional(),
        defects: z
          .array(
            z
              .array(z.tuple([text('stock.rolls[].defects[][][0]'), text('stock.rolls[].defects[][][1]')]))
              .min(2)
              .max(60),
          )
          .max(60)
          .optional(),
      }),
    )
    .max(100)
    .optional(),
  layout: z
    .array(
      z.strictObject({
        piece: id,
        roll: id,
        x: text('stock.layout[].x'),
        y: text('stock.layout[].y'),
        turn: text('stock.layout[].turn'),
      }),
    )
    .max(10_000)
    .optional(),
  resin: text('stock.resin').optional(),
  hardener: text('stock.hardener').optional(),
  usable: share('stock.usable').optional(),
  reserve: text('stock.reserve').optional(),
})

const can = z.strictObject({
  letter: z.string().regex(/^[A-Z]$/),
  purpose: z.enum(['flight', 'backup', 'practice']).optional(),
})

const flight = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('thrust'),
    thrust: z.union([csv, z.array(z.tuple([text('flight.thrust[][0]'), text('flight.thrust[][1]')])).min(2)]),
    liftOffMass: text('flight.liftOffMass'),
    propellantMass: text('flight.propellantMass'),
    diameter: text('flight.diameter').optional(),
    referenceArea: text('flight.referenceArea').optional(),
    drag: z.union([csv, z.array(z.tuple([num('flight.drag[][0]'), num('flight.drag[][1]')])).min(1)]),
    siteAltitude: text('flight.siteAltitude').optional(),
    temperatureOffset: text('flight.temperatureOffset').optional(),
  }),
  z.strictObject({
    kind: z.literal('history'),
    history: z.union([
      csv,
      z
        .array(z.tuple([text('flight.history[][0]'), text('flight.history[][1]'), text('flight.history[][2]')]))
        .min(2)
        .max(mostRowsInPlan),
    ]),
    temperatureOffset: text('flight.temperatureOffset').optional(),
  }),
  z.strictObject({
    kind: z.literal('states'),
    states: z
      .array(
        z.strictObject({
          mach: num('flight.states[].mach'),
          density: text('flight.states[].density'),
          soundSpeed: text('flight.states[].soundSpeed').optional(),
          temperature: text('flight.states[].temperature').optional(),
        }),
      )
      .min(1)
      .max(200),
  }),
])

const loads = z.strictObject({
  angleOfAttack: text('loads.angleOfAttack').optional(),
  wind: z
    .strictObject({
      steady: text('loads.wind.steady'),
      gust: text('loads.wind.gust').optional(),
      railLength: text('loads.wind.railLength').optional(),
    })
    .optional(),
  tipLoad: text('loads.tipLoad').optional(),
  structuralDamping: num('loads.structuralDamping').optional(),
  speedRatio: num('loads.speedRatio').optional(),
})

const printing = z.strictObject({
  checkSquare: z
    .strictObject({ across: text('printing.checkSquare.across'), along: text('printing.checkSquare.along') })
    .optional(),
  rollSquare: z
    .strictObject({ across: text('printing.rollSquare.across'), along: text('printing.rollSquare.along') })
    .optional(),
  cutterSquare: z
    .strictObject({ across: text('printing.cutterSquare.across'), along: text('printing.cutterSquare.along') })
    .optional(),
  paperThickness: text('printing.paperThickness').optional(),
  sections: z
    .array(
      z.strictObject({
        from: z.tuple([text('printing.sections[].from[0]'), text('printing.sections[].from[1]')]),
        to: z.tuple([text('printing.sections[].to[0]'), text('printing.sections[].to[1]')]),
      }),
    )
    .max(20)
    .optional(),
})

export const canPlan = z.strictObject({
  ...heading,
  tube,
  fins,
  plies: z.array(ply).min(1).max(60),
  layup: layup.optional(),
  resin,
  shop: shop.optional(),
  stock: stock.optional(),
  cans: z.array(can).min(1).max(26).optional(),
  flight,
  loads: loads.optional(),
  printing: printing.optional(),
  materials: materials.optional(),
})

export type CanPlan = z.infer<typeof canPlan>
