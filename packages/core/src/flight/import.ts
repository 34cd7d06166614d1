/**
 * A flight flown elsewhere, given as altitude and speed against time: straight between the points given. Where points lie
 * far apart, samples are put between them, because q = ½ ρ v² can be largest inside a straight piece.
 */
import type { Checked, Issue } from '../issue.ts'
import { type FlightHistory, flightHistory, historyWarnings, type Motion, subdivided } from './history.ts'
import { pieceOf } from './thrust-curve.ts'

export interface HistoryFlight {
  readonly kind: 'history'
  /** Rising. */
  readonly time: readonly number[]
  /** Above mean sea level. */
  readonly altitude: readonly number[]
  readonly speed: readonly number[]
  readonly temperatureOffset: number
}

/** No gap between samples longer than this share of the whole time. */
const longestGap = 1 / 300

export function flyHistory(flight: HistoryFlight): Checked<FlightHistory> {
  const issues = historyIssues(flight)
  if (issues.length > 0) return { ok: false, issues }
  const { time, altitude, speed, temperatureOffset } = flight
  const motion = (t: number): Motion => {
    const i = pieceOf(time, t)
    const share = (t - time[i]) / (time[i + 1] - time[i])
    return {
      altitude: altitude[i] + share * (altitude[i + 1] - altitude[i]),
      speed: Math.abs(speed[i] + share * (speed[i + 1] - speed[i])),
    }
  }
  const value = flightHistory({
    motion,
    times: subdivided(time, longestGap * (time[time.length - 1] - time[0])),
    temperatureOffset,
  })
  return { ok: true, value, warnings: historyWarnings(value) }
}

function historyIssues({ time, altitude, speed }: HistoryFlight): Issue[] {
  const issues: Issue[] = []
  const issue = (code: string, path: string, value: unknown, message: string, hint: string): void => {
    issues.push({ code: `flight/${code}`, path: `flight.${path}`, value, message, hint })
  }
  if (time.length < 2 || altitude.length !== time.length || speed.length !== time.length) {
    const message = `A flight history needs two rows or more with time, altitude and speed in each; it has ${time.length} times, ${altitude.length} altitudes and ${speed.length} speeds.`
    issue('history-rows', 'time', time.length, message, 'Give every row all three numbers.')
    return issues
  }
  for (let i = 0; i < time.length; i++) {
    if (i > 0 && !(time[i] > time[i - 1])) {
      const message = `Time must rise from row to row; row ${i + 1} has ${time[i]} s after ${time[i - 1]} s.`
      issue('history-order', `time[${i}]`, time[i], message, 'Sort the rows by time and drop repeated ones.')
    }
    if (!(altitude[i] > -1000 && altitude[i] < 1e6)) {
      const message = `Altitude in row ${i + 1} is ${altitude[i]} m; it must lie between -1 km and 1000 km above mean sea level.`
      issue('history-altitude', `altitude[${i}]`, altitude[i], message, 'Check the unit of the altitude column.')
    }
    if (!(Math.abs(speed[i]) < 5000)) {
      const message = `Speed in row ${i + 1} is ${speed[i]} m/s; it must stay below 5000 m/s.`
      issue('history-speed', `speed[${i}]`, speed[i], message, 'Check the unit of the speed column.')
    }
  }
  return issues
}
