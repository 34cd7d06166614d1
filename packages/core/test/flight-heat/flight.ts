/** A made-up flight for tests of heat: to Mach 2 in 4 s near the ground, then slowing down; and walls to heat. */
import type { HeatInput } from '../../src/flight/heat/heat-along.ts'
import type { ThermalLayer } from '../../src/flight/heat/section.ts'

const soundSpeed = 335
export const machAt = (t: number): number => (t < 4 ? 2 * Math.sin((Math.PI * t) / 8) ** 2 : 2 / (1 + (t - 4) / 4))

export function madeUpHistory(samples = 121, end = 20): HeatInput['history'] {
  const time = Array.from({ length: samples }, (_, i) => (end * i) / (samples - 1))
  const mach = time.map(machAt)
  return {
    time,
    mach,
    speed: mach.map((M) => M * soundSpeed),
    temperature: time.map((t) => 285 - t),
    density: time.map((t) => 1.2 - 0.03 * t),
  }
}

export const skin: ThermalLayer = { thickness: 1.2e-3, conductivity: 0.35, density: 1650, specificHeat: 1000 }
export const core: ThermalLayer = { thickness: 1.6e-3, conductivity: 0.6, density: 1820, specificHeat: 1000 }
export const transitions = [
  { name: 'as cured', temperature: 331 },
  { name: 'post-cured', temperature: 358 },
]

export const input: HeatInput = {
  history: madeUpHistory(),
  layers: [skin, core],
  stations: [{ name: 'flat', at: { kind: 'plate', distance: 0.1, flow: 'turbulent' } }],
  initialTemperature: 290,
  glassTransitions: transitions,
}
