/** The flight of the demo with its thrust as rows: invented for demonstration, no rocket or motor is like it. */
import type { JsonObject } from '@finwright/plan/protocol/record.ts'

export const demoFlight: JsonObject = {
  kind: 'thrust',
  thrust: [
    ['0.00 s', '0 N'],
    ['0.05 s', '1820 N'],
    ['0.20 s', '2040 N'],
    ['0.60 s', '2110 N'],
    ['1.20 s', '2130 N'],
    ['1.80 s', '2080 N'],
    ['2.40 s', '1960 N'],
    ['3.00 s', '1790 N'],
    ['3.40 s', '1560 N'],
    ['3.60 s', '980 N'],
    ['3.80 s', '310 N'],
    ['4.00 s', '0 N'],
  ],
  liftOffMass: '11.2 kg',
  propellantMass: '3.2 kg',
  diameter: '102.0 mm',
  drag: [
    [0.0, 0.5],
    [0.6, 0.48],
    [0.8, 0.5],
    [0.9, 0.56],
    [1.0, 0.7],
    [1.05, 0.74],
    [1.1, 0.75],
    [1.2, 0.74],
    [1.4, 0.69],
    [1.6, 0.64],
    [1.8, 0.6],
    [2.0, 0.56],
  ],
  siteAltitude: '200 m',
}
