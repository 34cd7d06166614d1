/** What a plan may state of materials. */
import { z } from 'zod'
import { num, share, text } from './values.ts'

/** Of a material, a roll. */
export const id = z.string().min(1).max(60)

/** Properties of the resin system that the builder's data sheet states. */
export const dataSheet = {
  resinDensity: text('material.resinDensity').optional(),
  hardenerDensity: text('material.hardenerDensity').optional(),
  density: text('material.density').optional(),
  E: text('material.E').optional(),
  nu: num('material.nu').optional(),
  strength: text('material.strength').optional(),
  workingTime: text('material.workingTime').optional(),
  workingTemperature: text('material.workingTemperature').optional(),
  workingMass: text('material.workingMass').optional(),
  activationEnergy: text('material.activationEnergy').optional(),
  minimumTemperature: text('material.minimumTemperature').optional(),
  glassTransition: text('material.glassTransition').optional(),
  glassTransitionPostCured: text('material.glassTransitionPostCured').optional(),
}

const strengths = z.strictObject({
  Xt: text('material.strengths.Xt').optional(),
  Xc: text('material.strengths.Xc').optional(),
  Yt: text('material.strengths.Yt').optional(),
  Yc: text('material.strengths.Yc').optional(),
  S: text('material.strengths.S').optional(),
  fibreFraction: share('material.strengths.fibreFraction').optional(),
})

/** What the plan states of a material, in place of the catalogue's; or a material of its own, like one of the catalogue. */
const material = z.strictObject({
  like: id.optional(),
  name: z.string().min(1).max(120).optional(),
  arealMass: text('material.arealMass').optional(),
  warpShare: share('material.warpShare').optional(),
  crimpFactor: share('material.crimpFactor').optional(),
  maximumShear: text('material.maximumShear').optional(),
  reversible: z.boolean().optional(),
  ...dataSheet,
  G: text('material.G').optional(),
  E1: text('material.E1').optional(),
  E2: text('material.E2').optional(),
  G12: text('material.G12').optional(),
  nu12: num('material.nu12').optional(),
  G13: text('material.G13').optional(),
  G23: text('material.G23').optional(),
  lapShear: text('material.lapShear').optional(),
  strengths: strengths.optional(),
})

export const materials = z.record(id, material)
