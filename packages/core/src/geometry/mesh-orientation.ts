/**
 * The turn from a over b to c: positive when counter-clockwise, zero when the three lie on a line, exactly.
 *
 *   det = (ax − cx)(by − cy) − (ay − cy)(bx − cx)
 *
 * The rounded determinant's sign is right when it exceeds (3 + 16 ε) ε (|left| + |right|), ε = 2⁻⁵³: Shewchuk, Adaptive
 * precision floating-point arithmetic and fast robust geometric predicates, Discrete Comput. Geom. 18 (1997), filter A.
 * Below that the same determinant is formed in integers, for which every finite double is a whole number of 2⁻¹⁰⁷⁴.
 */
const half = 2 ** -53
const filter = (3 + 16 * half) * half

export function orientation(ax: number, ay: number, bx: number, by: number, cx: number, cy: number): number {
  const left = (ax - cx) * (by - cy)
  const right = (ay - cy) * (bx - cx)
  const det = left - right
  if (Math.abs(det) > filter * (Math.abs(left) + Math.abs(right))) return det
  const [Ax, Ay, Bx, By, Cx, Cy] = [ax, ay, bx, by, cx, cy].map(wholeNumber)
  const exact = (Ax - Cx) * (By - Cy) - (Ay - Cy) * (Bx - Cx)
  return exact > 0n ? 1 : exact < 0n ? -1 : 0
}

const bits = new DataView(new ArrayBuffer(8))

/** x / 2⁻¹⁰⁷⁴ */
function wholeNumber(x: number): bigint {
  bits.setFloat64(0, x)
  const raw = bits.getBigUint64(0)
  const exponent = (raw >> 52n) & 0x7ffn
  const fraction = raw & 0xfffffffffffffn
  const magnitude = exponent === 0n ? fraction : (fraction | 0x10000000000000n) << (exponent - 1n)
  return raw >> 63n === 1n ? -magnitude : magnitude
}
