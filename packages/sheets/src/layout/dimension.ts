/** Dimension lines and arrows in the manner of a shop drawing: thin lines, oblique ticks, lettering above the line. */
import { fill, line, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { textWidth } from '../drawing/lettering.ts'

export interface DimensionStyle {
  readonly size?: number
  /** Distance of the dimension line from the measured points, to the left of a → b as seen when walking it. */
  readonly offset: number
  /** Where the extension lines start, from the measured points. */
  readonly from?: number
  /** Lettering on the other side of the line. */
  readonly under?: boolean
}

/** The distance from a to b, written as `label`. A label wider than the distance stands beyond b, unless it is turned. */
export function dimension(a: XY, b: XY, label: string, style: DimensionStyle): Primitive[] {
  const { size: usual = 2.9, offset, from = 0.8, under = false } = style
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const wide = textWidth(label, { size: usual, face: 'letter' })
  const size = wide > length - 1 && 0.75 * wide < length - 0.6 ? 0.75 * usual : usual
  const along: XY = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  const side: XY = [along[1], -along[0]]
  const off = ([x, y]: XY, distance: number): XY => [x + side[0] * distance, y + side[1] * distance]
  const direction = Math.sign(offset) || 1
  const ends = [off(a, offset), off(b, offset)] as const
  const slash = (at: XY): Primitive => {
    const leg = 0.9
    const tilt: XY = [(along[0] + side[0]) * leg, (along[1] + side[1]) * leg]
    return line([at[0] - tilt[0], at[1] - tilt[1]], [at[0] + tilt[0], at[1] + tilt[1]], stroke(pen.fine))
  }
  const hair = stroke(pen.hair, 'dark')
  return [
    line(off(a, from * direction), off(a, offset + direction), hair),
    line(off(b, from * direction), off(b, offset + direction), hair),
    line(ends[0], ends[1], hair),
    slash(ends[0]),
    slash(ends[1]),
    ...dimensionLabel(ends, along, label, {
      size,
      under,
      fits: textWidth(label, { size, face: 'letter' }) < length - 1,
    }),
  ]
}

function dimensionLabel(
  [a, b]: readonly [XY, XY],
  along: XY,
  label: string,
  { size, under, fits }: { readonly size: number; readonly under: boolean; readonly fits: boolean },
): Primitive[] {
  // read from below or from the right, as ISO 129-1 has it (recalled)
  const upright = along[0] > 1e-9 || (Math.abs(along[0]) <= 1e-9 && along[1] < 0)
  const turn = Math.atan2(along[1], along[0]) + (upright ? 0 : Math.PI)
  const up: XY = [Math.sin(turn), -Math.cos(turn)]
  const lift = under ? -(0.7 * size + 0.8) : 0.8
  const beyond = fits ? 0 : textWidth(label, { size, face: 'letter' }) / 2 + 1.4
  const middle: XY = fits ? [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] : b
  const at: XY = [middle[0] + up[0] * lift + along[0] * beyond, middle[1] + up[1] * lift + along[1] * beyond]
  return [text(at, label, { size, face: 'letter', anchor: 'middle', turn })]
}

/** A line with a filled head at b. */
export function arrow(a: XY, b: XY, style: { readonly width?: number; readonly head?: number } = {}): Primitive[] {
  const { width = pen.fine, head = 2.4 } = style
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const along: XY = [(b[0] - a[0]) / length, (b[1] - a[1]) / length]
  const neck: XY = [b[0] - along[0] * head, b[1] - along[1] * head]
  const half = head * 0.32
  return [
    line(a, [b[0] - along[0] * head * 0.8, b[1] - along[1] * head * 0.8], stroke(width), 'mark'),
    path(
      [
        b,
        [neck[0] - along[1] * half, neck[1] + along[0] * half],
        [neck[0] + along[1] * half, neck[1] - along[0] * half],
      ],
      true,
      {
        fill: fill('ink'),
        layer: 'mark',
      },
    ),
  ]
}

/** Words from a point outside to the thing they name. */
export function leader(from: XY, to: XY, words: string, size = 2.7, anchor: 'start' | 'end' = 'start'): Primitive[] {
  const gap = anchor === 'start' ? 0.8 : -0.8
  return [
    line(to, from, stroke(pen.hair, 'dark')),
    text([from[0] + gap, from[1] + 0.25 * size], words, { size, face: 'letter', anchor }),
  ]
}
