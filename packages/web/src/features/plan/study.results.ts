/** A study of a bare plate, in rows: its modes, and what air it stands in does to it. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { StudyDesign } from '@finwright/core/assess/design.ts'
import { type Figures, hertz, ratio } from '@finwright/sheets/layout/figures.ts'

/** Mode, as computed, as imposed where the plan does so. */
export function modeRows({ structure }: Assessment, design: StudyDesign): readonly (readonly string[])[] {
  const imposed = design.imposedFrequencies
  return structure.modes.map(({ frequency_Hz, kind }, i) => [
    `${i + 1}`,
    kind,
    hertz(frequency_Hz),
    ...(imposed === null ? [] : [imposed[i] === undefined ? '–' : hertz(imposed[i])]),
  ])
}

/** Each state of the air: its own speed, and the speeds at which the plate goes over it. */
export function stateRows(
  { flutter }: Assessment,
  design: StudyDesign,
  figures: Figures,
): readonly (readonly string[])[] {
  return (design.air?.states ?? []).map(({ mach, density, soundSpeed }) => {
    const point = flutter.boundary.find(
      (one) => Math.abs(one.mach - mach) < 1e-6 && Math.abs(one.density_kg_m3 / density - 1) < 1e-6,
    )
    const over = (speed: number | null | undefined): string =>
      speed === null || speed === undefined ? 'not determined' : ratio(speed / (mach * soundSpeed))
    return [ratio(mach), figures.speed(mach * soundSpeed), over(point?.speed_m_s), over(point?.envelope?.speed_m_s)]
  })
}
