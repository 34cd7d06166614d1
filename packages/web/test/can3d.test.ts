/** The can in space: plies lie on the real body, fillets and fins; what is cut out of the ground keeps the shape's area. */
import { readFileSync } from 'node:fs'
import { canPatterns, patternSection } from '@finwright/core/assess/can-patterns.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import { area } from '@finwright/core/geometry/polygon.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'
import { describe, expect, test } from 'vitest'
import {
  bareCan,
  type CanBody,
  type Facet,
  filletLift,
  groundOf,
  placeOn,
  type Space,
  turned,
} from '../src/features/can3d/ground.ts'
import { laid, positionsOf } from '../src/features/can3d/lay.ts'
import { canModel } from '../src/features/can3d/model.ts'
import { stillCan } from '../src/features/can3d/still.ts'

const degree = Math.PI / 180

interface Read {
  readonly design: CanDesign
  readonly body: CanBody
  readonly model: NonNullable<ReturnType<typeof canModel>>
}

const example = (name: string): string => readFileSync(new URL(`../../../examples/${name}`, import.meta.url), 'utf8')

function read(name: string): Read {
  const plan = readPlan({
    text: example(`${name}.fincan.json`),
    readAttachment: (file) => ({ ok: true, text: example(file) }),
  })
  if (!plan.ok || plan.value.design.kind !== 'can') throw new Error(`${name} is a can`)
  const { design } = plan.value
  const made = canPatterns(design, curedPlies(design))
  if (!made.ok) throw new Error(`${name} has patterns`)
  const model = canModel(design, patternSection(made.value, { shear: [], relief: [] }), null)!
  return { design, model, body: model }
}

const apart = (a: Space, b: Space): number => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2])
const corners = (facets: readonly Facet[]) => facets.flat()

/** Written out again: of fin 1, whose mid-plane passes through the middle of the root and is turned there by the cant. */
function finAxes({ design: { tube, fins } }: Read) {
  const [first, last] = [fins.outline.points[0]![0], fins.outline.points.at(-1)![0]]
  const kappa = Math.asin((tube.outerRadius - tube.aftRadius) / (last - first))
  const half = (first + last) / 2
  const aft: Space = [Math.cos(kappa), -Math.sin(kappa), 0]
  const out: Space = [Math.sin(kappa), Math.cos(kappa), 0]
  // Seen from the tail the next fin stands clockwise of fin 1 along y: towards −z. Cant leans the aft end away from it.
  const next: Space = [0, 0, -1]
  const [c, s] = [Math.cos(fins.cant), Math.sin(fins.cant)]
  const middle: Space = [half * Math.cos(kappa), tube.outerRadius - (half - first) * Math.sin(kappa), 0]
  const dot = (p: Space, axis: Space): number => p.reduce((sum, value, i) => sum + (value - middle[i]!) * axis[i]!, 0)
  const both = (u: Space, v: Space, a: number, b: number): Space => [
    a * u[0] + b * v[0],
    a * u[1] + b * v[1],
    a * u[2] + b * v[2],
  ]
  const along = both(aft, next, c, -s)
  const square = both(next, aft, c, s)
  return {
    kappa,
    in: (p: Space) => ({ x: half + dot(p, along), y: dot(p, out), v: dot(p, square) }),
  }
}

/** Half the core's thickness by the bevels' planes, at the point's depth from each edge. */
function bevelled({ design: { fins } }: Read, x: number, y: number): number {
  const { points } = fins.outline
  const full = fins.core.thickness / 2
  return points.slice(1).reduce((least, b, i) => {
    const a = points[i]!
    const length = Math.hypot(b[0] - a[0], b[1] - a[1])
    const name = i === 0 ? 'leading' : i === points.length - 2 ? 'trailing' : 'tip'
    const { kind, width, land } = fins.edges[name]
    if (kind !== 'bevel') return least
    const depth = Math.abs((b[0] - a[0]) * (y - a[1]) - (b[1] - a[1]) * (x - a[0])) / length
    return Math.min(least, land / 2 + ((full - land / 2) * depth) / width)
  }, full)
}

describe.each(['demo', 'boat-tail'])('%s', (name) => {
  const can = read(name)
  const { design, body, model } = can
  const bare = bareCan(body, model.reach)
  const { N, R, x0 } = body.geometry.shape
  const fin = finAxes(can)

  test('body and fins are the design’s own: its radii at the root’s ends, planes canted, edges thinned', () => {
    const [start, end] = bare.body
    const slope = (end!.radius - start!.radius) / (end!.x - start!.x)
    expect(Math.atan(-slope)).toBeCloseTo(fin.kappa, 12)
    expect(start!.radius + slope * (x0 * Math.cos(fin.kappa) - start!.x)).toBeCloseTo(R, 12)
    for (const { at, flat } of corners(laid(bare.faces, design.fins.outline.points))) {
      const { x, y, v } = fin.in(at)
      expect(x).toBeCloseTo(flat[0], 9)
      expect(y).toBeCloseTo(flat[1], 9)
      // A crease is rounded off over 1.5 mm to each side, at a corner twice, and facets run straight across it.
      expect(Math.abs(Math.abs(v) - bevelled(can, x, y))).toBeLessThan(3e-4)
    }
    const { kind, land } = design.fins.edges.leading
    const [a, b] = [design.fins.outline.points[0]!, design.fins.outline.points[1]!]
    if (kind === 'bevel') {
      const middle = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const
      const edge = corners(bare.edges).reduce((near, one) =>
        Math.hypot(one.flat[0] - middle[0], one.flat[1] - middle[1]) <
        Math.hypot(near.flat[0] - middle[0], near.flat[1] - middle[1])
          ? one
          : near,
      )
      expect(Math.abs(fin.in(edge.at).v)).toBeCloseTo(land / 2, 4)
    }
  })

  test('fillets start on the body and have their own radius at each station', () => {
    const { x1, r, r1 } = body.geometry.shape
    const [start, end] = bare.body
    const rings = new Map<string, { readonly w: number; readonly at: Space }[]>()
    for (const { at, flat } of corners(bare.fillets)) {
      const [a, w] = flat
      if (w < 1 || w > 2 || a < x0 || a > x1) continue
      const key = `${a.toFixed(9)} ${Math.atan2(-at[2], at[1]) < Math.PI / N ? 'fin 1' : 'fin 2'}`
      rings.set(key, [...(rings.get(key) ?? []), { w, at }])
    }
    expect(rings.size).toBeGreaterThan(40)
    for (const [key, ring] of rings) {
      const [foot, middle, top] = [1, 1 + 4 / 9, 2].map((w) => ring.find((one) => Math.abs(one.w - w) < 1e-9)!.at)
      const share = (foot![0] - start!.x) / (end!.x - start!.x)
      const radius = start!.radius + share * (end!.radius - start!.radius)
      expect(Math.hypot(foot![1], foot![2])).toBeCloseTo(radius + filletLift / Math.cos(fin.kappa), 9)
      const [a, b, c] = [apart(foot!, middle!), apart(middle!, top!), apart(foot!, top!)]
      const half = (a + b + c) / 2
      const round = (a * b * c) / (4 * Math.sqrt(half * (half - a) * (half - b) * (half - c)))
      const along = (Number.parseFloat(key) - x0) / (x1 - x0)
      expect(round).toBeCloseTo(r + along * (r1 - r) - filletLift, 7)
    }
  })

  test('a ply drawn at no height lies on the bare can: on body, fillet or face', () => {
    const ply = { buildUp: 0, lift: 0, from: model.reach.from, to: model.reach.to, round: 0, wrap: 0 }
    const radius = (x: number): number =>
      R - ((x - x0 * Math.cos(fin.kappa)) / Math.cos(fin.kappa)) * Math.sin(fin.kappa)
    const counts = { body: 0, face: 0 }
    for (const { at } of corners(groundOf(body, ply))) {
      const size = Math.hypot(at[1], at[2])
      // The next fin is fin 1 turned by one bay.
      const sides = [fin.in(at), fin.in(turned(at, -1, N))]
      const onFace = sides.some(({ x, y, v }) => Math.abs(Math.abs(v) - bevelled(can, x, y)) < 2e-4)
      const onBody = Math.abs(size - radius(at[0])) < 1e-9
      if (onBody) counts.body++
      else if (onFace) counts.face++
      else expect(size - radius(at[0])).toBeGreaterThan(0)
    }
    expect(counts.body).toBeGreaterThan(300)
    expect(counts.face).toBeGreaterThan(1000)
  })

  test('each ply covers in space what it covers on the map, and lies in one piece', () => {
    for (const { id, outline, facets } of model.plies) {
      const kept = laid(facets(), outline)
      const flat = kept.reduce((sum, facet) => sum + area(facet.map((one) => one.flat)), 0)
      const wraps = (design.plies.find((one) => one.id === id)?.wrap ?? 0) > 0
      // Mitres of a wrapped ply at the fin's corners are not drawn.
      expect(flat / area(outline), id).toBeGreaterThan(wraps ? 0.97 : 0.9985)
      expect(flat / area(outline), id).toBeLessThan(1.0005)
      const positions = positionsOf(kept)
      expect(positions.every(Number.isFinite), id).toBe(true)
    }
  })

  test('a point of a ply’s map has its place; a patch of one side lies by its own fin', () => {
    for (const { id, outline, facets } of model.plies) {
      const cover = design.plies.find((one) => one.id === id)!.cover
      if (cover === 'bay') continue
      const place = placeOn(facets())
      const far = outline.reduce((most, p) => (Math.abs(p[1]) > Math.abs(most[1]) ? p : most))
      const at = place(far)!
      const angle = Math.atan2(-at[2], at[1])
      const expected = cover === 'next' ? (2 * Math.PI) / N : 0
      expect(Math.abs(angle - expected) / degree, id).toBeLessThan(8)
    }
  })

  test('at rest every ply is drawn, each as its own path', () => {
    const { paths } = stillCan(model)
    const drawn = paths.filter(({ kind }) => kind === 'ply')
    expect(drawn.map(({ id }) => id)).toEqual(model.plies.map(({ id }) => id))
    for (const { d } of drawn) expect(d).not.toContain('NaN')
    expect(paths.filter(({ kind }) => kind === 'fin')).toHaveLength(N)
  })
})

test('neighbours meet: the body’s middle of one bay turned by one bay is the next one’s', () => {
  expect(apart(turned([0.1, 1, 0], 1, 4), [0.1, 0, -1])).toBeLessThan(1e-12)
})
