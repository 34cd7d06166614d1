/** What a builder must be told about the heat of a flight. */
import type { Issue } from '../../issue.ts'
import type { StationHeat } from './station.ts'

/** Highest Mach number that the heat transfer laws here are meant for. */
const highestMach = 3

export function heatWarnings(
  { mach }: { readonly mach: readonly number[] },
  stations: readonly StationHeat[],
): readonly Issue[] {
  const fastest = Math.max(...mach)
  return [...stations.flatMap(softened), ...(fastest > highestMach ? [beyondMach(fastest)] : [])]
}

const celsius = (kelvin: number): string => (kelvin - 273.15).toFixed(0)

function softened({ name, peak, against: [inForce] }: StationHeat): Issue[] {
  if (inForce === undefined || !(inForce.secondsAbove.surface > 0)) return []
  const { secondsAbove, temperature, name: state } = inForce
  return [
    {
      code: 'heat/above-glass-transition',
      path: 'flight.heat',
      value: peak.surface.temperature,
      message: `The surface at ${name} reaches ${celsius(peak.surface.temperature)} °C at ${peak.surface.time.toFixed(1)} s; its resin (${state}) goes soft at ${celsius(temperature)} °C. Above that for ${secondsAbove.surface.toFixed(1)} s on the surface, ${secondsAbove.skinMiddle.toFixed(1)} s half-way through the skin, ${secondsAbove.interface.toFixed(1)} s where it meets the core.`,
      hint: 'Post-cure, choose a resin with a higher glass transition, or cover the surface; read the margins with the stiffness at temperature.',
    },
  ]
}

function beyondMach(fastest: number): Issue {
  return {
    code: 'heat/mach-range',
    path: 'flight.heat',
    value: fastest,
    message: `The flight reaches Mach ${fastest.toFixed(2)}; the heat transfer laws used are meant for Mach ${highestMach} and below.`,
    hint: 'Treat temperatures as estimates; have the heating reviewed by someone who works at such speeds.',
  }
}
