/** What the page on the flight shows of the assessment. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Figures, plain, ratio } from '@finwright/sheets/layout/figures.ts'
import type { NumberRow } from '../../parts/Numbers.tsx'

export function flightRows({ flight }: Assessment, figures: Figures): readonly NumberRow[] {
  const { at, recovery, heat } = flight
  const when = (time: number | undefined): string => (time === undefined ? '' : `${plain(time, 1)} s after ignition`)
  const rows: NumberRow[] = [
    {
      label: 'Greatest Mach number',
      value: ratio(flight.maximumMach),
      note: when(at?.maximumMach_s),
      why: 'flight.mach',
    },
    {
      label: 'Greatest dynamic pressure',
      value: figures.pressure(flight.maximumDynamicPressure_Pa),
      note: when(at?.maximumDynamicPressure_s),
      why: 'flight.pressure',
    },
  ]
  if (flight.maximumAltitude_m !== null)
    rows.push({
      label: 'Greatest altitude',
      value: figures.distance(flight.maximumAltitude_m),
      note: 'above mean sea level',
    })
  if (recovery !== null)
    rows.push({
      label: 'Air at the skin recovers to',
      value: figures.temperature(recovery.temperature_K),
      note: `the resin softens at ${figures.temperature(recovery.glassTransition_K)}; ${plain(recovery.secondsAbove, 1)} s above it`,
      why: 'flight.recovery',
    })
  for (const { state, factor, glassTransition_K } of heat?.resinStiffness ?? [])
    rows.push({
      label: `Resin stiffness left, ${state}`,
      value: `${plain(100 * factor, 0)} %`,
      note: `at the greatest dynamic pressure; softens at ${figures.temperature(glassTransition_K)}`,
      why: 'flight.softening',
    })
  return rows
}

export function heatRows({ flight }: Assessment, figures: Figures) {
  const stations = flight.heat?.stations ?? []
  const surfaces = stations.map(({ surface_K }) => surface_K)
  return {
    hottest: surfaces.indexOf(Math.max(...surfaces)),
    rows: stations.map(({ place, surface_K, interface_K, middle_K, secondsAbove }) => [
      place,
      figures.temperature(surface_K),
      figures.temperature(interface_K),
      figures.temperature(middle_K),
      secondsAbove > 0 ? `${plain(secondsAbove, 1)} s` : 'never',
    ]),
  }
}
