/** The margin at every instant against the envelope solved at those instants, and a fin that softens on the way. */
import { describe, expect, test } from 'vitest'
import type { FlightHistory } from '../../src/flight/history.ts'
import { flyHistory } from '../../src/flight/import.ts'
import { flightPoints, pointAt } from '../../src/flutter/air-points.ts'
import { envelopeJoints } from '../../src/flutter/envelope.ts'
import { passagesAt } from '../../src/flutter/envelope-boundary.ts'
import { flightEnvelope } from '../../src/flutter/envelope-flight.ts'
import { type ModalSystem, ownModes } from '../../src/flutter/modal-system.ts'
import { envelope, omegas } from './fin.ts'

/** Up in four seconds, then slower as it climbs. */
function flown(fastest: number, speed: readonly number[] = [0, fastest, 0], time = [0, 4, 40]): FlightHistory {
  const altitude = time.map((t) => 340 * t)
  const result = flyHistory({ kind: 'history', time: [...time], altitude, speed: [...speed], temperatureOffset: 0 })
  if (!result.ok) throw new Error('no flight')
  return result.value
}

const history = flown(520)
const input = { envelope, modes: ownModes(omegas), structuralDamping: 0.01, history }
const found = flightEnvelope(input)
const solvedAt = (times: readonly number[], modes: typeof input.modes | (() => ModalSystem) = input.modes) =>
  passagesAt(
    { ...input, modes },
    times.map((t) => pointAt(history, t)),
  )

describe('a supersonic flight', () => {
  test('its corners are among at least twelve Mach numbers', () => {
    const machs = found.boundary.map(({ point }) => point.mach)
    expect(machs.length).toBeGreaterThanOrEqual(12)
    for (const joint of envelopeJoints.filter((mach) => mach < history.maximumMach.value))
      expect(machs).toContain(joint)
  })

  test('every passage and every time of the history has its ratio, in the order of time', () => {
    const times = found.ratios.map(({ time }) => time)
    for (const time of history.time) expect(times).toContain(time)
    for (let i = 1; i < times.length; i++) expect(times[i]).toBeGreaterThan(times[i - 1])
    for (const { point, ratio } of found.passages) {
      const at = found.ratios.find(({ time }) => time === point.time)
      expect((at?.ratio ?? 0) / (ratio ?? 1)).toBeCloseTo(1, 6)
    }
    expect(found.ratios[0].ratio).toBeNull() // at rest
  })

  test('between passages the ratio is that of the envelope solved there within 3 per cent', () => {
    const times = [1.3, 1.9, 2.6, 3.3, 3.8, 6, 9, 14]
    const solved = solvedAt(times)
    times.forEach((time, i) => {
      const [before, after] = [found.ratios.findLast((r) => r.time <= time), found.ratios.find((r) => r.time >= time)]
      const near = ((before?.ratio ?? 0) + (after?.ratio ?? 0)) / 2
      expect(Math.abs(near / (solved[i].ratio ?? Number.NaN) - 1)).toBeLessThan(0.03)
    })
  })

  test('no instant near the least lies below it by more than half a per cent, and the margin is that least', () => {
    const { minimum, margin, settled } = found
    if (minimum === null) throw new Error('no minimum')
    const middle = minimum.at.time ?? 0
    const around = Array.from({ length: 17 }, (_, i) => middle + (i - 8) * 0.04)
    const least = Math.min(...solvedAt(around).map(({ ratio }) => ratio ?? Number.POSITIVE_INFINITY))
    expect(least / minimum.ratio).toBeGreaterThan(0.995)
    expect(least / minimum.ratio).toBeLessThan(1.005)
    expect(settled.within).toBeLessThanOrEqual(0.005)
    expect(margin.speedRatio).toBeCloseTo(minimum.ratio, 12)
    expect(margin.at?.time).toBe(minimum.at.time)
  })

  test('has teeth: without the corners even Mach numbers miss the least', () => {
    const plain = passagesAt(input, flightPoints(history, 12))
    const least = Math.min(...plain.map(({ ratio }) => ratio ?? Number.POSITIVE_INFINITY))
    expect(least / (found.minimum?.ratio ?? 0)).toBeGreaterThan(1.005)
  })

  test('the least in the transonic range says on what it rests', () => {
    expect(found.minimum?.at.mach).toBeGreaterThan(0.8)
    expect(found.warnings.map(({ code }) => code)).toContain('flutter/transonic-by-experience')
    const slow = flightEnvelope({ ...input, history: flown(200) })
    expect(slow.warnings).toEqual([])
    expect(slow.machRange).toEqual({ from: 0, to: 5 })
  })
})

describe('a fin that softens', () => {
  const identity = (scale: number): ModalSystem => {
    const transform = new Float64Array(omegas.length ** 2)
    for (let i = 0; i < omegas.length; i++) transform[i * omegas.length + i] = 1
    return { omegas: omegas.map((omega) => scale * omega), transform }
  }
  const whole = identity(1)

  test('with the cold modes at every instant it is the cold fin', () => {
    const same = flightEnvelope({ ...input, modes: () => whole })
    expect(same.passages).toHaveLength(found.passages.length)
    same.passages.forEach(({ entry }, i) => {
      expect((entry.speed ?? 0) / (found.passages[i].entry.speed ?? 1)).toBeCloseTo(1, 9)
    })
  })

  test('softer from 3 s on: earlier passages as before, later ones lower in proportion', () => {
    const soft = identity(0.8)
    const softened = flightEnvelope({ ...input, modes: ({ time }) => ((time ?? 0) < 3 ? whole : soft) })
    let [early, late] = [0, 0]
    for (const { point, entry } of softened.passages) {
      const cold = found.passages.find((passage) => passage.point.time === point.time)
      if (cold === undefined) continue
      const share = (entry.speed ?? 0) / (cold.entry.speed ?? 1)
      if ((point.time ?? 0) < 3) {
        expect(share).toBeCloseTo(1, 9)
        early++
      } else {
        // All frequencies by 0.8 in air as dense: 0.8, but for structural damping and the wake's dependence on k, which is the same.
        expect(share).toBeCloseTo(0.8, 6)
        late++
      }
    }
    expect(Math.min(early, late)).toBeGreaterThan(3)
    expect(softened.minimum?.ratio).toBeLessThan(found.minimum?.ratio ?? 0)
  })

  test('modes made of others: air turned to them gives what air computed on them gives', () => {
    const turn = new Float64Array(36)
    for (let i = 0; i < 6; i++) turn[i * 6 + i] = i === 0 ? -1 : 1
    const [p, q] = [solvedAt([2.5], () => ({ omegas, transform: turn }))[0], solvedAt([2.5])[0]]
    expect((p.entry.speed ?? 0) / (q.entry.speed ?? 1)).toBeCloseTo(1, 9)
  })
})

test('a flight that slows down and speeds up again: every turn is a point', () => {
  const two = flown(0, [0, 400, 180, 480, 0], [0, 4, 12, 16, 60])
  const { passages, ratios, minimum } = flightEnvelope({ ...input, history: two })
  const turn = passages.filter(({ point }) => (point.time ?? 0) > 10 && (point.time ?? 0) < 13)
  expect(Math.min(...turn.map(({ point }) => point.mach))).toBeLessThan(0.6)
  expect(ratios.filter(({ ratio }) => ratio !== null).length).toBeGreaterThan(two.time.length / 2)
  expect(minimum).not.toBeNull()
})

test('beyond the envelope nothing is determined there, and elsewhere it is', () => {
  const fast = flown(1900)
  const { margin, ratios, minimum } = flightEnvelope({ ...input, history: fast })
  expect(margin.verdict).toBe('not determined')
  expect(ratios.find(({ time }) => time === fast.maximumMach.time)?.ratio).toBeNull()
  expect(minimum?.at.mach).toBeLessThan(5)
})
