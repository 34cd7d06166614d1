/**
 * A simpler outline around an outline: corners are dropped, each time the one that adds the least area, until the area
 * added reaches a limit.
 *
 * A hollow corner is dropped by the chord across it; a side between two full corners by running its neighbours on to
 * where they meet. Both only add area, so the result holds the outline (progressive hull: Sander, Gu, Gortler, Hoppe &
 * Snyder, Silhouette clipping, SIGGRAPH 2000, section 3; recalled; there for meshes). Corners are rounded to the grid,
 * which may cut √2/2 off.
 */
import { cross, type GridPoint, type Loop } from './convex.ts'

export interface Allowance {
  /** Area that may be added, grid units squared. */
  readonly area: number
  /** How far a side may be moved out to where its neighbours meet, grid units. */
  readonly reach: number
}

export function enclosing(loop: Loop, allowance: Allowance): Loop {
  let outline = loop
  let added = 0
  while (outline.length > 3) {
    const step = cheapestStep(outline, allowance.reach)
    if (step === null || added + step.area > allowance.area) break
    added += step.area
    outline = step.outline()
  }
  return outline
}

interface Step {
  readonly area: number
  readonly outline: () => Loop
}

function cheapestStep(loop: Loop, reach: number): Step | null {
  let best: Step | null = null
  for (let i = 0; i < loop.length; i++) {
    const step = cross(before(loop, i), loop[i], after(loop, i)) <= 0 ? chordStep(loop, i) : meetingStep(loop, i, reach)
    if (step !== null && (best === null || step.area < best.area)) best = step
  }
  return best
}

/** Drops the hollow corner i. */
function chordStep(loop: Loop, i: number): Step {
  const area = -cross(before(loop, i), loop[i], after(loop, i)) / 2
  return { area, outline: () => loop.filter((_, k) => k !== i) }
}

/** Drops the side from corner i to the next, both full, in favour of where the sides beside it meet. */
function meetingStep(loop: Loop, i: number, reach: number): Step | null {
  const n = loop.length
  const a = before(loop, i)
  const b = loop[i]
  const c = after(loop, i)
  const d = loop[(i + 2) % n]
  if (cross(b, c, d) <= 0) return null
  const den = (b.x - a.x) * (d.y - c.y) - (b.y - a.y) * (d.x - c.x)
  if (den <= 0) return null
  const s = ((c.x - a.x) * (d.y - c.y) - (c.y - a.y) * (d.x - c.x)) / den
  const meeting = { x: Math.round(a.x + s * (b.x - a.x)), y: Math.round(a.y + s * (b.y - a.y)) }
  const area = cross(b, meeting, c) / 2
  if ((2 * area) / Math.hypot(c.x - b.x, c.y - b.y) > reach) return null
  const next = (i + 1) % n
  return {
    area,
    outline: () => loop.map((point, k) => (k === i ? meeting : point)).filter((_, k) => k !== next),
  }
}

const before = (loop: Loop, i: number): GridPoint => loop[(i + loop.length - 1) % loop.length]
const after = (loop: Loop, i: number): GridPoint => loop[(i + 1) % loop.length]
