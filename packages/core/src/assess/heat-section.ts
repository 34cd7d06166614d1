/**
 * How hot the skins get along the flight, by conduction through skin and core at the mean chord, and what that leaves of the
 * resin's stiffness when the dynamic pressure is greatest. Margins are those of the cold fin; this says how far to trust them.
 */
import { chordAt, finForm } from '../air/fin-form.ts'
import { type FinWall, finStations } from '../flight/heat/fin-stations.ts'
import { type FinHeat, type HeatInput, heatAlong } from '../flight/heat/heat-along.ts'
import { laminateTemperature } from '../flight/heat/laminate-temperature.ts'
import type { FlightHistory } from '../flight/history.ts'
import { recoveryTemperature } from '../flight/recovery.ts'
import type { Issue } from '../issue.ts'
import { adhesiveThermal, laminateThermal, sheetThermal, type ThermalProperties } from '../material/thermal.ts'
import type { FlightSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import type { FinPlate } from './fin-plate.ts'
import type { Section } from './flown.ts'
import { type SkinPly, thinnerFace } from './skins.ts'

export type HeatSection = FlightSection['heat']

export interface Heated extends Section<HeatSection> {
  /** What is left of the skins' resin modulus at a time of the flight, the cure in force; 0–1, mean over the fin. */
  readonly resinFactor: (time: number) => number
  /** The same for the cure that the plan does not have. */
  readonly otherResinFactor: (time: number) => number
}

export function heatSection(design: CanDesign, plate: FinPlate, history: FlightHistory): Heated {
  const { fins, resin, mixing, shop } = design
  const places = finPlaces(design, plate)
  const roomCured = { name: 'cured at room temperature', temperature: resin.glassTransition.value }
  const postCured = { name: 'post-cured', temperature: resin.glassTransitionPostCured.value }
  const glassTransitions = mixing.postCure ? [postCured, roomCured] : [roomCured, postCured]
  const stations = finStations({
    ...places,
    core: thermal(fins.core.material.density.value, sheetThermal(fins.core.material)),
    coreThickness: fins.core.thickness,
    leadingEdge: fins.edges.leading,
    fillet: {
      radius: fins.fillet.radius,
      adhesive: thermal(fins.fillet.adhesive.density.value, adhesiveThermal(fins.fillet.adhesive)),
    },
  })
  const hot = untilCooled(history, Math.min(roomCured.temperature, postCured.temperature))
  const heat = keptHeat({
    history: hot,
    stations,
    layers: stations[0].layers ?? [],
    initialTemperature: shop.temperature,
    glassTransitions,
  })
  const worst = history.time.reduce(
    (at, _, i) => (history.dynamicPressure[i] > history.dynamicPressure[at] ? i : at),
    0,
  )
  const { time, mean } = laminateTemperature(heat)
  const resinLeft = mean.resin.map(({ name, temperature, factor }) => ({
    state: name,
    glassTransition_K: temperature,
    factor: factor[worst],
  }))
  const value: HeatSection = {
    stations: heat.stations.map(({ name, peak, against }) => ({
      place: name,
      surface_K: peak.surface.temperature,
      interface_K: peak.interface.temperature,
      middle_K: peak.middle.temperature,
      secondsAbove: against[0].secondsAbove.surface,
    })),
    resinStiffness: resinLeft,
  }
  const others = heat.warnings.filter(({ code }) => code !== 'heat/above-glass-transition')
  const [resinFactor, otherResinFactor] = mean.resin.map(({ factor }) => along(time, factor))
  return { value, warnings: [...softening(value), ...others], resinFactor, otherResinFactor }
}

/** What was asked last, and its answer: a ply that turns heats no differently. */
let last: { readonly asked: string; readonly heat: FinHeat } | null = null

function keptHeat(input: HeatInput): FinHeat {
  const asked = JSON.stringify(input)
  if (last === null || last.asked !== asked) last = { asked, heat: heatAlong(input) }
  return last.heat
}

/** Straight between the samples, held before the first and after the last. */
function along(time: readonly number[], column: readonly number[]): (t: number) => number {
  return (t) => {
    const next = time.findIndex((at) => at > t)
    if (next <= 0) return column[next < 0 ? column.length - 1 : 0]
    const share = (t - time[next - 1]) / (time[next] - time[next - 1])
    return column[next - 1] + share * (column[next] - column[next - 1])
  }
}

/** s after the air has last recovered above the glass transition, or after the greatest dynamic pressure: skins cool by then. */
const coolingTime = 5

/** The part of the flight that can heat the skins. */
function untilCooled(history: FlightHistory, glassTransition: number) {
  const { time, temperature, mach, maximumDynamicPressure } = history
  const last = time.findLastIndex(
    (_, i) => recoveryTemperature({ temperature: temperature[i], mach: mach[i] }) > glassTransition,
  )
  const end = Math.max(maximumDynamicPressure.time, last < 0 ? 0 : time[last]) + coolingTime
  const count = Math.max(2, time.filter((t) => t <= end).length)
  const cut = (column: readonly number[]): readonly number[] => column.slice(0, count)
  return {
    time: cut(time),
    temperature: cut(temperature),
    density: cut(history.density),
    speed: cut(history.speed),
    mach: cut(mach),
    dynamicPressure: cut(history.dynamicPressure),
  }
}

/** The chord at the span of the area's centroid, and the fin's own wall along it. */
function finPlaces({ fins, tube, resin }: CanDesign, plate: FinPlate) {
  const { outline } = fins
  const form = finForm(outline.points, tube.outerRadius)
  const { chord, middle } = chordAt(outline.points, form.centroidSpan)
  const from = middle - chord / 2
  const wallAt = (distance: number): FinWall => {
    // A hair inside, so that the edge itself has the plies that end on it.
    const inside = Math.min(Math.max(distance, 1e-6 * chord), (1 - 1e-6) * chord)
    const { plies, core } = plate.at(from + inside, form.centroidSpan)
    return {
      skin: thinnerFace(plies)
        .toReversed()
        .map((ply) => skinLayer(ply, resin.density.value)),
      coreThickness: core,
    }
  }
  const leading = outline.points.slice(0, 2)
  const sweep = Math.atan2(leading[1][0] - leading[0][0], leading[1][1] - leading[0][1])
  return { chord, sweep, wallAt }
}

function skinLayer({ design, cured }: SkinPly, resinDensity: number) {
  const { fibre } = design.cloth
  const mix = laminateThermal({ fibre, resinDensity, fibreFraction: cured.fibreVolumeFraction })
  return { thickness: cured.t, ...thermal(cured.density, mix) }
}

const thermal = (density: number, { conductivity, specificHeat }: ThermalProperties) => ({
  conductivity: conductivity.value,
  density,
  specificHeat: specificHeat.value,
})

/** Below this share of its cold stiffness the resin's softening outweighs the other doubts of a margin; our own choice. */
const worthSaying = 0.9

function softening(heat: HeatSection): Issue[] {
  const [now, other] = heat?.resinStiffness ?? []
  if (now === undefined || now.factor >= worthSaying) return []
  const percent = (share: number): string => `${Math.round(100 * share)} %`
  return [
    {
      code: 'heat/above-glass-transition',
      path: 'flight.heat',
      value: now.factor,
      message: `At the greatest dynamic pressure the skins' resin (${now.state}) has about ${percent(now.factor)} of its cold stiffness, if the flow is turbulent; ${other.state} it would have ${percent(other.factor)}. The flutter margin counts it; strength, joint and modes are those of the cold fin.`,
      hint: 'Post-cure, choose a resin with a higher glass transition, or cover the surface; the cold margin stands beside the warm one.',
    },
  ]
}
