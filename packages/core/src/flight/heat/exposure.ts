/**
 * What a temperature history means: its peak, and the time above a limit, straight between samples.
 */
export interface Peak {
  /** K */
  readonly temperature: number
  /** s */
  readonly time: number
}

export function peakOf(time: readonly number[], temperature: readonly number[]): Peak {
  let hottest = 0
  for (let i = 1; i < time.length; i++) if (temperature[i] > temperature[hottest]) hottest = i
  return { temperature: temperature[hottest], time: time[hottest] }
}

export function secondsAbove(time: readonly number[], temperature: readonly number[], limit: number): number {
  let seconds = 0
  for (let i = 1; i < time.length; i++) {
    const [from, to] = [temperature[i - 1] - limit, temperature[i] - limit]
    seconds += (time[i] - time[i - 1]) * shareAbove(from, to)
  }
  return seconds
}

/** Share of a straight piece from one value to another that lies above zero. */
function shareAbove(from: number, to: number): number {
  if (from > 0 && to > 0) return 1
  if (from <= 0 && to <= 0) return 0
  return Math.max(from, to) / Math.abs(to - from)
}
