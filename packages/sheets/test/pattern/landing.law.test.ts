/** Landing marks: the ticks of every ply, laid in space, fall on the lines and ticks of the wrap, rolled on the tube. */
import { baySection } from '@finwright/core/bond/section.ts'
import { development, positionOn } from '@finwright/core/pattern/development.ts'
import { describe, expect, test } from 'vitest'
import type { Path, XY } from '../../src/drawing/drawing.ts'
import { figuresIn } from '../../src/layout/figures.ts'
import { bodyEnds, tubeWrap, wrapLength } from '../../src/pattern/tube-wrap.ts'
import { demoAssessment, demoDesign } from '../fixture/demo.ts'

const { shapes, section: figures } = demoAssessment.pattern
const { fins, tube } = demoDesign
const paperThickness = 1e-4
const made = baySection({
  tubeRadius: tube.outerRadius,
  coreThickness: fins.core.thickness,
  finCount: fins.count,
  span: figures!.span_m,
  filletRadius: fins.fillet.radius,
})
if (!made.ok) throw new Error('the demo has a section')
const section = made.value

interface Place {
  /** Aft of the root's forward end, m. */
  readonly aft: number
  /** About the axis from the middle of the bay, rad. */
  readonly angle: number
}

/** A ply's ticks on its own mid-surface: both ends, and the middle, which is the crossing of a tick that lies across. */
function ticksOf(shape: (typeof shapes)[number]): { a: Place; b: Place; middle: Place }[] {
  const dev = development(section, shape.buildUp_m)
  const laid = (point: XY): Place => {
    const { aft, across, out } = positionOn(dev, point)
    return { aft, angle: Math.atan2(across, out) }
  }
  return shape.marks
    .filter(({ kind }) => kind === 'tick')
    .map(({ points_m: [p, q] }) => ({
      a: laid(p),
      b: laid(q),
      middle: laid([(p[0] + q[0]) / 2, (p[1] + q[1]) / 2]),
    }))
}

/** Full lines of the wrap, rolled on the tube, from the middle of the bay after fin 1: the two ends of each. */
const wrap = tubeWrap({ section: figures!, paperThickness, figures: figuresIn('metric'), ends: bodyEnds(shapes) })
const perRadian = (wrapLength(figures!, paperThickness) * 1e3) / (2 * Math.PI)
const bay = (2 * Math.PI) / fins.count
const rolled = ([x, y]: XY): Place => ({ aft: y * 1e-3, angle: x / perRadian - bay })
const wrapTicks = wrap.items
  .filter((item): item is Path => item.kind === 'path' && item.layer === 'mark' && item.vertices.length === 2)
  .map(({ vertices }) => vertices.map(([x, y]) => rolled([x, y])))

/** On the tube's surface, m. */
const apart = (a: Place, b: Place): number => Math.hypot(a.aft - b.aft, (a.angle - b.angle) * figures!.tubeRadius_m)

describe('ticks of every ply', () => {
  test.each(shapes.map((shape) => [shape.ply, shape] as const))(
    '%s: each has the wrap’s under it, in bay 1',
    (_, shape) => {
      const ticks = ticksOf(shape)
      expect(ticks.length).toBeGreaterThanOrEqual(6)
      for (const { a, b, middle } of ticks) {
        // a tick across grows with the ply's own radius: its crossing, not its ends, is on the wrap's
        const level = Math.abs(a.aft - b.aft) < 1e-9
        const found = wrapTicks.some(([p, q]) =>
          level
            ? apart(middle, { aft: p.aft, angle: (p.angle + q.angle) / 2 }) < 1e-6 && Math.abs(p.aft - q.aft) < 1e-9
            : Math.min(apart(a, p) + apart(b, q), apart(a, q) + apart(b, p)) < 2e-6,
        )
        expect(found, JSON.stringify({ a, b })).toBe(true)
      }
    },
  )

  test('one on the centre line and one on each foot lie at both ends of the ply', () => {
    for (const shape of shapes) {
      const outline = shape.netOutline_m
      const ends = outline.flatMap(([x0, y0], i) => {
        const [x1, y1] = outline[(i + 1) % outline.length]
        return y0 <= 0 !== y1 <= 0 ? [x0 + (y0 / (y0 - y1)) * (x1 - x0)] : []
      })
      expect(ends).toHaveLength(2)
      for (const end of ends) {
        const there = ticksOf(shape).filter(
          ({ a, b }) => Math.abs(a.aft - b.aft) > 1e-3 && Math.abs(a.aft - end) < 1e-9,
        )
        expect(there.map(({ a }) => Math.sign(Number(a.angle.toFixed(6)))).sort(), `${shape.ply} at ${end}`).toEqual([
          -1, 0, 1,
        ])
      }
    }
  })

  test('has teeth: a wrap for a tube half a millimetre thicker lands them elsewhere', () => {
    const thicker = { ...figures!, tubeRadius_m: figures!.tubeRadius_m + 0.25e-3 }
    const scale = wrapLength(thicker, paperThickness) / wrapLength(figures!, paperThickness)
    const foot = ticksOf(shapes[0])
      .map(({ a }) => a)
      .find(({ angle }) => Math.abs(angle) > 0.1)!
    expect(apart(foot, { ...foot, angle: foot.angle * scale })).toBeGreaterThan(1e-4)
  })
})
