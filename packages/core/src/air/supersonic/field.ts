/**
 * The plane around a fin at one Mach number: which boxes carry sources, what is known of each, and where the potential is asked.
 *
 *   fin         source strength known: it is the fin's normalwash
 *   diaphragm   ahead of a leading edge that is slower than the Mach line, and outboard of the tip: potential zero
 *   wake        behind a trailing edge, where the fin still feels it: potential carried from the trailing edge with the flow
 *
 * Boxes that no disturbance reaches, and those that no point of the fin sees, are left out. Each box of unknown strength has one
 * receiving point on the centre line of its strip: `diaphragmPoint` of its length from its front edge if it lies ahead of the
 * leading edge, `wakePoint` in the wake, its rear edge outboard of the tip.
 */
import { leadOf, type SourceLattice, type SourceStrip, trailOf } from './lattice.ts'

/**
 * Receiving point of a box ahead of the leading edge, from its front, in box lengths. With constant sources in a half-infinite row
 * of boxes and the potential zero 0.2153 of a box outside the edge the effective edge is the edge itself
 * (docs/methods/air-supersonic.md).
 */
export const diaphragmPoint = 1 - 0.215_3
export const wakePoint = 0.75

export type BoxKind = 'fin' | 'diaphragm' | 'wake'

/** A strip of the plane: of the fin, or beside it (no pieces). */
export interface FieldStrip {
  readonly yIn: number
  readonly yOut: number
  readonly middle: number
  readonly slope: number
  /** x of line 0 on the centre line. */
  readonly lead: number
}

export interface FieldBox {
  readonly strip: number
  /** Between lines `line` and `line + 1`. */
  readonly line: number
  readonly kind: BoxKind
  /** Receiving point, in box lengths from the box's front edge; fin boxes have none. */
  readonly point: number
  /** Of the receiving point, on the centre line. */
  readonly x: number
  /** Number of the fin's box in the lattice, −1 off the fin. */
  readonly fin: number
  /** Station of the trailing edge ahead of a wake box, −1 elsewhere. */
  readonly trail: number
}

/** A point of a strip's centre line at which the potential is wanted. */
export interface Station {
  readonly strip: number
  readonly x: number
  /** Line it lies on, if on one. */
  readonly line: number | null
}

export interface Field {
  readonly lattice: SourceLattice
  readonly beta: number
  readonly mirror: Mirror
  readonly strips: readonly FieldStrip[]
  readonly boxes: readonly FieldBox[]
  readonly stations: readonly Station[]
  /** Station at the front and rear end of each panel; −1 at a leading edge, where the potential is zero. */
  readonly panelFrom: Int32Array
  readonly panelTo: Int32Array
  /** Whether each panel begins at a leading edge that the flow turns round. */
  readonly subsonicLead: readonly boolean[]
}

/** 1 for a symmetric flow, −1 for an antisymmetric one, 0 for a fin alone. */
export type Mirror = 1 | 0 | -1

export function sourceField(lattice: SourceLattice, beta: number, mirror: Mirror): Field {
  const reach = coneReach(lattice, beta, mirror)
  const strips = [...lattice.strips.map(finStrip), ...sideStrips(lattice, reach, mirror)]
  const { stations, panelFrom, panelTo, trailStations } = stationsOf(lattice)
  const boxes = strips.flatMap((strip, s) =>
    s < lattice.strips.length ? boxesOfFinStrip(lattice, s, beta, reach, trailStations[s]) : boxesBeside(strip, s, lattice.h, reach),
  )
  const subsonicLead = lattice.panels.map(
    ({ strip, atLead }) => atLead && Math.abs(lattice.strips[strip].slope) > beta,
  )
  return { lattice, beta, mirror, strips, boxes, stations, panelFrom, panelTo, subsonicLead }
}

interface Reach {
  /** x from which on a disturbance is felt at y. */
  readonly front: (y: number) => number
  /** x up to which the fin feels what happens at y. */
  readonly rear: (y: number) => number
  /** Spans between which any box matters. */
  readonly yMin: number
  readonly yMax: number
}

function coneReach({ strips }: SourceLattice, beta: number, mirror: Mirror): Reach {
  const sides = mirror === 0 ? [1] : [1, -1]
  const at = (x: number, y: number) => sides.map((side) => ({ x, y: side * y }))
  const leads = strips.flatMap(({ pieces, yIn, yOut }) =>
    pieces.flatMap(({ leadIn, leadOut }) => [...at(leadIn, yIn), ...at(leadOut, yOut)]),
  )
  const trails = strips.flatMap(({ pieces, middle }) => pieces.flatMap((piece) => at(trailOf(piece), middle)))
  const front = (y: number) => leads.reduce((least, p) => Math.min(least, p.x + beta * Math.abs(p.y - y)), Number.POSITIVE_INFINITY)
  const rear = (y: number) => trails.reduce((most, p) => Math.max(most, p.x - beta * Math.abs(p.y - y)), Number.NEGATIVE_INFINITY)
  const [foremost, aftmost] = [Math.min(...leads.map(({ x }) => x)), Math.max(...trails.map(({ x }) => x))]
  const tip = strips[strips.length - 1].yOut
  const farthest = (aftmost - foremost) / beta
  return { front, rear, yMin: mirror === 0 ? -farthest : 0, yMax: tip + farthest }
}

const finStrip = ({ yIn, yOut, middle, slope, lead }: SourceStrip): FieldStrip => ({ yIn, yOut, middle, slope, lead })

/** Strips outboard of the tip, and without a mirror inboard of the root, as far as anything there matters. */
function sideStrips({ strips }: SourceLattice, { front, rear, yMin, yMax }: Reach, mirror: Mirror): FieldStrip[] {
  const matters = (y: number) => front(y) < rear(y)
  const found: FieldStrip[] = []
  const last = strips[strips.length - 1]
  let width = last.yOut - last.yIn
  const tipLead = leadOf(last.pieces[0]) + (last.slope * width) / 2
  for (let y = last.yOut; y < yMax && matters(y); y += width, width *= widening) {
    found.push({ yIn: y, yOut: y + width, middle: y + width / 2, slope: 0, lead: tipLead })
  }
  if (mirror !== 0) return found
  const [first] = strips
  width = first.yOut - first.yIn
  for (let y = 0; y > yMin && matters(y); y -= width, width *= widening) {
    found.push({ yIn: y - width, yOut: y, middle: y - width / 2, slope: 0, lead: first.lead - (first.slope * (first.yOut - first.yIn)) / 2 })
  }
  return found
}

/** Each strip beside the fin is this much wider than the one before. */
const widening = 1.1

function stationsOf({ strips, panels, h, stripStart }: SourceLattice) {
  const stations: Station[] = []
  const panelFrom = new Int32Array(panels.length)
  const panelTo = new Int32Array(panels.length)
  const trailStations: { x: number; station: number }[][] = strips.map(() => [])
  panels.forEach(({ strip, box, from, to, atLead, atTrail }, p) => {
    const line = box - stripStart[strip] + 1
    const secondPiece = atLead && from > strips[strip].lead + 1e-9 * h
    if (secondPiece) stations.push({ strip, x: from, line: null })
    panelFrom[p] = atLead && !secondPiece ? -1 : stations.length - 1
    stations.push({ strip, x: to, line: atTrail ? null : line })
    panelTo[p] = stations.length - 1
    if (atTrail) trailStations[strip].push({ x: to, station: stations.length - 1 })
  })
  return { stations, panelFrom, panelTo, trailStations }
}

/** Slack in x, in box lengths, against rounding. */
const slack = 1e-9

function boxesOfFinStrip(
  { strips, h, stripStart }: SourceLattice,
  s: number,
  beta: number,
  { front, rear }: Reach,
  trails: readonly { x: number; station: number }[],
): FieldBox[] {
  const strip = strips[s]
  const { lead, slope, middle, yIn, yOut, pieces } = strip
  const boxes: FieldBox[] = []
  const point = diaphragmPoint
  for (let line = -1; ; line--) {
    const x = lead + (line + point) * h
    if (!(x > front(middle) + slack * h)) break
    boxes.push({ strip: s, line, kind: 'diaphragm', point, x, fin: -1, trail: -1 })
  }
  const onFin = stripStart[s + 1] - stripStart[s]
  const foremost = (line: number) => Math.max(
    ...[yIn, middle, yOut].map((y) => rear(y) - (lead + slope * (y - middle) + line * h)),
  )
  for (let line = 0; line < onFin || foremost(line) > slack * h; line++) {
    const centre = lead + (line + 0.5) * h
    if (isFin(pieces, strip, centre, line, line < onFin, beta)) {
      boxes.push({ strip: s, line, kind: 'fin', point: 0, x: Number.NaN, fin: stripStart[s] + line, trail: -1 })
    } else {
      const x = lead + (line + wakePoint) * h
      const trail = trails.reduce((found, t) => (t.x <= centre ? t.station : found), trails[0].station)
      boxes.push({ strip: s, line, kind: 'wake', point: wakePoint, x, fin: -1, trail })
    }
  }
  return boxes.reverse().sort((a, b) => a.line - b.line)
}

/**
 * A box cut by a trailing edge faster than the Mach line belongs to the fin as a whole: no point of the fin sees the rest of it.
 * Elsewhere its middle decides. The first box of a strip always belongs.
 */
function isFin(
  pieces: SourceStrip['pieces'],
  { yIn, yOut }: SourceStrip,
  centre: number,
  line: number,
  hasFin: boolean,
  beta: number,
): boolean {
  if (line === 0) return true
  if (pieces.some((piece) => leadOf(piece) <= centre && centre < trailOf(piece))) return true
  const last = pieces[pieces.length - 1]
  const supersonicTrail = Math.abs(last.trailOut - last.trailIn) <= beta * (yOut - yIn)
  return hasFin && supersonicTrail && centre >= trailOf(last)
}

function boxesBeside(strip: FieldStrip, s: number, h: number, { front, rear }: Reach): FieldBox[] {
  const { lead, middle, yIn, yOut } = strip
  const boxes: FieldBox[] = []
  // Receiving point on the rear edge.
  for (let line = Math.floor((front(middle) - lead) / h + slack); ; line++) {
    const x = lead + (line + 1) * h
    const felt = Math.max(rear(yIn), rear(middle), rear(yOut))
    if (!(lead + line * h < felt - slack * h)) break
    boxes.push({ strip: s, line, kind: 'diaphragm', point: 1, x, fin: -1, trail: -1 })
  }
  return boxes
}
