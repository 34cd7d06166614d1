/**
 * The root joint in section, to scale: core, skins, base bond, fillets and tube, with the margin of each way to go beside the
 * place it belongs to. Geometry of the section: bond.md; a fillet's circle touches the fin's face and the tube.
 */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import {
  arcVertices,
  circle,
  fill,
  line,
  type Primitive,
  path,
  pen,
  stroke,
  text,
  type Vertex,
  type XY,
} from '../../drawing/drawing.ts'
import { arcPoint } from '../../drawing/extent.ts'
import { hatched } from '../../drawing/hatch.ts'
import { arrow, leader } from '../../layout/dimension.ts'
import { plain } from '../../layout/figures.ts'
import type { Area } from '../margins.ts'

/** Page mm over section mm at most. */
const scale = 2.2

/** In a box of this size, with its own origin; null where the joint or its section was not computed. */
export function jointPicture({ bond, pattern, fin }: Assessment, { width, height }: Area): Primitive[] | null {
  const { joint, fillet } = bond
  const { section } = pattern
  const root = fin.thickness_m.root
  if (joint === null || fillet === null || section === null || root === null) return null
  const R = section.tubeRadius_m * 1e3
  const half = (section.coreThickness_m * 1e3) / 2
  const r = fillet.radius_m * 1e3
  const skin = Math.max(0, (root - section.coreThickness_m) * 1e3) / 2
  const centre = filletCentre(R, half, r)
  const foot = Math.atan2(centre[0], R + centre[1])
  const reach = Math.min(0.98 * R, R * Math.sin(foot) + 0.5 * r + 2)
  const [high, low] = [centre[1] + 0.9 * r, Math.min(onTube(R, reach), -8 / scale) - 3]
  const k = Math.min(scale, (0.46 * width) / (2 * reach), (height - 6) / (high - low))
  // the section's own axes: p across from the fin's mid-plane, q outward from the tube's top
  const at = (p: number, q: number): XY => [width / 2 + p * k, 5 + (high - q) * k]
  const shape = { R, half, r, skin, reach, k, at, centre, foot, top: 5 }
  return [...tube(shape), ...fillets(shape), ...core(shape), ...skins(shape), ...labels(shape, joint), ...load(shape)]
}

interface Shape {
  readonly R: number
  readonly half: number
  readonly r: number
  readonly skin: number
  readonly reach: number
  readonly k: number
  readonly at: (p: number, q: number) => XY
  /** Of the right fillet's circle, q from the tube's top. */
  readonly centre: XY
  /** Where that circle touches the tube, seen from the axis, rad. */
  readonly foot: number
  /** Page y where the fin is cut off. */
  readonly top: number
}

/** Touches the face p = half and the tube: at R + r from the axis, r off the face. */
function filletCentre(R: number, half: number, r: number): XY {
  const p = half + r
  return [p, Math.sqrt((R + r) ** 2 - p ** 2) - R]
}

const onTube = (R: number, p: number): number => Math.sqrt(Math.max(0, R ** 2 - p ** 2)) - R

function fillets({ R, half, r, at, centre, k, foot }: Shape): Primitive[] {
  return [1, -1].map((side) => {
    const [footP, footQ] = [R * Math.sin(foot), R * Math.cos(foot) - R]
    const page = at(side * centre[0], centre[1])
    const from = Math.atan2(at(side * half, centre[1])[1] - page[1], at(side * half, centre[1])[0] - page[0])
    const end = at(side * footP, footQ)
    const to = Math.atan2(end[1] - page[1], end[0] - page[0])
    const turn = shortest(to - from)
    const under: Vertex[] = Array.from({ length: 9 }, (_, i) => {
      const p = footP + ((half - footP) * i) / 8
      return at(side * p, onTube(R, p))
    })
    const outline: Vertex[] = [...arcVertices(page, r * k, from, from + turn), ...under]
    return path(outline, true, { fill: fill('ink', 0.3), stroke: stroke(pen.thin), layer: 'fill' })
  })
}

const shortest = (angle: number): number => Math.atan2(Math.sin(angle), Math.cos(angle))

/** Its outer surface, hatched underneath. */
function tube({ R, reach, at }: Shape): Primitive[] {
  const across = Array.from({ length: 33 }, (_, i) => -reach + (2 * reach * i) / 32)
  const outer = across.map((p) => at(p, onTube(R, p)))
  const under = outer.map(([x, y]): XY => [x, y + 3.6]).reverse()
  return [
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([[...outer, ...under]], { angle: Math.PI / 4, spacing: 1.3 }),
      stroke: stroke(pen.hair, 'mid'),
    },
    path(outer, false, { stroke: stroke(pen.net), layer: 'mark' }),
  ]
}

function core(shape: Shape): Primitive[] {
  const { half, at, R, top } = shape
  const outline: XY[] = [
    at(-half, onTube(R, half)),
    at(half, onTube(R, half)),
    [at(half, 0)[0], top],
    [at(-half, 0)[0], top],
  ]
  return [
    path(outline, true, { fill: fill('paper'), layer: 'fill' }),
    {
      kind: 'lines',
      layer: 'weave',
      pairs: hatched([outline], { angle: -Math.PI / 4, spacing: 1.4 }),
      stroke: stroke(pen.hair, 'light'),
    },
    line(outline[0], outline[3], stroke(pen.thin)),
    line(outline[1], outline[2], stroke(pen.thin)),
    line(outline[0], outline[1], stroke(pen.heavy)),
  ]
}

/** One band each side, from the fin's face round the fillet onto the tube. */
function skins(shape: Shape): Primitive[] {
  const { R, half, r, skin, at, centre, k, reach, foot, top } = shape
  return [1, -1].map((side) => {
    const page = at(side * centre[0], centre[1])
    const angles = (radius: number): Vertex[] => {
      const start = at(side * half, centre[1])
      const from = Math.atan2(start[1] - page[1], start[0] - page[0])
      const end = at(side * R * Math.sin(foot), R * Math.cos(foot) - R)
      const to = Math.atan2(end[1] - page[1], end[0] - page[0])
      return arcVertices(page, radius * k, from, from + shortest(to - from))
    }
    const body = (radius: number): Vertex[] =>
      Array.from({ length: 9 }, (_, i) => {
        const p = R * Math.sin(foot) + ((reach - R * Math.sin(foot)) * i) / 8
        const angle = Math.asin(Math.min(1, p / R))
        return at(side * radius * Math.sin(angle), radius * Math.cos(angle) - R)
      })
    const inner: Vertex[] = [[at(side * half, 0)[0], top], ...angles(r), ...body(R)]
    const outer: Vertex[] = [[at(side * (half + skin), 0)[0], top], ...angles(r - skin), ...body(R + skin)]
    return path([...plainEnds(inner), ...plainEnds(outer).reverse()], true, {
      fill: fill('ink', 0.62),
      stroke: stroke(pen.thin),
      layer: 'fill',
    })
  })
}

/** Arcs as short straights, so that a band can run back along its other side. */
function plainEnds(vertices: readonly Vertex[]): XY[] {
  return vertices.flatMap(([x, y, bulge = 0], i): XY[] => {
    const next = vertices[i + 1]
    if (bulge === 0 || next === undefined) return [[x, y]]
    return Array.from({ length: 8 }, (_, j) => arcPoint([x, y], [next[0], next[1]], bulge, j / 8))
  })
}

/** Each way to go, named at its place, the margin with it. */
function labels(shape: Shape, { byMode, worst }: NonNullable<Assessment['bond']['joint']>): Primitive[] {
  const { at, half, R, r, skin, centre, foot, reach } = shape
  const diagonal = (radius: number, side: number): XY => {
    const angle = (Math.PI + (1.5 * Math.PI - foot)) / 2
    return at(side * (centre[0] + radius * Math.cos(angle)), centre[1] + radius * Math.sin(angle))
  }
  const [left, right] = [at(-reach, 0)[0] - 6, at(reach, 0)[0] + 6]
  const [high, low] = [at(0, 0.75 * r)[1], at(0, -0.15 * r)[1]]
  const places: Readonly<Record<string, { readonly to: XY; readonly from: XY }>> = {
    'skin opening': { to: diagonal(r - skin / 2, 1), from: [right, high] },
    fillet: { to: at(half + 0.15 * r, onTube(R, half + 0.15 * r) + 0.13 * r), from: [right, low] },
    'skin peel': { to: diagonal(r, -1), from: [left, high] },
    'base bond': { to: at(-0.5 * half, onTube(R, half)), from: [left, low] },
  }
  return byMode.flatMap(({ mode, margin }): Primitive[] => {
    const place = places[mode]
    if (place === undefined) return []
    const anchor = place.to[0] < at(0, 0)[0] ? 'end' : 'start'
    const figure = margin === null ? 'no load' : `${margin >= 0 ? '+' : ''}${plain(margin, 2)}`
    const gap = anchor === 'start' ? 0.8 : -0.8
    return [
      circle(place.to, 0.55, { fill: fill('ink'), stroke: stroke(pen.fine, 'paper'), layer: 'mark' }),
      ...leader(place.from, place.to, mode === worst.mode ? `${mode}, the weakest` : mode, 2.9, anchor),
      text([place.from[0] + gap, place.from[1] + 5.6], figure, { size: 4.6, face: 'title', anchor }),
    ]
  })
}

/** The air load on one face, and what is what. */
function load({ at, half, skin, k, top }: Shape): Primitive[] {
  const [x] = at(0, 0)
  const out = (half + skin) * k
  const small = { size: 2.7, face: 'letter' } as const
  const [, ground] = at(0, 0)
  return [
    ...arrow([x - out - 17, top + 5], [x - out - 1, top + 5], { width: pen.net, head: 3 }),
    text([x - out - 18, top + 6], 'air load', { ...small, anchor: 'end' }),
    text([x, top - 1.6], 'fin', { ...small, anchor: 'middle' }),
    text([x, ground + 7.4], 'tube', { ...small, anchor: 'middle' }),
  ]
}
