/**
 * The shear that each woven ply takes when its flat piece is laid on the surface as built: run-outs, shaped edges, cant, a body
 * that narrows, a fillet that tapers.
 *
 * A net of yarns is laid from the middle of the root outward (yarn-net.ts) over the piece to its net line, and its cells give the
 * field; overhang hangs free and is trimmed off. Cells under half a degree are left out of the field: no hand sees them. A piece whose shear passes what its weave
 * gives gets cuts to relieve it (relief.ts). The net starts where cloth is laid first, on the bay's middle line; cloth worked
 * down from elsewhere shears otherwise.
 *
 * The step is 2.5 mm, or more on a piece of over 12 000 cells. Against half the step the greatest shear of the demo moves by
 * less than half a degree (docs/methods/pattern.md).
 */
import { distance, type Point } from '../../geometry/point.ts'
import { area, contains } from '../../geometry/polygon.ts'
import type { Patterns, PlyShape } from '../patterns.ts'
import type { PatternInput, ScheduledPly } from '../schedule.ts'
import { type BuiltBay, builtBay, type Side } from './built-bay.ts'
import { type ReliefCut, reliefCuts } from './relief.ts'
import { type NetCell, yarnNet } from './yarn-net.ts'

export interface ShearPlace {
  /** On the piece, bay axes. */
  readonly at: Point
  /** Signed: positive where the cloth grows along the sum of warp and weft. rad. */
  readonly shear: number
}

export interface PlyShear {
  readonly ply: string
  /** Side of a cell of the net. */
  readonly step: number
  /** Greatest shear, without its sign, and where on the piece; zero on the middle of the root where there is none. */
  readonly greatest: ShearPlace
  readonly region: ShearRegion
  /** What the weave gives, or a film by stretching; cloth without yarns that cross is left out altogether. */
  readonly limit: { readonly value: number; readonly confidence: string }
  readonly field: readonly ShearPlace[]
  /** Parts of the piece, one place a cell, that no net of rigid yarns can cover. */
  readonly unreached: readonly Point[]
  /** Greatest distance along the root between where the piece's places land and where the map has them; 0 where it is exact. */
  readonly mapError: number
  readonly cuts: readonly ReliefCut[]
}

export type ShearRegion = 'face' | 'fillet' | 'body' | 'run-out'

/** Least shear that the field holds, half a degree. */
const leastShear = Math.PI / 360
const finest = 2.5e-3
const mostCells = 12_000

export function plyShears({ plies, tube, fins }: PatternInput, patterns: Patterns): readonly PlyShear[] {
  const { outline, core, edges, count, cant, fillet } = fins
  const surface = JSON.stringify([tube, outline, core.thickness, edges, count, cant, fillet])
  return plies.flatMap((ply) => {
    const shape = patterns.shapes.find((one) => one.ply === ply.id)
    const limit = ply.cloth.maximumShear
    if (shape === undefined || limit === null) return []
    const key = `${surface} ${JSON.stringify([shape.netOutline, shape.buildUp, ply.angle])}`
    const laid = kept(key, () => laidCloth(ply, shape, patterns))
    const { cells, ...figures } = laid
    const cuts = reliefCuts({ cells, step: laid.step, limit: limit.value, net: shape.netOutline })
    return [{ ply: ply.id, limit, ...figures, cuts }]
  })
}

/** What laying a piece gives, whatever its weave bears. */
interface LaidCloth extends Omit<PlyShear, 'ply' | 'limit' | 'cuts'> {
  readonly cells: readonly ShearPlace[]
}

/** Pieces laid of late, the latest last: a change that moves neither a piece nor the surface lays none again. Two cans of a dozen plies. */
const known = new Map<string, LaidCloth>()
const most = 24

function kept(key: string, make: () => LaidCloth): LaidCloth {
  const laid = known.get(key) ?? make()
  known.delete(key)
  known.set(key, laid)
  if (known.size > most) known.delete(known.keys().next().value!)
  return laid
}

function laidCloth(ply: ScheduledPly, shape: PlyShape, { geometry }: Patterns): LaidCloth {
  const bay = builtBay(geometry.shape, shape.buildUp)
  const { x0, x1 } = geometry.shape
  const step = Math.max(finest, Math.sqrt(area(shape.netOutline) / mostCells))
  const start = (x0 + x1) / 2
  const reach = Math.max(...shape.netOutline.map((p) => distance(p, [start, 0]))) + 2 * step
  const net = yarnNet({ bay, start, angle: ply.angle, step, reach, wanted: (p) => contains(shape.netOutline, p) })
  const size = ({ shear }: ShearPlace) => Math.abs(shear)
  const worst = net.cells.reduce<NetCell | null>((a, b) => (a !== null && size(a) >= size(b) ? a : b), null)
  const chart = geometry.chartAt(shape.buildUp)
  const onRoot = net.joints.filter(({ joint: { a } }) => a > x0 && a < x1)
  const cells = net.cells.map(({ at, shear }) => ({ at, shear }))
  return {
    step,
    greatest: worst === null ? { at: [start, 0], shear: 0 } : { at: worst.at, shear: worst.shear },
    region: worst === null ? 'body' : regionOf(bay, worst),
    cells,
    field: cells.filter((cell) => size(cell) >= leastShear),
    unreached: net.unreached,
    mapError:
      chart === null ? 0 : Math.max(0, ...onRoot.map(({ flat, joint: { a, s } }) => distance(flat, chart.flat(a, s)))),
  }
}

function regionOf(bay: BuiltBay, { joint: { a, s } }: NetCell): ShearRegion {
  const side: Side = s < 0 ? -1 : 1
  const { foot, top } = bay.section(side, a)
  if (Math.abs(s) <= foot) return 'body'
  if (a < bay.shape.x0 || a > bay.shape.x1) return 'run-out'
  return Math.abs(s) < top ? 'fillet' : 'face'
}
