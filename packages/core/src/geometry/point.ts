/** A point of a plane, m. */
export type Point = readonly [number, number]

export const distance = (a: Point, b: Point): number => Math.sqrt((b[0] - a[0]) ** 2 + (b[1] - a[1]) ** 2)

/** Twice the signed area of a, b, c; positive when they turn counter-clockwise. */
export const turn = (a: Point, b: Point, c: Point): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

export const between = (a: Point, b: Point, share: number): Point => [
  a[0] + share * (b[0] - a[0]),
  a[1] + share * (b[1] - a[1]),
]

/** From p to the nearest point of the segment ab. */
export function distanceToSegment(p: Point, a: Point, b: Point): number {
  const ux = b[0] - a[0]
  const uy = b[1] - a[1]
  const square = ux * ux + uy * uy
  const along = square > 0 ? ((p[0] - a[0]) * ux + (p[1] - a[1]) * uy) / square : 0
  const share = Math.min(1, Math.max(0, along))
  const dx = p[0] - a[0] - share * ux
  const dy = p[1] - a[1] - share * uy
  return Math.sqrt(dx * dx + dy * dy)
}
