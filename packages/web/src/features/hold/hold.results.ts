/** What the page on holding shows of the assessment, in words and figures. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Figures, hertz, percent, plain, ratio } from '@finwright/sheets/layout/figures.ts'
import { governingAt } from '@finwright/sheets/sheets/hold/boundary-page.ts'
import type { NumberRow } from '../../parts/Numbers.tsx'

export function boundaryRows({ flutter }: Assessment, figures: Figures): readonly NumberRow[] {
  const { margin, screening, boundary, covers } = flutter
  const { at, speedRatio, kind, mode } = margin
  const rows: NumberRow[] = [
    {
      label: 'Envelope over flight speed, least',
      value: speedRatio === null ? 'not determined' : ratio(speedRatio),
      note: `${ratio(margin.requiredRatio)} is asked for`,
      why: 'flutter.ratio',
    },
  ]
  if (at !== null)
    rows.push({
      label: 'Where',
      value: `Mach ${ratio(at.mach)}`,
      note: `${plain(at.time_s, 1)} s after ignition, ${figures.distance(at.altitude_m)} above sea level`,
    })
  if (kind !== null && speedRatio !== null)
    rows.push({
      label: 'What goes',
      value: kind,
      note: mode === null ? '' : `mostly ${mode.name}, ${percent(mode.share)} of the motion`,
    })
  const governing = at === null ? null : governingAt(boundary, at.mach)
  if (governing?.envelope != null)
    rows.push({
      label: 'What it rests on',
      value: `factor ${ratio(governing.envelope.factor)}`,
      note: `on the speed of ${governing.envelope.method}; the boundary’s point at Mach ${ratio(governing.mach)}`,
      why: 'flutter.envelope',
    })
  if (covers !== null)
    rows.push({
      label: 'Mach numbers answered for',
      value: `${plain(covers.from, 2)} to ${plain(covers.to, 2)}`,
      note: 'outside there is no verdict',
    })
  if (screening !== null)
    rows.push({
      label: 'Screening number, no verdict',
      value: ratio(screening.speedRatio),
      note: 'a correlation through experience, beside the answer and never instead of it',
      why: 'flutter.screening',
    })
  return rows
}

/** Share of the width for a ratio, 0–100, a little room at both ends. */
export function ratioScale(values: readonly (number | null)[]): (value: number) => number {
  const known = values.filter((value) => value !== null)
  const [least, most] = [Math.min(...known), Math.max(...known)]
  const room = 0.08 * (most - least) + 1e-9
  return (value) => (100 * (value - least + room)) / (most - least + 2 * room)
}

export function structureRows({ structure, fin }: Assessment, figures: Figures): readonly NumberRow[] {
  const { root, tipLoad, mesh, modes } = structure
  const rows: NumberRow[] = []
  const first = root?.modes_Hz[0] ?? modes[0]?.frequency_Hz
  if (first !== undefined)
    rows.push({
      label: 'First mode',
      value: hertz(first),
      note: root === null ? 'root clamped' : 'on its can; tap it and listen for that',
      why: 'structure.first',
    })
  rows.push(
    {
      label: 'One fin',
      value: figures.grams(fin.mass_kg),
      note: `both skins, fillets apart; ${figures.area(fin.area_m2)}`,
      why: 'fin.mass',
    },
    {
      label: 'Thickness at the root',
      value: figures.length(fin.thickness_m.root, 1e-5),
      note: `${figures.length(fin.thickness_m.tip, 1e-5)} at the tip`,
      why: 'fin.thickness',
    },
  )
  if (root !== null) {
    const moment = figures.axis('line moment')
    rows.push({
      label: 'Root turns by',
      value: `${plain((root.rotation_rad_per_N / moment.of(1)) * 1e6, 1)} µrad`,
      note: `per ${moment.unit} of moment along the root; ${root.basis}`,
    })
  }
  if (tipLoad !== null)
    rows.push({
      label: 'Tip load, to try on the fin',
      value: figures.force(tipLoad.force_N),
      note: `moves the tip by ${figures.length(tipLoad.deflection_m)}; moment at the root ${figures.moment(tipLoad.rootMoment_Nm)}`,
      why: 'structure.tip',
    })
  if (mesh !== null) rows.push({ label: 'Mesh', value: `${mesh.triangles} triangles`, note: `${mesh.nodes} nodes` })
  return rows
}

const index = (value: number | null): string => ratio(value, value !== null && value < 0.1 ? 3 : 2)

export function strengthRows({ strength }: Assessment, figures: Figures): readonly NumberRow[] {
  const { failureIndex, ply, criterion, secondOpinion, load } = strength
  const rows: NumberRow[] = [
    {
      label: 'Failure index of the weakest ply',
      value: index(failureIndex),
      note: [ply, criterion, '1 is failure'].filter((one) => one !== null).join('; '),
      why: 'strength.index',
    },
  ]
  if (secondOpinion !== null)
    rows.push({ label: 'Second opinion', value: index(secondOpinion.failureIndex), note: secondOpinion.criterion })
  if (load !== null)
    rows.push(
      {
        label: 'Load on one fin',
        value: figures.force(load.force_N),
        note: `${figures.angle(load.angleOfAttack_deg)} angle of attack; Mach ${ratio(load.mach)}, ${figures.pressure(load.dynamicPressure_Pa)} dynamic pressure${load.time_s === null ? '' : `, ${plain(load.time_s, 1)} s after ignition`}`,
        why: 'strength.load',
      },
      { label: 'Moment at the root', value: figures.moment(load.rootMoment_Nm), note: load.basis },
      {
        label: 'The fin’s own bending adds',
        value: `× ${ratio(load.amplification)}`,
        note: 'elastic root moment over the rigid fin’s; the greater load is used',
      },
    )
  return rows
}

export function jointRows({ bond }: Assessment, figures: Figures, settled: boolean): readonly NumberRow[] {
  const { joint, fillet } = bond
  if (joint === null) return []
  const { worst, momentShares, sufficientRadius_m, lapShear_Pa, knockDown } = joint
  const rows: NumberRow[] = [
    {
      label: 'Worst stress',
      value: figures.stress(worst.stress_Pa),
      note: `${worst.mode}, ${figures.length(worst.x_m, 1e-3)} behind the root’s leading edge; ${figures.stress(worst.allowable_Pa)} may be used`,
      why: 'bond.margin',
    },
    {
      label: 'Lap shear of the data sheet',
      value: figures.stress(lapShear_Pa),
      note: `divided by ${plain(knockDown, 1)} before it is used`,
      why: 'bond.allowable',
    },
  ]
  if (settled)
    rows.push({
      label: 'Fillet radius that is enough',
      value: figures.length(sufficientRadius_m),
      note:
        sufficientRadius_m === null
          ? 'none that fits between the fins'
          : `for a margin of zero under this load${fillet === null ? '' : `; this can has ${figures.length(fillet.radius_m)}`}`,
    })
  rows.push({
    label: 'Moment through the skins',
    value: percent(momentShares.skins),
    note: `${percent(momentShares.fillets)} through the fillets, ${percent(momentShares.baseBond)} through the base bond`,
  })
  if (fillet !== null)
    rows.push({
      label: 'Adhesive for the fillets of one can',
      value: figures.grams(fillet.mixMass_kg),
      note: `${fillet.count} fillets, ${figures.volume(fillet.totalVolume_m3)}, waste in`,
      why: 'bond.fillet',
    })
  return rows
}

export function proofRows({ strength }: Assessment, figures: Figures): readonly NumberRow[] {
  const { tipEquivalent, load } = strength
  if (tipEquivalent === null) return []
  return [
    {
      label: 'Same failure index',
      value: figures.force(tipEquivalent.byFailure_N),
      note: 'one force at the middle of the tip, through a pad, that works some ply as hard as the worst air load does',
    },
    {
      label: 'Same moment at the root',
      value: figures.force(tipEquivalent.byMoment_N),
      note: `for the joint; the air load is ${figures.force(load?.force_N)}, spread over the face`,
    },
    {
      label: 'Thin outer half under the lesser one',
      value: ratio(tipEquivalent.outerFailureIndex),
      note: 'failure index outside the pad',
    },
  ]
}
