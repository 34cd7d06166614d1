/**
 * Landing marks: the wrap rolled back on to the body against the fins' own planes and the ticks of every ply laid in space, for
 * straight, canted and conical bodies. Paper and plies are rolled back here by the apex of their cones, written out again.
 */
import type { PatternSection } from '@finwright/core/assess/assessment.ts'
import { canPatterns, patternSection } from '@finwright/core/assess/can-patterns.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import type { Path, XY } from '../../src/drawing/drawing.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { tubeWrap } from '../../src/pattern/tube-wrap.ts'
import { demoDesign } from '../fixture/demo.ts'
import { readExample } from '../fixture/example.ts'

const degree = Math.PI / 180
const paperThickness = 1e-4
const boatTail = readExample('boat-tail')

type Space = readonly [axial: number, across: number, out: number]

/** A cone's mid-surface, flat: the place (X aft, Y round) as a place in space; Y = 0 lies at the angle `about`. */
interface Cone {
  readonly radius: number
  readonly kappa: number
  readonly off: number
}
function rolled({ radius, kappa, off }: Cone, [X, Y]: XY): { station: number; angle: number } {
  const R = radius + off / Math.cos(kappa)
  if (kappa === 0) return { station: X, angle: Y / R }
  const toApex = R / Math.sin(kappa)
  const [dx, dy] = [toApex - X, Y]
  const rho = Math.sign(toApex) * Math.hypot(dx, dy)
  return { station: toApex - rho, angle: Math.atan2(Math.sign(toApex) * dy, Math.sign(toApex) * dx) / Math.sin(kappa) }
}

/** On the bare body: every thing compared is brought down to it along the section's own plane. */
const onBody = ({ radius, kappa }: Cone, { station, angle }: { station: number; angle: number }): Space => {
  const R = radius - station * Math.sin(kappa)
  return [station * Math.cos(kappa), R * Math.sin(angle), R * Math.cos(angle)]
}
const apart = (p: Space, q: Space): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2])

interface Can {
  readonly design: CanDesign
  readonly pattern: PatternSection
  readonly bare: Cone
  readonly wrap: readonly Path[]
  /** A point of the wrap on the body, from the angle of the paper's left edge. */
  readonly back: (p: XY) => Space
}

function canOf(design: CanDesign): Can | null {
  const made = canPatterns(design, curedPlies(design))
  if (!made.ok) return null
  const pattern = patternSection(made.value, { shear: [], relief: [] })
  const { outline } = design.fins
  const length = outline.points.at(-1)![0] - outline.points[0][0]
  const kappa = Math.asin((design.tube.outerRadius - design.tube.aftRadius) / length)
  const bare = { radius: design.tube.outerRadius, kappa, off: 0 }
  const { items } = tubeWrap({ tube: pattern.tube!, paperThickness, figures: figuresIn('metric') })
  const paper = { ...bare, off: paperThickness / 2 }
  return {
    design,
    pattern,
    bare,
    wrap: items.filter((item): item is Path => item.kind === 'path'),
    back: ([x, y]) => {
      const { station, angle } = rolled(paper, [y * 1e-3, x * 1e-3])
      return onBody(bare, { station, angle: angle + Math.PI })
    },
  }
}

interface Knobs {
  readonly count: number
  readonly narrows: number
  readonly cant: number
  readonly taper: number
}
const knobs: fc.Arbitrary<Knobs> = fc.record({
  count: fc.integer({ min: 3, max: 4 }),
  narrows: fc.oneof(
    fc.constant(0),
    fc.double({ min: -0.25, max: 0.25, noNaN: true }).filter((share) => Math.abs(share) > 1e-3),
  ),
  cant: fc.oneof(fc.constant(0), fc.double({ min: -1.5, max: 1.5, noNaN: true })),
  taper: fc.double({ min: 0, max: 0.3, noNaN: true }),
})
const varied = (base: CanDesign, { count, narrows, cant, taper }: Knobs): CanDesign => ({
  ...base,
  tube: { ...base.tube, aftRadius: base.tube.outerRadius * (1 - narrows) },
  fins: {
    ...base.fins,
    count,
    cant: cant * degree,
    fillet: { ...base.fins.fillet, radiusAft: base.fins.fillet.radius * (1 - taper) },
  },
})

/** Each tick of the wrap in bay `k`, from 0, turned to put the bay's centre line on top. */
function wrapTicks({ wrap, back, design }: Can, k: number): [Space, Space][] {
  const bay = (2 * Math.PI) / design.fins.count
  const turned = ([axial, across, out]: Space): Space => {
    const angle = Math.atan2(across, out) - k * bay
    const R = Math.hypot(across, out)
    return [axial, R * Math.sin(angle), R * Math.cos(angle)]
  }
  return wrap
    .filter(({ layer, vertices, stroke }) => layer === 'mark' && vertices.length === 2 && stroke?.width === 0.5)
    .map(({ vertices: [p, q] }) => [turned(back([p[0], p[1]])), turned(back([q[0], q[1]]))])
}

function plyTicks({ pattern, bare }: Can): { ply: string; ends: [Space, Space] }[] {
  return pattern.shapes.flatMap(({ ply, buildUp_m, marks }) =>
    marks
      .filter(({ kind }) => kind === 'tick')
      .map(({ points_m: [p, q] }) => {
        const place = (point: XY): Space => onBody(bare, rolled({ ...bare, off: buildUp_m }, point))
        return { ply, ends: [place(p), place(q)] as [Space, Space] }
      }),
  )
}

const missed = (can: Can, k: number): { ply: string; by: number }[] => {
  const ticks = wrapTicks(can, k)
  return plyTicks(can).map(({ ply, ends: [a, b] }) => ({
    ply,
    by: Math.min(
      ...ticks.flatMap(([p, q]) => [Math.max(apart(a, p), apart(b, q)), Math.max(apart(a, q), apart(b, p))]),
    ),
  }))
}

const cases: [string, CanDesign][] = [
  ['the demo', demoDesign],
  ['the boat-tail', boatTail],
]

describe.each(cases)('%s', (_, design) => {
  const can = canOf(design)!

  test('every tick of every ply falls on one of the wrap, in every bay that is not cut by the seam', () => {
    // On a straight bay to a micrometre; else the foot of an outer ply is a few micrometres round from the bare one.
    const allowed = design.tube.aftRadius === design.tube.outerRadius && design.fins.cant === 0 ? 1e-6 : 2e-5
    for (let k = 0; k + 1 < design.fins.count; k++) {
      const found = missed(can, k + 1)
      expect(found.length).toBeGreaterThan(6 * can.pattern.shapes.filter(({ ply }) => ply.startsWith('P')).length - 20)
      for (const { ply, by } of found) expect(by, `${ply} in bay ${k + 1}`).toBeLessThan(allowed)
    }
  })

  test('every ply has a stroke at both its ends, on its centre line (a patch not) and its feet', () => {
    for (const { ply, marks, netOutline_m } of can.pattern.shapes) {
      const crosses = netOutline_m.some(([, Y]) => Y > 1e-6) && netOutline_m.some(([, Y]) => Y < -1e-6)
      const strokes = marks.filter(({ kind }) => kind === 'tick')
      const onNet = strokes.filter(({ points_m }) =>
        points_m.some((p) => netOutline_m.some((q, i) => near(p, q, netOutline_m[(i + 1) % netOutline_m.length]))),
      )
      expect(onNet.length, ply).toBeGreaterThanOrEqual(crosses ? 6 : 2)
    }
  })

  test('has teeth: a tube half a millimetre thicker than it was measured lands them elsewhere', () => {
    const other = canOf({
      ...design,
      tube: {
        ...design.tube,
        outerRadius: design.tube.outerRadius + 2.5e-4,
        aftRadius: design.tube.aftRadius + 2.5e-4,
      },
    })!
    const paper = { ...can.bare, off: paperThickness / 2 }
    const onThinner: Can = {
      ...other,
      design,
      back: ([x, y]) => {
        const { station, angle } = rolled(paper, [y * 1e-3, x * 1e-3])
        return onBody(can.bare, { station, angle: angle + Math.PI })
      },
    }
    const most = Math.max(...plyTicks(can).map((_, i) => missed({ ...onThinner, pattern: can.pattern }, 1)[i].by))
    expect(most).toBeGreaterThan(1e-4)
  })
})

const near = (p: XY, a: XY, b: XY): boolean => {
  const [ux, uy] = [b[0] - a[0], b[1] - a[1]]
  const length = Math.hypot(ux, uy)
  if (length < 1e-12) return false
  const t = ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / length
  return t > -1e-6 && t < length + 1e-6 && Math.abs((p[0] - a[0]) * uy - (p[1] - a[1]) * ux) / length < 1e-5
}

/** Of fin `i`, from 0: the plane through the middle of the root, canted about the line square to the body there. */
function finPlane({ design, bare: { radius, kappa } }: Can, i: number) {
  const { fins } = design
  const half = fins.outline.points.at(-1)![0] / 2
  const about = ((i + 0.5) * 2 * Math.PI) / fins.count
  const out = [0, Math.sin(about), Math.cos(about)]
  const round = [0, Math.cos(about), -Math.sin(about)]
  const sum = (u: readonly number[], v: readonly number[], a: number, b: number) => u.map((x, k) => a * x + b * v[k])
  const aft = sum([1, 0, 0], out, Math.cos(kappa), -Math.sin(kappa))
  // Seen from the tail, fins count clockwise: a positive cant leans the aft end back to the fin before.
  const along = sum(aft, round, Math.cos(fins.cant), -Math.sin(fins.cant))
  const normal = sum(round, aft, Math.cos(fins.cant), Math.sin(fins.cant))
  const middle = sum([half * Math.cos(kappa), 0, 0], out, 1, radius - half * Math.sin(kappa))
  const along_ = (p: Space) => p.reduce((total, x, k) => total + (x - middle[k]) * along[k], 0)
  const off = (p: Space) => p.reduce((total, x, k) => total + (x - middle[k]) * normal[k], 0)
  return { along: along_, off, half }
}

const bases = { demo: demoDesign, 'boat-tail': { ...boatTail, tube: { ...boatTail.tube, behind: null } } }

test('fins: the corners of each core lie on the planes of its faces, at the root’s ends; so does the line of its middle', () => {
  let slanted = 0
  fc.assert(
    fc.property(knobs, fc.constantFrom(...(['demo', 'boat-tail'] as const)), (of, base) => {
      const can = canOf(varied(bases[base], of))
      if (can === null) return
      if (can.design.fins.cant !== 0) slanted++
      const boxes = can.wrap.filter(
        ({ closed, layer, fill, stroke }) => closed && layer === 'mark' && fill === null && stroke?.width === 0.35,
      )
      expect(boxes).toHaveLength(can.design.fins.count)
      boxes.forEach(({ vertices }, i) => {
        const { along, off, half } = finPlane(can, i)
        const h = can.design.fins.core.thickness / 2
        const corners = vertices.map(([x, y]) => can.back([x, y]))
        for (const p of corners) expect(Math.abs(Math.abs(off(p)) - h)).toBeLessThan(1e-7)
        const ends = corners.map(along)
        expect(Math.max(...ends)).toBeCloseTo(half, 7)
        expect(Math.min(...ends)).toBeCloseTo(-half, 7)
        expect(ends.filter((x) => Math.abs(Math.abs(x) - half) < 1e-7)).toHaveLength(4)
      })
    }),
    {
      numRuns: 12,
      examples: [
        [{ count: 4, narrows: 0.2, cant: 1.5, taper: 0.2 }, 'demo'],
        [{ count: 3, narrows: -0.1, cant: -1, taper: 0 }, 'boat-tail'],
        [{ count: 3, narrows: 0, cant: 0, taper: 0 }, 'demo'],
      ],
    },
  )
  expect(slanted).toBeGreaterThanOrEqual(2)
})

test('any bay: ticks of plies and wrap coincide to 0.03 mm, and the meeting edges are one line', () => {
  fc.assert(
    fc.property(knobs, (of) => {
      const can = canOf(varied(demoDesign, of))
      if (can === null) return
      for (const { ply, by } of missed(can, 1)) expect(by, ply).toBeLessThan(3e-5)
      const edge = can.wrap.find(({ layer }) => layer === 'cut')!.vertices
      const half = edge.length / 2
      const [p, q] = [edge[0], edge[half - 1]].map(([x, y]) => can.back([x, y]))
      expect(apart(p, q)).toBeLessThan(1e-9)
      const [r, s] = [edge[half], edge[edge.length - 1]].map(([x, y]) => can.back([x, y]))
      expect(apart(r, s)).toBeLessThan(1e-9)
    }),
    { numRuns: 8 },
  )
})
