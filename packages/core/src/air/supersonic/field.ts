/**
 * The plane around a fin at one Mach number: which boxes carry sources, what is known of each, and where the potential is asked.
 *
 *   fin         source strength known: it is the fin's normalwash
 *   diaphragm   ahead of a leading edge that is slower than the Mach line, and outboard of the tip: potential zero
 *   wake        behind a trailing edge, where the fin still feels it: potential carried from the trailing edge with the flow
 *
 * Boxes that no disturbance reaches, and those that no point of the fin sees, are left out. Boxes ahead of the fin continue the
 * lattice of its strips; boxes in the wake lie between lines parallel to the trailing edge, and the fin's boxes are cut there. A
 * trailing edge that is faster than the Mach line needs no cut: the fin does not see what is behind it.
 *
 * Each box of unknown strength has one receiving point on the centre line of its strip: `diaphragmPoint` of its length from its
 * front edge ahead of the leading edge, `wakePoint` in the wake, its rear edge outboard of the tip.
 */
import {
  boxesBeside,
  boxesOfFin,
  boxesOfGapsAndWake,
  diaphragmPoint,
  type FieldBox,
  type FieldStrip,
  type TrailStation,
  wakeSetback,
} from './field-boxes.ts'
import { leadOf, type SourceLattice, type SourceStrip, trailOf } from './lattice.ts'
import { coneReach, type Mirror, type Reach } from './reach.ts'

/** A point of a strip's centre line at which the potential is wanted. */
export interface Station {
  readonly strip: number
  readonly x: number
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

export function sourceField(lattice: SourceLattice, beta: number, mirror: Mirror): Field {
  const reach = coneReach(lattice, beta, mirror)
  const strips: FieldStrip[] = [...lattice.strips]
  const wakes = lattice.strips.map((strip) => wakeStrip(strip, lattice.h, beta, reach))
  const { stations, panelFrom, panelTo, trailStations } = stationsOf(lattice, wakes)
  const boxes: FieldBox[] = []
  wakes.forEach((wake, s) => {
    boxes.push(...boxesOfFin(lattice, s, reach, wake))
    const place = { lattice, s, reach, trails: trailStations[s] }
    boxes.push(...boxesOfGapsAndWake(place, wake === null ? null : { strip: wake, index: strips.length }))
    if (wake !== null) strips.push(wake)
  })
  for (const strip of sideStrips(lattice, reach, mirror)) {
    boxes.push(...boxesBeside(strip, strips.length, lattice.h, reach))
    strips.push(strip)
  }
  const subsonicLead = lattice.panels.map(({ strip, atLead }) => atLead && Math.abs(lattice.strips[strip].slope) > beta)
  return { lattice, beta, mirror, strips, boxes, stations, panelFrom, panelTo, subsonicLead }
}

/** The wake behind a strip, where the fin sees anything of it. */
function wakeStrip(strip: SourceStrip, h: number, beta: number, { rear }: Reach): FieldStrip | null {
  const { yIn, yOut, middle, pieces } = strip
  const { trailIn, trailOut } = pieces[pieces.length - 1]
  const seen = rear(yIn) > trailIn + 1e-9 * h || rear(yOut) > trailOut + 1e-9 * h
  if (!seen) return null
  const slope = (trailOut - trailIn) / (yOut - yIn)
  const setback = wakeSetback * h * Math.sqrt(Math.max(0, 1 - (beta / slope) ** 2))
  return { yIn, yOut, middle, slope, lead: (trailIn + trailOut) / 2 + setback }
}

/** Each strip beside the fin is this much wider than the one before. */
const widening = 1.25

/** Strips outboard of the tip, and without a mirror inboard of the root, as far as anything there matters. */
function sideStrips({ strips }: SourceLattice, { front, rear, yMin, yMax }: Reach, mirror: Mirror): FieldStrip[] {
  const matters = (y: number) => front(y) < rear(y)
  const found: FieldStrip[] = []
  const [first, last] = [strips[0], strips[strips.length - 1]]
  let width = last.yOut - last.yIn
  const tipLead = last.pieces[0].leadOut
  for (let y = last.yOut; y < yMax && matters(y); y += width, width *= widening) {
    found.push({ yIn: y, yOut: y + width, middle: y + width / 2, slope: 0, lead: tipLead })
  }
  if (mirror !== 0) return found
  width = first.yOut - first.yIn
  for (let y = first.yIn; y > yMin && matters(y); y -= width, width *= widening) {
    found.push({
      yIn: y - width,
      yOut: y,
      middle: y - (1 - diaphragmPoint) * width,
      slope: 0,
      lead: first.pieces[0].leadIn,
    })
  }
  return found
}

function stationsOf({ strips, panels, h }: SourceLattice, wakes: readonly (FieldStrip | null)[]) {
  const stations: Station[] = []
  const panelFrom = new Int32Array(panels.length)
  const panelTo = new Int32Array(panels.length)
  const trailStations: TrailStation[][] = strips.map(() => [])
  panels.forEach(({ strip, from, to, atLead, atTrail }, p) => {
    const behindGap = atLead && from > leadOf(strips[strip].pieces[0]) + 1e-9 * h
    if (behindGap) stations.push({ strip, x: from })
    panelFrom[p] = atLead && !behindGap ? -1 : stations.length - 1
    const [wake, last] = [wakes[strip], strips[strip].pieces.length - 1]
    const atWake = wake !== null && atTrail && to === trailOf(strips[strip].pieces[last])
    const x = atWake ? wake.lead : to
    stations.push({ strip, x })
    panelTo[p] = stations.length - 1
    if (atTrail) trailStations[strip].push({ x, station: stations.length - 1 })
  })
  return { stations, panelFrom, panelTo, trailStations }
}
