/** The shape of a study: a bare plate, its supports, and the air it stands in. Textbook and wind-tunnel cases. */
import { z } from 'zod'
import { heading } from './heading.ts'
import { materials } from './materials.ts'
import { num, share, text } from './values.ts'

/** A catalogue's name, or the elastic constants: isotropic with E and nu or G, or orthotropic. */
const plateMaterial = z.union([
  z.string().min(1).max(60),
  z.strictObject({
    name: z.string().min(1).max(120).optional(),
    density: text('material.density'),
    E: text('material.E').optional(),
    nu: num('material.nu').optional(),
    G: text('material.G').optional(),
    E1: text('material.E1').optional(),
    E2: text('material.E2').optional(),
    G12: text('material.G12').optional(),
    nu12: num('material.nu12').optional(),
    G13: text('material.G13').optional(),
    G23: text('material.G23').optional(),
    strengths: z
      .strictObject({
        Xt: text('material.strengths.Xt'),
        Xc: text('material.strengths.Xc'),
        Yt: text('material.strengths.Yt'),
        Yc: text('material.strengths.Yc'),
        S: text('material.strengths.S'),
      })
      .optional(),
  }),
])

const thickness = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('constant'), value: text('study.plate.thickness.value') }),
  z.strictObject({
    kind: z.literal('absolute'),
    stations: z
      .array(z.tuple([share('study.plate.thickness.stations[][0]'), text('study.plate.thickness.stations[][1]')]))
      .min(2)
      .max(200),
  }),
  z.strictObject({
    kind: z.literal('of chord'),
    shares: z
      .array(z.tuple([share('study.plate.thickness.shares[][0]'), share('study.plate.thickness.shares[][1]')]))
      .min(2)
      .max(200),
  }),
])

const plate = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('sheet'),
    material: plateMaterial,
    axis: text('study.plate.axis').optional(),
    thickness,
  }),
  z.strictObject({
    kind: z.literal('laminate'),
    plies: z
      .array(
        z.strictObject({
          material: plateMaterial,
          angle: text('study.plate.plies[].angle'),
          thickness: text('study.plate.plies[].thickness'),
        }),
      )
      .min(1)
      .max(200),
  }),
])

const air = z.strictObject({
  states: z
    .array(
      z.strictObject({
        mach: num('study.air.states[].mach'),
        density: text('study.air.states[].density'),
        soundSpeed: text('study.air.states[].soundSpeed').optional(),
        temperature: text('study.air.states[].temperature').optional(),
      }),
    )
    .min(1)
    .max(200),
  flowDirection: text('study.air.flowDirection').optional(),
  pistonOrder: z.literal([1, 2]).optional(),
  aerodynamicDamping: z.boolean().optional(),
  faces: z.literal([1, 2]).optional(),
})

const study = z.strictObject({
  outline: z
    .array(z.tuple([text('study.outline[][0]'), text('study.outline[][1]')]))
    .min(3)
    .max(500),
  supports: z.array(z.enum(['free', 'simple', 'clamped'])),
  plate,
  air: air.optional(),
  modes: num('study.modes').optional(),
  imposedFrequencies: z.array(text('study.imposedFrequencies[]')).min(1).max(40).optional(),
  angleOfAttack: text('study.angleOfAttack').optional(),
  structuralDamping: num('study.structuralDamping').optional(),
  pointLoad: z
    .strictObject({
      at: z.tuple([text('study.pointLoad.at[0]'), text('study.pointLoad.at[1]')]),
      force: text('study.pointLoad.force'),
    })
    .optional(),
})

export const studyPlan = z.strictObject({ ...heading, study, materials: materials.optional() })

export type StudyPlan = z.infer<typeof studyPlan>
