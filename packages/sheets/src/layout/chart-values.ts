/** The figures behind a chart: what every curve says at one x, and all of them as comma-separated values. */
import type { ChartInput, Series } from './chart.ts'

export interface Reading {
  readonly label: string
  readonly y: number
}

/**
 * What each curve says at x, straight between its points; nothing where it has a gap. A curve that comes back over itself,
 * such as a flight up and down, says so for every passage.
 */
export function readAt({ series }: Pick<ChartInput, 'series'>, x: number): readonly Reading[] {
  return series.flatMap((one) => crossings(one, x).map((y) => ({ label: one.tag ?? one.label, y })))
}

function crossings({ x: X, y: Y }: Series, x: number): number[] {
  const found: number[] = []
  for (let i = 1; i < X.length; i++) {
    const [a, b, ya, yb] = [X[i - 1], X[i], Y[i - 1], Y[i]]
    if (ya === null || yb === null || a === b) continue
    const share = (x - a) / (b - a)
    const last = i === X.length - 1 && share === 1
    if ((share >= 0 && share < 1) || last) found.push(ya + share * (yb - ya))
  }
  return found
}

/** One block of two columns a curve, side by side: curves need not share their x. */
export function chartCsv({ series, xLabel, yLabel, title }: ChartInput): string {
  const rows = Math.max(0, ...series.map(({ x }) => x.length))
  const name = ({ label, tag }: Series): string => [title, tag ?? '', label].filter((part) => part !== '').join(' ')
  const head = series.flatMap((one) => [
    xLabel === '' ? 'x' : xLabel,
    `${name(one)}${yLabel === '' ? '' : ` (${yLabel})`}`,
  ])
  const lines = Array.from({ length: rows }, (_, i) =>
    series.flatMap(({ x, y }) => (i < x.length ? [number(x[i]), number(y[i])] : ['', ''])),
  )
  return `${[head.map(quoted), ...lines].map((cells) => cells.join(',')).join('\r\n')}\r\n`
}

/** Nine digits: more than any of these numbers is worth. */
const number = (value: number | null): string => (value === null ? '' : String(Number(value.toPrecision(9))))

const quoted = (text: string): string => (/[",\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text)
