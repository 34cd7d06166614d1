/**
 * Gauges to cut from card: the fillet's radius with flats tangent to fin and tube, radii a millimetre to either side, and
 * the profile of each bevelled edge.
 *
 * The fillet turns through the arc phi from the fin's face to the body, so the gauge's flats stand at 180° − phi to each
 * other. A bevel of width w from the core's thickness t to the land slopes at atan((t − land) / 2 w) on each side.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign, EdgeName } from '@finwright/core/assess/design.ts'
import { arcVertices, line, type Primitive, path, pen, stroke, text, type Vertex, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { type Figures, plain } from '../layout/figures.ts'
import { smallest } from './piece-picture.ts'

/** Radii to print beside the design's own, m. */
const neighbours = [-1e-3, 1e-3]

/** The fillet tool as it looks in use: nose into the corner, flats on fin and tube. In a box at (x, y). */
type Gauged = Pick<NonNullable<Assessment['bond']['fillet']>, 'radius_m' | 'openAngle_deg'>

/** `where`: for a fillet that tapers, the end of the root that the gauge is for. */
export function filletGauge(fillet: Gauged, [x, y]: XY, figures: Figures, where = '') {
  const r = fillet.radius_m * 1e3
  const phi = (fillet.openAngle_deg * Math.PI) / 180
  const flat = Math.max(12, 0.8 * r)
  const items: Primitive[] = []
  const centre: XY = [x + flat + r + 4, y + flat + 18]
  items.push(...gaugeBody(centre, { r, phi, flat, name: figures.length(fillet.radius_m) }))
  const words = [
    `fillet tool${where}, radius ${figures.length(fillet.radius_m)}`,
    `arc ${plain(fillet.openAngle_deg, 1)}° between the flats`,
    'flats touch fin and tube, no light at the nose',
  ]
  const left = centre[0] + r + flat + 6
  items.push(
    ...words.map((row, i) =>
      text([left, y + 5 + i * 6.4], row, { size: smallest, face: i === 0 ? 'title' : 'letter' }),
    ),
  )
  let across = left
  for (const change of neighbours) {
    const radius = (fillet.radius_m + change) * 1e3
    if (radius <= 0) continue
    items.push(...disc([across + radius, y + 26 + radius], radius, figures.length(radius * 1e-3)))
    across += 2 * radius + 12
  }
  return { items, height: Math.max(r + flat + 34, 26 + 2 * r + 12) }
}

/**
 * The nose is the arc that touches both surfaces; it points down. The tangent flats leave it at the arc's ends, upward and
 * outward, and the back closes the gauge.
 */
function gaugeBody(
  centre: XY,
  { r, phi, flat, name }: { r: number; phi: number; flat: number; name: string },
): Primitive[] {
  const down = Math.PI / 2
  const [from, to] = [down - phi / 2, down + phi / 2]
  const at = (angle: number): XY => [centre[0] + r * Math.cos(angle), centre[1] + r * Math.sin(angle)]
  const along = (angle: number, way: number): XY => [-Math.sin(angle) * way * flat, Math.cos(angle) * way * flat]
  const [a, b] = [at(from), at(to)]
  const [da, db] = [along(from, -1), along(to, 1)]
  const outerA: XY = [a[0] + da[0], a[1] + da[1]]
  const outerB: XY = [b[0] + db[0], b[1] + db[1]]
  const back = Math.min(outerA[1], outerB[1]) - 24
  const vertices: Vertex[] = [[outerA[0], back], outerA, ...arcVertices(centre, r, from, to), outerB, [outerB[0], back]]
  return [
    path(vertices, true, { layer: 'cut', stroke: stroke(pen.net) }),
    line(centre, a, stroke(pen.hair, 'dark', [2, 1]), 'mark'),
    line(centre, b, stroke(pen.hair, 'dark', [2, 1]), 'mark'),
    text([centre[0], back + 6], `R ${name.replace(/ (mm|in)$/, '')}`, {
      size: smallest,
      face: 'title',
      anchor: 'middle',
    }),
    text([outerB[0] + 1.5, outerB[1] - 3], 'fin', { size: smallest, face: 'letter' }),
    text([outerA[0] - 1.5, outerA[1] - 3], 'tube', { size: smallest, face: 'letter', anchor: 'end' }),
  ]
}

/** A half disc on a tab: go and no-go. */
function disc([x, y]: XY, r: number, label: string): Primitive[] {
  const vertices: Vertex[] = [
    [x - r, y - r - 4],
    ...[[x + r, y - r - 4] as Vertex],
    ...arcVertices([x, y], r, 0, Math.PI),
  ]
  return [
    path(vertices, true, { layer: 'cut', stroke: stroke(pen.net) }),
    line([x - r, y], [x + r, y], stroke(pen.hair, 'dark', [2, 1]), 'mark'),
    text([x, y - r + 2], label, { size: smallest, face: 'letter', anchor: 'middle' }),
  ]
}

interface Bevel {
  readonly names: string
  readonly width: number
  readonly land: number
}

/** Bevels of the core's edges, equal ones once. */
export function bevelsOf({ fins }: CanDesign): Bevel[] {
  const found: { names: string[]; width: number; land: number }[] = []
  for (const name of ['leading', 'trailing', 'tip'] as readonly EdgeName[]) {
    const { kind, width, land } = fins.edges[name]
    if (kind !== 'bevel') continue
    const twin = found.find((other) => other.width === width && other.land === land)
    if (twin === undefined) found.push({ names: [name], width, land })
    else twin.names.push(name)
  }
  return found.map(({ names, width, land }) => ({ names: `${names.join(', ')} edge`, width, land }))
}

/** A card with a notch of the edge's profile: the edge fits it with no light on either side. */
export function bevelGauge(bevel: Bevel, thickness: number, [x, y]: XY, figures: Figures) {
  const w = bevel.width * 1e3
  const t = thickness * 1e3
  const land = bevel.land * 1e3
  const cardHeight = t + 20
  const cardWidth = w + 34
  const middle = y + cardHeight / 2
  const deep = x + cardWidth - w - 12
  const notch: XY[] = [
    [x + cardWidth, middle - t / 2],
    [deep + w, middle - t / 2],
    [deep, middle - land / 2],
    [deep, middle + land / 2],
    [deep + w, middle + t / 2],
    [x + cardWidth, middle + t / 2],
  ]
  const card: XY[] = [[x, y], [x + cardWidth, y], ...notch, [x + cardWidth, y + cardHeight], [x, y + cardHeight]]
  const halfAngle = (Math.atan((t - land) / 2 / w) * 180) / Math.PI
  const rows = [
    `bevel: ${bevel.names}`,
    `${figures.length(bevel.width)} wide to a land of ${figures.length(bevel.land)}`,
    `${plain(halfAngle, 2)}° each side; core ${figures.length(thickness)}`,
    `set back ${figures.length(bevel.width)} from the edge: scribe it before you cut`,
  ]
  const items: Primitive[] = [
    path(card, true, { layer: 'cut', stroke: stroke(pen.net) }),
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([card], { angle: Math.PI / 4, spacing: 2.4 }),
      stroke: { ink: 'light', width: pen.hair },
    },
    ...rows.map((row, i) =>
      text([x + cardWidth + 6, y + 5 + i * 6.4], row, { size: smallest, face: i === 0 ? 'title' : 'letter' }),
    ),
  ]
  return { items, height: Math.max(cardHeight, rows.length * 6.4) + 8 }
}
