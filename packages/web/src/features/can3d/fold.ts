/**
 * The bay map folded back on to the can: where a point of the map lies in space. Forward end of the root, straight tube, fins along
 * the axis; a boat-tail, a cant and a fillet that changes along the root are not drawn.
 *
 * In the section, u runs out along the fin's mid-plane from the axis and v off it towards the bay. The fillet's circle of radius r
 * touches the face at v = t/2 and the tube of radius R from outside:
 *   v_c = t/2 + r     u_c = √((R + r)² − v_c²)     α = atan(v_c / u_c)     elementary geometry
 * A ply lifted by d off the surface lies at R + d on the tube, r − d in the fillet, t/2 + d on the face.
 * Space: x aft, y and z across, right-handed; fin 1 stands at angle 0 from y.
 */
import type { SectionFigures } from '@finwright/core/assess/assessment.ts'
import type { Point } from '@finwright/core/geometry/point.ts'

export type Space = readonly [number, number, number]

/** Bay k lies between fins k and k + 1; counted from 0 here. */
export function folded([X, Y]: Point, bay: number, lift: number, section: SectionFigures): Space {
  const { tubeRadius_m: R, finCount, stations_m } = section
  const side = Y < 0 ? -1 : 1
  const half = Math.PI / finCount
  const middle = (2 * bay + 1) * half
  const far = Math.abs(Y)
  const { alpha } = filletOf(section)
  if (far <= stations_m.filletFoot) {
    const turn = stations_m.filletFoot === 0 ? 0 : (far / stations_m.filletFoot) * (half - alpha)
    return around(X, R + lift, middle + side * turn)
  }
  const [u, v] = beside(far, lift, section)
  const fin = middle + side * half
  return [X, u * Math.cos(fin) + side * v * Math.sin(fin), u * Math.sin(fin) - side * v * Math.cos(fin)]
}

const around = (X: number, radius: number, angle: number): Space => [
  X,
  radius * Math.cos(angle),
  radius * Math.sin(angle),
]

function filletOf({ tubeRadius_m: R, coreThickness_m: t, filletRadius_m: r }: SectionFigures) {
  const vc = t / 2 + r
  const uc = Math.sqrt((R + r) ** 2 - vc ** 2)
  return { uc, vc, alpha: Math.atan2(vc, uc) }
}

/** In fillet and on face. */
function beside(far: number, lift: number, section: SectionFigures): readonly [number, number] {
  const { coreThickness_m: t, filletRadius_m: r, stations_m } = section
  const { uc, vc, alpha } = filletOf(section)
  const { filletFoot, filletTop } = stations_m
  if (far >= filletTop) return [uc + far - filletTop, t / 2 + lift]
  const angle = Math.PI + alpha + ((far - filletFoot) / (filletTop - filletFoot)) * (Math.PI / 2 - alpha)
  return [uc + (r - lift) * Math.cos(angle), vc + (r - lift) * Math.sin(angle)]
}

/** A point of a fin in its own axes, x aft and y out from the tube's surface, v off its mid-plane. */
export function onFin([x, y]: Point, fin: number, v: number, { tubeRadius_m: R, finCount }: SectionFigures): Space {
  const angle = (2 * Math.PI * fin) / finCount
  const u = R + y
  return [x, u * Math.cos(angle) - v * Math.sin(angle), u * Math.sin(angle) + v * Math.cos(angle)]
}

export interface Row {
  readonly Y: number
  readonly from: number
  readonly to: number
}

/** An outline cut across at many Y: the surface is straight along the axis, so that two ends of each cut are all of it. */
export function rowsOf(outline: readonly Point[], { stations_m, filletArc_deg }: SectionFigures): readonly Row[] {
  const ys = outline.map(([, Y]) => Y)
  const [least, most] = [Math.min(...ys), Math.max(...ys)]
  const { filletFoot, filletTop } = stations_m
  const body = evenly(-filletFoot, filletFoot, 24)
  const steps = Math.max(4, Math.ceil(filletArc_deg / 8))
  const fillets = [...evenly(filletFoot, filletTop, steps), ...evenly(-filletTop, -filletFoot, steps)]
  const inside = [...ys, ...body, ...fillets].filter((Y) => Y >= least && Y <= most)
  const sorted = [...inside].sort((a, b) => a - b).filter((Y, i, all) => i === 0 || Y - all[i - 1]! > 1e-6)
  return sorted.flatMap((Y) => {
    const cut = acrossAt(outline, Y)
    return cut === null ? [] : [{ Y, from: cut[0], to: cut[1] }]
  })
}

const evenly = (a: number, b: number, steps: number): number[] =>
  Array.from({ length: steps + 1 }, (_, i) => a + ((b - a) * i) / steps)

function acrossAt(outline: readonly Point[], Y: number): readonly [number, number] | null {
  const xs: number[] = []
  outline.forEach(([x0, y0], i) => {
    const [x1, y1] = outline[(i + 1) % outline.length]!
    if (Math.min(y0, y1) > Y || Math.max(y0, y1) < Y) return
    if (y0 === y1) xs.push(x0, x1)
    else xs.push(x0 + ((x1 - x0) * (Y - y0)) / (y1 - y0))
  })
  return xs.length === 0 ? null : [Math.min(...xs), Math.max(...xs)]
}

/** Triangles of a surface given by rows: positions x y z, three numbers a corner. */
export function strip(rows: readonly Row[], at: (X: number, Y: number) => Space): number[] {
  const positions: number[] = []
  for (let i = 1; i < rows.length; i++) {
    const [a, b] = [rows[i - 1]!, rows[i]!]
    const [p, q, r, s] = [at(a.from, a.Y), at(a.to, a.Y), at(b.to, b.Y), at(b.from, b.Y)]
    positions.push(...p, ...q, ...r, ...p, ...r, ...s)
  }
  return positions
}
