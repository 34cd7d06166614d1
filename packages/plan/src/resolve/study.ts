/** A study becomes the design of a bare plate. */
import type { ChordwiseThickness, StudyDesign } from '@finwright/core/assess/design.ts'
import { signedArea } from '@finwright/core/geometry/polygon.ts'
import type { Property, SheetMaterial, Strengths } from '@finwright/core/material/material.ts'
import type { FieldKey } from '../schema/fields.data.ts'
import { siValue } from '../schema/judge.ts'
import type { StudyPlan } from '../schema/study.ts'
import { resolveStates } from './flight.ts'
import { allKnown, type Loose, listOf, type Report } from './loose.ts'
import { type Find, materialsOf, stated } from './materials.ts'

type Study = Loose<StudyPlan['study']>
type TypedPlate = NonNullable<Study['plate']>
type TypedMaterial = Extract<TypedPlate, { kind: 'sheet' | undefined }>['material']

export function resolveStudy(plan: Loose<StudyPlan>, report: Report): Loose<StudyDesign> {
  const find = materialsOf(plan.materials, report)
  const study = plan.study
  const { points, supports } = counterClockwise(study)
  return {
    kind: 'study',
    name: plan.name,
    note: plan.note,
    outline: points,
    supports,
    plate: resolvePlate(study?.plate, find, report),
    air: resolveAir(study, report),
    modeCount: siValue('study.modes', study?.modes),
    imposedFrequencies:
      study?.imposedFrequencies === undefined
        ? null
        : listOf(study.imposedFrequencies)?.map((f) => siValue('study.imposedFrequencies[]', f)),
    angleOfAttack: study?.angleOfAttack === undefined ? null : siValue('study.angleOfAttack', study.angleOfAttack),
    structuralDamping: siValue('study.structuralDamping', study?.structuralDamping),
    pointLoad: resolveLoad(study),
  }
}

/** Points as listed; a clockwise outline is turned round together with its supports. */
function counterClockwise(study: Study | undefined): {
  points: StudyDesign['outline'] | undefined
  supports: Loose<StudyDesign['supports']> | undefined
} {
  const points = allKnown(
    listOf(study?.outline)?.map((point) => {
      const x = siValue('study.outline[][0]', point?.[0])
      const y = siValue('study.outline[][1]', point?.[1])
      return x === undefined || y === undefined ? undefined : ([x, y] as const)
    }),
  )
  const supports = listOf(study?.supports)
  if (points === undefined || signedArea(points) >= 0) return { points, supports }
  const [first, ...rest] = points
  return { points: [first!, ...rest.reverse()], supports: supports === undefined ? undefined : [...supports].reverse() }
}

function resolvePlate(
  plate: TypedPlate | undefined,
  find: Find,
  report: Report,
): Loose<StudyDesign['plate']> | undefined {
  if (plate?.kind === 'sheet') {
    return {
      kind: 'sheet',
      material: resolveMaterial(plate.material, 'study.plate.material', find, report),
      axis: siValue('study.plate.axis', plate.axis),
      thickness: resolveThickness(plate.thickness),
    }
  }
  if (plate?.kind !== 'laminate') return undefined
  const plies = listOf(plate.plies)?.map((ply, i) => ({
    material: resolveMaterial(ply?.material, `study.plate.plies[${i}].material`, find, report),
    angle: siValue('study.plate.plies[].angle', ply?.angle),
    thickness: siValue('study.plate.plies[].thickness', ply?.thickness),
  }))
  return { kind: 'laminate', plies }
}

type TypedThickness = Extract<TypedPlate, { kind: 'sheet' | undefined }>['thickness']

function resolveThickness(thickness: TypedThickness): Loose<ChordwiseThickness> | undefined {
  switch (thickness?.kind) {
    case 'constant': {
      const value = siValue('study.plate.thickness.value', thickness.value)
      return { kind: 'constant', fraction: [0, 1], thickness: [value, value] }
    }
    case 'absolute':
      return {
        kind: 'absolute',
        fraction: listOf(thickness.stations)?.map((row) => siValue('study.plate.thickness.stations[][0]', row?.[0])),
        thickness: listOf(thickness.stations)?.map((row) => siValue('study.plate.thickness.stations[][1]', row?.[1])),
      }
    case 'of chord':
      return {
        kind: 'of chord',
        fraction: listOf(thickness.shares)?.map((row) => siValue('study.plate.thickness.shares[][0]', row?.[0])),
        thickness: listOf(thickness.shares)?.map((row) => siValue('study.plate.thickness.shares[][1]', row?.[1])),
      }
    default:
      return undefined
  }
}

function resolveMaterial(written: TypedMaterial, path: string, find: Find, report: Report): SheetMaterial | undefined {
  if (typeof written === 'string') return find('sheet', written, path)
  if (typeof written !== 'object') return undefined
  const isotropic = ['E', 'nu', 'G'].filter((key) => Object.hasOwn(written, key))
  const orthotropic = ['E1', 'E2', 'G12', 'nu12', 'G13', 'G23'].filter((key) => Object.hasOwn(written, key))
  const needed = ['E1', 'E2', 'G12', 'nu12']
  const fitsIsotropic = orthotropic.length === 0 && isotropic.includes('E') && isotropic.length === 2
  const fitsOrthotropic = isotropic.length === 0 && needed.every((key) => orthotropic.includes(key))
  if (!fitsIsotropic && !fitsOrthotropic) {
    report({
      code: 'material/constants',
      path,
      value: [...isotropic, ...orthotropic].join(', '),
      message: `The elastic constants given are: ${[...isotropic, ...orthotropic].join(', ') || 'none'}; they must be E with nu, E with G, or E1, E2, G12 and nu12 (G13 and G23 if known).`,
      hint: 'Give one of these sets and no more.',
    })
    return undefined
  }
  return fitsIsotropic ? isotropicSheet(written) : orthotropicSheet(written)
}

type Constants = Exclude<TypedMaterial, string | undefined>
const constant = (key: FieldKey, written: unknown): number | undefined => siValue(key, written)

/** G = E / 2 (1 + nu). */
function isotropicSheet(written: Constants): SheetMaterial | undefined {
  const density = constant('material.density', written.density)
  const E = constant('material.E', written.E)
  const givenG = constant('material.G', written.G)
  const givenNu = constant('material.nu', written.nu)
  if (density === undefined || E === undefined) return undefined
  const G = givenG ?? (givenNu === undefined ? undefined : E / (2 * (1 + givenNu)))
  const nu = givenNu ?? (givenG === undefined ? undefined : E / (2 * givenG) - 1)
  if (G === undefined || nu === undefined) return undefined
  const shear: Property =
    givenG === undefined ? { ...stated(G), source: 'E / 2 (1 + nu) of the constants stated in the plan' } : stated(G)
  const ratio: Property =
    givenNu === undefined ? { ...stated(nu), source: 'E / 2 G - 1 of the constants stated in the plan' } : stated(nu)
  return {
    ...named(written),
    density: stated(density),
    E1: stated(E),
    E2: stated(E),
    G12: shear,
    nu12: ratio,
    G13: shear,
    G23: shear,
    strengths: strengthsOf(written),
  }
}

/** Transverse shear moduli that are not stated are taken as G12. */
function orthotropicSheet(written: Constants): SheetMaterial | undefined {
  const density = constant('material.density', written.density)
  const E1 = constant('material.E1', written.E1)
  const E2 = constant('material.E2', written.E2)
  const G12 = constant('material.G12', written.G12)
  const nu12 = constant('material.nu12', written.nu12)
  if (density === undefined || E1 === undefined || E2 === undefined || G12 === undefined || nu12 === undefined)
    return undefined
  const asG12: Property = { value: G12, source: 'not stated: taken as G12', confidence: 'estimate' }
  const G13 = constant('material.G13', written.G13)
  const G23 = constant('material.G23', written.G23)
  return {
    ...named(written),
    density: stated(density),
    E1: stated(E1),
    E2: stated(E2),
    G12: stated(G12),
    nu12: stated(nu12),
    G13: G13 === undefined ? asG12 : stated(G13),
    G23: G23 === undefined ? asG12 : stated(G23),
    strengths: strengthsOf(written),
  }
}

const named = ({ name }: Constants) => ({ id: 'stated', name: name ?? 'Material stated in the plan' })

/** Unstated strengths are without limit, and their source says so: strength is then not judged. */
function strengthsOf({ strengths }: Constants): Strengths {
  const one = (key: 'Xt' | 'Xc' | 'Yt' | 'Yc' | 'S'): Property => {
    const value = siValue(`material.strengths.${key}`, strengths?.[key])
    return value === undefined
      ? { value: Number.POSITIVE_INFINITY, source: 'not stated in the plan', confidence: 'plan' }
      : stated(value)
  }
  return { Xt: one('Xt'), Xc: one('Xc'), Yt: one('Yt'), Yc: one('Yc'), S: one('S') }
}

function resolveAir(study: Study | undefined, report: Report): Loose<StudyDesign['air']> | undefined {
  const air = study?.air
  if (air === undefined) return study !== undefined && Object.hasOwn(study, 'air') ? undefined : null
  return {
    states: resolveStates(air.states, 'study.air.states', report),
    flowDirection: siValue('study.air.flowDirection', air.flowDirection),
    pistonOrder: air.pistonOrder,
    aerodynamicDamping: air.aerodynamicDamping,
    faces: air.faces,
  }
}

function resolveLoad(study: Study | undefined): Loose<StudyDesign['pointLoad']> | undefined {
  const load = study?.pointLoad
  if (load === undefined) return null
  const at = [siValue('study.pointLoad.at[0]', load.at?.[0]), siValue('study.pointLoad.at[1]', load.at?.[1])] as const
  return { at, force: siValue('study.pointLoad.force', load.force) }
}
