/** Stress through the thickness: the layers to scale as bands with their names, and three small plots across them. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import {
  type Box,
  fill,
  line,
  type Primitive,
  path,
  pen,
  rectangle,
  stroke,
  text,
  type XY,
} from '../../drawing/drawing.ts'
import { type Figures, plain, ratio } from '../../layout/figures.ts'
import { spread } from '../../layout/placing.ts'

type Layer = Assessment['strength']['through'][number]

const names = 17
const gap = 3.6
/** At the right, for each layer's index. */
const indexRoom = 12
/** Above the plots: title, the symbols, the face. Under them: the figures. */
const head = 15
const foot = 8

const plotted = [
  { key: 's1_Pa', symbol: 'along' },
  { key: 's2_Pa', symbol: 'across' },
  { key: 't12_Pa', symbol: 'shear' },
] as const

export function throughThickness(strength: Assessment['strength'], room: Box, figures: Figures): Primitive[] {
  const layers = strength.through
  if (layers.length === 0) return []
  const Z = layers.flatMap(({ z_m }) => [...z_m])
  const [low, high] = [Math.min(...Z), Math.max(...Z)]
  const top = room.y + head
  const tall = room.height - head - foot
  // the first layer, the previous face's, on top
  const down = layers[0].z_m[0] + layers[0].z_m[1] > low + high ? -1 : 1
  const level = (z: number): number => top + ((down < 0 ? high - z : z - low) / (high - low)) * tall
  const left = room.x + names
  const own = (room.width - names - indexRoom - 2 * gap) / 3
  const { unit, of } = figures.axis('stress')
  return [
    text([room.x, room.y + 3.4], 'Stress through the thickness', { size: 3.3, face: 'title' }),
    text(
      [room.x, room.y + 7.2],
      `${unit}, in the ply’s own axes, at the weakest place; ${whole(layers, figures)} thick`,
      { size: 2.5, ink: 'dark' },
    ),
    ...plotted.flatMap(({ key, symbol }, i) =>
      panel(
        layers,
        (layer) => layer[key].map(of),
        { x: left + i * (own + gap), y: top, width: own, height: tall },
        level,
        symbol,
      ),
    ),
    ...layerNames(layers, strength.ply, level, [room.x, left]),
    ...indices(layers, strength.ply, level, [room.x + room.width - indexRoom, top]),
  ]
}

function panel(
  layers: readonly Layer[],
  values: (layer: Layer) => number[],
  { x, y, width, height }: Box,
  level: (z: number) => number,
  title: string,
): Primitive[] {
  const most = Math.max(1e-9, ...layers.flatMap((layer) => values(layer).map(Math.abs)))
  const end = 1.12 * most
  const at = (value: number): number => x + width / 2 + (value / end) * (width / 2)
  const tick = roundUnder(most)
  const decimals = Math.max(0, -Math.floor(Math.log10(tick) + 1e-9))
  const small = { size: 2.3, face: 'letter', ink: 'dark', anchor: 'middle' } as const
  return [
    text([x + width / 2, y - 2], title, { size: 2.7, face: 'title', anchor: 'middle' }),
    ...layers.flatMap((layer, i) => band(layer, i, { x, width }, level)),
    ...[-tick, 0, tick].flatMap((value): Primitive[] => [
      line([at(value), y], [at(value), y + height + 1], stroke(pen.hair, value === 0 ? 'ink' : 'mid')),
      ...(value === 0 ? [] : [text([at(value), y + height + 3.8], plain(value, decimals), small)]),
    ]),
    ...layers.flatMap((layer, i) => {
      const [a, b] = values(layer)
      const ends: XY[] = [
        [at(a), level(layer.z_m[0])],
        [at(b), level(layer.z_m[1])],
      ]
      const next = layers[i + 1]
      const shared = next === undefined ? null : touching(layer, next)
      const jump: Primitive[] =
        next === undefined || shared === null
          ? []
          : [
              line(
                [at(values(layer)[shared.own]), level(layer.z_m[shared.own])],
                [at(values(next)[shared.next]), level(next.z_m[shared.next])],
                stroke(pen.hair),
                'mark',
              ),
            ]
      return [path(ends, false, { layer: 'mark', stroke: stroke(pen.bold) }), ...jump]
    }),
    rectangle({ x, y, width, height }, { stroke: stroke(pen.thin) }),
  ]
}

/** The greatest of 1, 2, 5 times a power of ten that is not above the value. */
function roundUnder(value: number): number {
  const decade = 10 ** Math.floor(Math.log10(value))
  return [5, 2, 1].map((n) => n * decade).find((n) => n <= value) ?? decade
}

/** Which ends of two neighbouring layers lie on one another. */
function touching(layer: Layer, next: Layer): { own: 0 | 1; next: 0 | 1 } | null {
  for (const own of [0, 1] as const)
    for (const other of [0, 1] as const)
      if (Math.abs(layer.z_m[own] - next.z_m[other]) < 1e-9) return { own, next: other }
  return null
}

/** Plies toned in turn, what has no index (the core) hatched. */
function band(
  { z_m }: Layer,
  i: number,
  { x, width }: { readonly x: number; readonly width: number },
  level: (z: number) => number,
): Primitive[] {
  const [a, b] = [level(z_m[0]), level(z_m[1])].sort((p, q) => p - q)
  return [
    rectangle({ x, y: a, width, height: b - a }, { layer: 'fill', fill: fill('ink', i % 2 === 0 ? 0.14 : 0.05) }),
    line([x, b], [x + width, b], stroke(pen.hair, 'light')),
  ]
}

const size = 2.4
const leading = 2.9

/** Beside their bands, pushed apart where the bands are thinner than words, with a line to each. */
function layerNames(
  layers: readonly Layer[],
  weakest: string | null,
  level: (z: number) => number,
  [x, end]: readonly [number, number],
): Primitive[] {
  const wanted = layers.map(({ z_m }) => level((z_m[0] + z_m[1]) / 2))
  const places = spread(wanted, leading)
  const faces = ['previous face', 'next face']
  return [
    ...layers.flatMap(({ layer }, i): Primitive[] => {
      const bold = layer === weakest
      const words = faces.reduce((name, face) => name.replace(` ${face}`, ''), layer)
      const middle = (x + end) / 2 + 1
      return [
        text([middle, places[i] + 0.85], words, {
          size,
          face: bold ? 'title' : 'letter',
          anchor: 'end',
        }),
        path(
          [
            [middle + 0.7, places[i]],
            [middle + 2, places[i]],
            [end - 2.5, wanted[i]],
            [end - 0.6, wanted[i]],
          ],
          false,
          { stroke: stroke(pen.hair, 'mid'), layer: 'mark' },
        ),
      ]
    }),
    ...faceNames(layers, places, x),
  ]
}

/** Beside the plots: the failure index of each layer, an arrow head at the one that is worked hardest. */
function indices(
  layers: readonly Layer[],
  weakest: string | null,
  level: (z: number) => number,
  [x, top]: XY,
): Primitive[] {
  const judged = layers.filter(({ index }) => index !== null)
  const wanted = judged.map(({ z_m }) => level((z_m[0] + z_m[1]) / 2))
  const places = spread(wanted, leading)
  return [
    text([x + 3.4, top - 2], 'index', { size: 2.7, face: 'title' }),
    ...judged.flatMap(({ layer, index }, i): Primitive[] => {
      const bold = layer === weakest
      const head: XY[] = [
        [x + 0.7, places[i]],
        [x + 2.7, places[i] - 1],
        [x + 2.7, places[i] + 1],
      ]
      return [
        text([x + 3.4, places[i] + 0.85], ratio(index, 3), { size, face: bold ? 'title' : 'letter' }),
        ...(bold ? [path(head, true, { fill: fill('ink'), layer: 'mark' })] : []),
      ]
    }),
  ]
}

/** The face that the outermost layers belong to, written along them at the left. */
function faceNames(layers: readonly Layer[], places: readonly number[], x: number): Primitive[] {
  return ['previous face', 'next face'].flatMap((face) => {
    const own = layers.flatMap(({ layer }, i) => (layer.endsWith(face) ? [places[i]] : []))
    if (own.length < 3) return []
    const middle = (Math.min(...own) + Math.max(...own)) / 2
    return [text([x + 0.9, middle], face, { size: 2.4, ink: 'dark', anchor: 'middle', turn: -Math.PI / 2 })]
  })
}

function whole(layers: readonly Layer[], figures: Figures): string {
  const Z = layers.flatMap(({ z_m }) => [...z_m])
  return figures.length(Math.max(...Z) - Math.min(...Z), 1e-5)
}
