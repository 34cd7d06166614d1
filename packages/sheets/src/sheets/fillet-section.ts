/** The corner of fin and body, across the bay at the middle of the root, in true proportion: how the plies run through the fillet. */
import type { SectionFigures } from '@finwright/core/assess/assessment.ts'
import { fill, type Primitive, path, pen, stroke, text, type XY } from '../drawing/drawing.ts'
import { hatched } from '../drawing/hatch.ts'
import { type Block, beside, picture, stacked } from '../layout/block.ts'
import { dimension, leader } from '../layout/dimension.ts'
import { heading, paragraph } from '../layout/words.ts'
import type { SheetInput } from '../sheet.ts'
import { layersAt } from './bay-thickness.ts'

/** How much of the face and of the body is shown beyond the fillet, m. */
const shown = 8e-3

/** `room` is the height that the picture may take, mm. */
export function filletSection({ assessment, design, figures }: SheetInput, width: number, room: number): Block[] {
  const section = assessment.pattern.section!
  const layers = layersAt(assessment.pattern, assessment.fin.plies, section.rootLength_m / 2).filter(({ spans }) =>
    spans.some(([from, to]) => from < section.stations_m.filletFoot && to > section.stations_m.filletTop),
  )
  const corner = cornerOf(section)
  const thickness = layers.reduce((sum, layer) => sum + layer.thickness, 0)
  const wall = design.tube.wall
  const low = corner.bodyEnd(-wall)
  const top = corner.xc + shown
  const scale = Math.floor(Math.min(10, room / ((top - low[0]) * 1e3)) * 2) / 2
  const page = ([p, q]: XY): XY => [10 + q * 1e3 * scale, 4 + (top - p) * 1e3 * scale]
  const line = (z: number): XY[] => corner.surface(z).map(page)
  const core: XY[] = [
    [top, 0],
    [top, corner.h],
    [corner.R * Math.cos(corner.a0), corner.h],
    [corner.R, 0],
  ]
  const bare = corner.surface(0)
  const fillet = [...bare.slice(1, -1), ...corner.bareBody()]
  const tube = [...corner.arc(0), ...corner.arc(-wall).toReversed()]
  let z = 0
  const plies = layers.map((layer, k) => {
    const [inner, outer] = [line(z), line(z + layer.thickness)]
    z += layer.thickness
    return path([...inner, ...outer.toReversed()], true, {
      fill: fill('ink', k % 2 === 0 ? 0.28 : 0.1),
      stroke: stroke(pen.hair),
      layer: 'fill',
    })
  })
  const hatch = (outline: readonly XY[], angle: number, spacing: number): Primitive => ({
    kind: 'lines',
    layer: 'weave',
    pairs: hatched([outline.map(page)], { angle, spacing }),
    stroke: { ink: 'mid', width: pen.hair },
  })
  const name = { size: 2.8, face: 'title', anchor: 'middle' } as const
  const height = 8 + (top - low[0]) * 1e3 * scale
  const right = page([0, corner.bodyEnd(thickness)[1]])[0]
  const face = page([top, corner.h])
  const skin = page([top, corner.h + thickness])
  const items: Primitive[] = [
    hatch(core, Math.PI / 4, 1.6),
    hatch(fillet, -Math.PI / 4, 0.9),
    hatch(tube, -Math.PI / 4, 2),
    ...plies,
    path(line(0), false, { stroke: stroke(pen.net), layer: 'mark' }),
    ...dimension(face, skin, figures.length(thickness, 1e-5), { offset: 1.6, from: 0.6, size: 2.8 }),
    text([8, page([(top + corner.R) / 2, 0])[1]], 'core', { ...name, turn: -Math.PI / 2 }),
    text([page([0, 0])[0], page([corner.R, 0])[1] + 4 + wall * 1e3 * scale], 'tube', name),
    ...leader([right + 6, page([corner.xc, 0])[1]], page(corner.inFillet), 'fillet', 2.8),
  ]
  const words = stacked([
    paragraph(`Drawn ${scale} times its size, thickness and length alike.`, width - right - 22, { size: 3 }),
    ...(assessment.pattern.bay!.straight
      ? []
      : [
          paragraph(
            'Drawn at the root’s forward end, as for a fin without cant; on this can the fillet changes along the root.',
            width - right - 22,
            { size: 3 },
          ),
        ]),
    paragraph(
      `Core, fillet and tube hatched. Fillet ${figures.length(section.filletRadius_m)} in radius, ${figures.length(section.filletHeight_m)} high on the fin, from ${figures.length(section.stations_m.filletFoot)} to ${figures.length(section.stations_m.filletTop)} off the centre line on the bare surface.`,
      width - right - 22,
      { size: 3 },
    ),
    paragraph(
      `${layers.map(({ shape }) => shape.ply).join(', ')} run through it; the last is laid into a hollow of ${figures.length(section.filletRadius_m - thickness)}. Press each into the hollow from the middle outward: a ply pulled taut bridges it.`,
      width - right - 22,
      { size: 3 },
    ),
  ])
  return [
    { ...heading('D–D through the fillet', width), keep: true },
    beside(
      [
        { x: 0, block: picture(height, items) },
        { x: right + 18, block: words },
      ],
      2,
    ),
  ]
}

/** In fin axes, p outward along the fin's mid-plane, q square to it. */
function cornerOf({
  tubeRadius_m: R,
  coreThickness_m,
  filletRadius_m: r,
  filletFoot_deg,
  filletArc_deg,
}: SectionFigures) {
  const h = coreThickness_m / 2
  const xc = Math.sqrt((R + r) ** 2 - (h + r) ** 2)
  const theta = (filletFoot_deg * Math.PI) / 180
  const phi = (filletArc_deg * Math.PI) / 180
  const beyond = theta + shown / R
  const steps = 24
  const share = (k: number): number => k / steps
  const onBody = (radius: number, angle: number): XY => [radius * Math.cos(angle), radius * Math.sin(angle)]
  const arc = (z: number): XY[] => Array.from({ length: steps + 1 }, (_, k) => onBody(R + z, share(k) * beyond))
  return {
    R,
    h,
    xc,
    a0: Math.asin(h / R),
    bodyEnd: (z: number): XY => onBody(R + z, beyond),
    arc,
    /** A point of the adhesive. */
    inFillet: [xc - 0.72 * r, h + 0.16 * r] as XY,
    /** From the face above the fillet over its arc to the body beyond it, z out from the bare surface. */
    surface: (z: number): XY[] => [
      [xc + shown, h + z],
      ...Array.from({ length: steps + 1 }, (_, k): XY => {
        const turned = share(k) * phi
        return [xc - (r - z) * Math.sin(turned), h + r - (r - z) * Math.cos(turned)]
      }),
      ...Array.from({ length: 6 }, (_, k) => onBody(R + z, theta + ((k + 1) / 6) * (beyond - theta))),
    ],
    /** The bare body under the fillet, back from its foot to the core's face. */
    bareBody: (): XY[] =>
      Array.from({ length: 13 }, (_, k) => {
        const a0 = Math.asin(h / R)
        return onBody(R, theta + (a0 - theta) * (k / 12))
      }),
  }
}
