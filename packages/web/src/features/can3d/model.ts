/** What is drawn of a can: its own geometry, its plies with the ground that each lies on, and the shapes that its fin swings in. */
import type { PatternSection, StructureSection } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { finPolygon, finSides } from '@finwright/core/geometry/fin-outline.ts'
import type { Point } from '@finwright/core/geometry/point.ts'
import { isConvex } from '@finwright/core/geometry/polygon.ts'
import { bayGeometry } from '@finwright/core/pattern/bay-geometry.ts'
import { comesOff } from '@finwright/core/pattern/schedule.ts'
import { roundTheLand } from '@finwright/core/pattern/unfold.ts'
import { type CanBody, type Facet, groundOf } from './ground.ts'

export interface CanModel extends CanBody {
  readonly finCount: number
  readonly span: number
  /** From the core outward. */
  readonly plies: readonly ModelPly[]
  /** Farthest ends of them on the body. */
  readonly reach: { readonly from: number; readonly to: number }
  /** Between one ply and the next as drawn, m. */
  readonly step: number
  readonly shapes: StructureSection['shapes']
  /** The same for cans whose bare bodies look the same. */
  readonly key: string
  /** In words, what of this can is not drawn. */
  readonly leftOut: readonly string[]
}

export interface ModelPly {
  readonly id: string
  /** The same for plies that lie on the same ground in the same shape. */
  readonly key: string
  readonly outline: readonly Point[]
  readonly facets: () => readonly Facet[]
}

/** Plies are drawn thicker than they are, so that steps can be seen; m. */
const drawnPly = 0.6e-3
/** Of the fillet's radius, so that the outermost ply still has a hollow. */
const most = 0.6

/** Null where its bay cannot be drawn. */
export function canModel(
  design: CanDesign,
  { shapes: laid, tube }: PatternSection,
  shapes: StructureSection['shapes'],
): CanModel | null {
  const made = bayGeometry(design)
  if (!made.ok) return null
  const geometry = made.value
  const { fins } = design
  const { x0, x1 } = geometry.shape
  const body: CanBody = {
    geometry,
    outline: fins.outline,
    canEnds: tube?.canEnds_m ?? { forward: null, aft: null },
  }
  const bareKey = JSON.stringify([design.tube, fins, body.canEnds])
  const kept = laid.filter(({ role }) => !comesOff(role))
  const step = Math.min(drawnPly, (most * geometry.leastRadius) / (kept.length + 1))
  const land = Math.max(
    ...(['leading', 'tip', 'trailing'] as const).map((edge) =>
      fins.edges[edge].kind === 'square' ? fins.core.thickness : fins.edges[edge].land,
    ),
  )
  const reached = (tube?.ends ?? []).map(({ at_m }) => at_m)
  const plies = kept.map(({ ply, netOutline_m, buildUp_m }, i): ModelPly => {
    const ends = (tube?.ends ?? []).filter((end) => end.ply === ply).map(({ at_m }) => at_m)
    const drawn = {
      buildUp: buildUp_m,
      lift: (i + 1) * step,
      from: Math.min(x0, ...ends),
      to: Math.max(x1, ...ends),
      round: roundTheLand(land, buildUp_m),
      wrap: design.plies.find(({ id }) => id === ply)?.wrap ?? 0,
    }
    const key = JSON.stringify([bareKey, drawn, netOutline_m])
    return { id: ply, key, outline: netOutline_m, facets: once(() => groundOf(body, drawn)) }
  })
  const reach = { from: Math.min(x0, ...reached), to: Math.max(x1, ...reached) }
  return {
    ...body,
    finCount: fins.count,
    span: Math.max(...fins.outline.points.map(([, y]) => y)),
    ...{ plies, reach, key: JSON.stringify([bareKey, reach]) },
    step,
    shapes,
    leftOut: leftOut(design, geometry.shape.face),
  }
}

function leftOut({ fins, plies }: CanDesign, face: (x: number, y: number) => number): string[] {
  const whole = fins.core.thickness / 2
  const plain = finSides(fins.outline).some(({ a, b, name }) => {
    if (name === 'root' || fins.edges[name].kind === 'square') return false
    return face((a[0] + b[0]) / 2, (a[1] + b[1]) / 2) === whole
  })
  const bulges = isConvex(finPolygon(fins.outline))
  const wrapped = plies.some(({ wrap }) => wrap > 0)
  return [
    ...(plain
      ? [bulges ? 'roundings narrower than 4 mm' : 'shaped edges, as the outline does not bulge outward everywhere']
      : []),
    ...(wrapped
      ? [bulges ? 'corners of cloth wrapped over the edges' : 'the turn of cloth wrapped over the edges']
      : []),
  ]
}

function once<T>(make: () => T): () => T {
  let known: { readonly value: T } | null = null
  return () => {
    known ??= { value: make() }
    return known.value
  }
}
