/** How it rings: each mode as lines of equal deflection, one side toned, the other hatched, the nodal line bold. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import { type Box, fill, type Primitive, path, pen, stroke, text, type XY } from '../../drawing/drawing.ts'
import { hatched } from '../../drawing/hatch.ts'
import { contour, type Field, regionBeyond, withoutHoles } from '../../drawing/regions.ts'
import { type Block, picture, roomAmong } from '../../layout/block.ts'
import { hertz, percent, plain } from '../../layout/figures.ts'
import type { Cell } from '../../layout/table.ts'
import { paragraph } from '../../layout/words.ts'
import type { Area, MarginInput } from '../margins.ts'
import { finFrame, finOutline, type Shapes } from './fin-picture.ts'
import { numberRows } from './numbers.ts'
import { whyBlock } from './why.ts'
import { modesWhy } from './whys.ts'

export function modesBlocks(input: MarginInput, { width, height }: Area): Block[] {
  const { assessment } = input
  const { structure } = assessment
  if (structure.modes.length === 0 && assessment.fin.mass_kg === null) return []
  const first = paragraph(modesLine(assessment), width, { size: 4.4, face: 'strong' })
  const rest = [...numbers(input, width), ...whyBlock(modesWhy(assessment), assessment.sources, width)]
  const room = roomAmong([first, ...rest], height, { least: 100, most: 180, gap: 8 })
  return [
    first,
    ...(structure.shapes === null || structure.modes.length === 0
      ? []
      : pictures(assessment, structure.shapes, { width, height: room })),
    ...rest,
  ]
}

export function modesLine({ structure, kind }: Assessment): string {
  const { modes, root } = structure
  const [first, second] = modes
  if (first === undefined) return 'No natural frequency was computed.'
  const told = (frequency: (mode: number) => number): string =>
    `rings first at ${hertz(frequency(0))} in ${first.kind}${
      second === undefined ? '' : `, then at ${hertz(frequency(1))} in ${second.kind}`
    }`
  const clamped = (mode: number): number => modes[mode].frequency_Hz
  if (kind === 'study') return `The plate ${told(clamped)}.`
  if (root === null || root.modes_Hz.length < Math.min(2, modes.length))
    return `The fin, its root clamped, ${told(clamped)}. On its can it rings lower.`
  const apart = modes.slice(0, 2).map(({ frequency_Hz }) => hertz(frequency_Hz))
  return `On its can the fin ${told((mode) => root.modes_Hz[mode])}: tap it and listen for that. Clamped: ${apart.join(' and ')}.`
}

/** Deflections at which lines are drawn, of the largest. */
const levels = [0.2, 0.4, 0.6, 0.8]
/** Nearer to the nodal line than this is left white. */
const calm = 0.03
/** Where all of a triangle moves less than this, the sign of what is left says nothing. */
const still = 0.02
const gap = 6

function pictures(assessment: Assessment, shapes: Shapes, { width, height: most }: Area): Block[] {
  const { structure, kind } = assessment
  const columns = 2
  const own = (width - gap) / columns
  const count = Math.min(6, structure.modes.length, shapes.deflection.length)
  const rows = Math.ceil(count / columns)
  const { box } = finFrame(shapes.nodes_m, { x: 0, y: 0, width: own - 4, height: Math.min(60, most / rows - 14) })
  const height = box.height + 14
  return Array.from({ length: rows }, (_, row) =>
    picture(
      height,
      Array.from({ length: Math.min(columns, count - row * columns) }, (_, column) => {
        const k = row * columns + column
        const room = { x: column * (own + gap) + 2, y: 10.5, width: own - 4, height: box.height }
        return [
          ...caption(assessment, k, [column * (own + gap), 0], own),
          ...modePicture(shapes, k, room, kind === 'can'),
        ]
      }).flat(),
      row === 0 ? 5 : 1.5,
    ),
  )
}

function caption({ structure }: Assessment, k: number, [x, y]: XY, width: number): Primitive[] {
  const { frequency_Hz, kind } = structure.modes[k]
  const held = structure.root?.modes_Hz[k]
  const error = structure.mesh?.frequencyError?.[k]
  const under = [
    ...(held === undefined ? [] : [`on its can ${hertz(held)}`]),
    ...(error === undefined ? [] : [`mesh error ${percent(error, 1)}`]),
  ].join(' · ')
  return [
    text([x, y + 4], `${k + 1}  ${kind}`, { size: 3.5, face: 'title' }),
    text([x + width, y + 4], hertz(frequency_Hz), { size: 3.8, face: 'title', anchor: 'end' }),
    text([x + width, y + 8], under, { size: 2.7, ink: 'dark', anchor: 'end' }),
  ]
}

export function modePicture(shapes: Shapes, k: number, room: Box, held: boolean): Primitive[] {
  const frame = finFrame(shapes.nodes_m, room)
  const nodes = shapes.nodes_m.map(frame.at)
  const field: Field = { nodes, triangles: shapes.triangles, values: shapes.deflection[k] }
  const toned = [calm, ...levels].flatMap((level) =>
    withoutHoles(regionBeyond(field, level)).map((loop) =>
      path(loop, true, { layer: 'fill', fill: fill('ink', 0.07) }),
    ),
  )
  const hatch: Primitive = {
    kind: 'lines',
    layer: 'weave',
    pairs: hatched(regionBeyond(field, -calm, 'below'), { angle: Math.PI / 4, spacing: 1.15 }),
    stroke: stroke(pen.hair, 'mid'),
  }
  const lines = levels.flatMap((level) => [
    ...contour(field, level).map((points) => path(points, false, { layer: 'mark', stroke: stroke(pen.hair) })),
    ...contour(field, -level).map((points) => path(points, false, { layer: 'mark', stroke: stroke(pen.thin) })),
  ])
  const nodal = offRoot(contour(field, 0, still), frame.box, held).map((points) =>
    path(points, false, { layer: 'mark', stroke: stroke(pen.heavy, 'ink', [4, 0.9, 0.8, 0.9]) }),
  )
  return [...toned, hatch, ...lines, ...nodal, ...finOutline(shapes, frame, held), ...signs(field, frame.box)]
}

/** A held root is all zero: what runs along it is no nodal line. */
function offRoot(lines: readonly XY[][], { y, height }: Box, held: boolean): XY[][] {
  if (!held) return [...lines]
  return lines.filter((points) => points.some(([, py]) => y + height - py > 0.02 * height))
}

/** + and − where the deflection is largest either way. */
function signs({ nodes, values }: Field, box: Box): Primitive[] {
  const inward = ([x, y]: XY): XY => [
    Math.min(Math.max(x, box.x + 4), box.x + box.width - 4),
    Math.min(Math.max(y, box.y + 4), box.y + box.height - 3),
  ]
  return [1, -1].flatMap((sign): Primitive[] => {
    const most = Math.max(...values.map((value) => sign * value))
    if (most < 0.15) return []
    const [x, y] = inward(nodes[values.findIndex((value) => sign * value === most)])
    return [
      path(
        [
          [x - 1.8, y, 1],
          [x + 1.8, y, 1],
        ],
        true,
        { fill: fill('paper'), layer: 'fill', stroke: stroke(pen.hair) },
      ),
      text([x, y + 1.15], sign > 0 ? '+' : '−', { size: 3.6, face: 'strong', anchor: 'middle' }),
    ]
  })
}

function numbers({ assessment, figures }: MarginInput, width: number): Block[] {
  const { structure, fin, kind } = assessment
  const { root, tipLoad, mesh } = structure
  const items: Cell[][] = [
    [
      kind === 'study' ? 'mass and area' : 'one fin, both skins, fillets apart',
      fin.mass_kg !== null && fin.mass_kg >= 10 ? `${plain(fin.mass_kg, 1)} kg` : figures.grams(fin.mass_kg),
      figures.area(fin.area_m2),
    ],
    [
      'thickness at root and tip',
      figures.length(fin.thickness_m.root, 1e-5),
      figures.length(fin.thickness_m.tip, 1e-5),
    ],
  ]
  if (root !== null) {
    const moment = figures.axis('line moment')
    const turn = `${plain((root.rotation_rad_per_N / moment.of(1)) * 1e6, 1)} µrad`
    items.push(['root turns by', turn, `per ${moment.unit} of moment along the root; ${root.basis}`])
  }
  if (tipLoad !== null) {
    items.push([
      'tip load, to try on the fin',
      figures.force(tipLoad.force_N),
      `moves the tip by ${figures.length(tipLoad.deflection_m)}; moment at the root ${figures.moment(tipLoad.rootMoment_Nm)}`,
    ])
  }
  const { cant_deg } = assessment.roll.tolerance
  if (cant_deg !== null) items.push(['cant allowed', figures.angle(cant_deg, 2), 'mean over the fins'])
  if (mesh !== null) items.push(['mesh', `${mesh.triangles} triangles`, `${mesh.nodes} nodes`])
  return numberRows(kind === 'study' ? 'The plate' : 'The fin', items, width)
}
