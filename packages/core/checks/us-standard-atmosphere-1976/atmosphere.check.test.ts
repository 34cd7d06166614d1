/** U.S. Standard Atmosphere, 1976, Table I, geometric altitude; see source.md. Pressures as printed, in millibars. */
import { expect, test } from 'vitest'
import { type Air, standardAir } from '../../src/air/atmosphere.ts'
import { agrees, published } from '../agreement.ts'
import { expectPublished } from '../evidence.ts'

const source = 'us-standard-atmosphere-1976'

const rows: [altitude: number, quantity: keyof Air, printed: string, methodError?: number][] = [
  [0, 'temperature', '288.150'],
  [0, 'pressure', '1.01325e3'],
  [0, 'density', '1.2250'],
  [0, 'soundSpeed', '340.29'],
  [1_000, 'temperature', '281.651'],
  [1_000, 'pressure', '8.9876e2'],
  [1_000, 'density', '1.1117'],
  [1_000, 'soundSpeed', '336.43'],
  [5_000, 'temperature', '255.676'],
  [5_000, 'pressure', '5.4048e2'],
  [5_000, 'density', '7.3643e-1'],
  [5_000, 'soundSpeed', '320.55'],
  [5_000, 'viscosity', '1.6282e-5'],
  [10_000, 'temperature', '223.252'],
  // Printed rounded down: the row's own density and temperature give 2.64999e2.
  [10_000, 'pressure', '2.6499e2', 2e-5],
  [10_000, 'density', '4.1351e-1'],
  [10_000, 'soundSpeed', '299.53'],
  [20_000, 'temperature', '216.650'],
  [20_000, 'pressure', '5.5293e1'],
  [20_000, 'density', '8.8910e-2'],
  [20_000, 'soundSpeed', '295.07'],
  [30_000, 'temperature', '226.509'],
  [30_000, 'pressure', '1.1970e1'],
  [30_000, 'density', '1.8410e-2'],
  [30_000, 'soundSpeed', '301.71'],
  [50_000, 'temperature', '270.650'],
  [50_000, 'pressure', '7.9779e-1'],
  [50_000, 'density', '1.0269e-3'],
  [70_000, 'temperature', '219.585'],
  [70_000, 'pressure', '5.2209e-2'],
  [70_000, 'density', '8.2829e-5'],
]

const inPrintedUnit = (air: Air, quantity: keyof Air): number =>
  quantity === 'pressure' ? air.pressure / 100 : air[quantity]

test.each(rows)('agrees with the table at %d m: %s', (altitude, quantity, printed, methodError = 0) => {
  const computed = inPrintedUnit(standardAir(altitude), quantity)
  expectPublished({ source, quantity: `${quantity} at ${altitude / 1000} km`, printed, computed, methodError })
})

test('has teeth: geopotential altitude taken for geometric is noticed from 5 km up', () => {
  const r0 = 6_356_766
  const raised = rows.filter(([altitude, , , error]) => altitude >= 5_000 && error === undefined)
  expect(raised.length).toBeGreaterThan(10)
  for (const [altitude, quantity, printed] of raised) {
    if (['temperature', 'soundSpeed', 'viscosity'].includes(quantity)) continue
    const wrong = standardAir((r0 * altitude) / (r0 - altitude))
    expect(agrees(inPrintedUnit(wrong, quantity), published(printed)), `${quantity} at ${altitude}`).toBe(false)
  }
})
