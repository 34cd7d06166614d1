/**
 * A page as a plotter, drag knife or laser takes it: three layers, CUT, MARK and TEXT, and CHECK for the square to measure
 * the machine by; letters are single strokes; what is drawn comes before what is cut. Fills are left out: no pen fills. Broken lines are
 * broken up into strokes, because many machines draw them full; the square stays whole, to be measured.
 */
import { type Layer, type Page, type Path, type Primitive, path, pen, stroke, type Vertex, type XY } from './drawing.ts'
import { moved } from './extent.ts'
import { lettered } from './stroke-lettering.ts'
import { figure, pathData } from './svg.ts'

export type PlotLayer = 'mark' | 'text' | 'check' | 'cut'

/** In the order of working, with the colour that tells a cutter's operator the layers apart. */
export const plotLayers: readonly { readonly layer: PlotLayer; readonly name: string; readonly colour: string }[] = [
  { layer: 'mark', name: 'MARK', colour: '#0000ff' },
  { layer: 'text', name: 'TEXT', colour: '#000000' },
  { layer: 'check', name: 'CHECK', colour: '#ff00ff' },
  { layer: 'cut', name: 'CUT', colour: '#ff0000' },
]

const plotLayer = (layer: Layer): PlotLayer =>
  layer === 'cut' || layer === 'text' || layer === 'check' ? layer : 'mark'

/** Scale of a machine's two axes: what drawn lengths are multiplied with. */
export interface PlotScale {
  readonly across: number
  readonly along: number
}

/** Nothing but paths on the plotting layers, those of one layer together; groups are taken apart. */
export function plotted(page: Page, scale: PlotScale | null = null): Page {
  const paths = page.items.flatMap((item) => pathsOf(item)).map((one) => scaled(one, scale))
  return {
    ...page,
    width: page.width * Math.max(1, scale?.across ?? 1),
    height: page.height * Math.max(1, scale?.along ?? 1),
    items: plotLayers.flatMap(({ layer }) => paths.filter((one) => one.layer === layer)),
  }
}

const thin = stroke(pen.fine)

function pathsOf(item: Primitive): Path[] {
  switch (item.kind) {
    case 'path':
      return item.stroke === null && item.fill === null
        ? []
        : broken({ ...item, layer: plotLayer(item.layer), stroke: item.stroke ?? thin, fill: null })
    case 'lines':
      return item.pairs.map(([a, b]) => path([a, b], false, { layer: plotLayer(item.layer), stroke: item.stroke }))
    case 'text':
      // words that belong to the square stay with it
      return lettered(item, thin).map((one) => ({ ...one, layer: item.layer === 'check' ? 'check' : 'text' }))
    case 'group':
      return item.items.flatMap(pathsOf).map((one) => ({
        ...one,
        vertices: one.vertices.map((vertex) => onTo(vertex, (at) => moved(item, at))),
      }))
  }
}

/** Shortest period of a broken line: a pen is slow to lift, mm. */
const leastPeriod = 5

/** The strokes of a broken line; the line itself where it is full, cut, or the square. */
function broken(one: Path): Path[] {
  const { dash } = one.stroke!
  const solid = { ...one, stroke: stroke(one.stroke!.width) }
  if (dash === undefined || one.layer !== 'mark') return [solid]
  const period = dash.reduce((sum, length) => sum + length, 0)
  const pattern = dash.map((length) => length * Math.max(1, leastPeriod / period))
  const points = one.vertices.map(([x, y]): XY => [x, y])
  const strokes: XY[][] = []
  let k = 0
  let left = pattern[0]!
  let run: XY[] = [points[0]!]
  const ends = one.closed ? [...points.slice(1), points[0]!] : points.slice(1)
  let from = points[0]!
  for (const to of ends) {
    let length = Math.hypot(to[0] - from[0], to[1] - from[1])
    while (length > left) {
      const share = left / length
      from = [from[0] + (to[0] - from[0]) * share, from[1] + (to[1] - from[1]) * share]
      length -= left
      if (k % 2 === 0) strokes.push([...run, from])
      k = (k + 1) % pattern.length
      left = pattern[k]!
      run = [from]
    }
    left -= length
    run.push(to)
    from = to
  }
  if (k % 2 === 0 && run.length > 1) strokes.push(run)
  return strokes.map((vertices) => ({ ...solid, vertices, closed: false }))
}

/** An arc stays an arc only under one scale for both axes; pieces are drawn without arcs. */
function scaled(one: Path, scale: PlotScale | null): Path {
  if (scale === null) return one
  const to = ([x, y]: XY): XY => [x * scale.across, y * scale.along]
  return { ...one, vertices: one.vertices.map((vertex) => onTo(vertex, to)) }
}

const onTo = ([x, y, bulge]: Vertex, to: (at: XY) => XY): Vertex =>
  bulge === undefined ? to([x, y]) : [...to([x, y]), bulge]

/** A plotted page as SVG in mm: one group a layer, named, so that editors and cutters list them. */
export function plottedAsSvg({ width, height, title, items }: Page): string {
  const groups = plotLayers.flatMap(({ layer, name, colour }) => {
    const rows = items.flatMap((item) => {
      if (item.kind !== 'path' || item.layer !== layer) return []
      return [`<path class="${layer}" d="${pathData(item)}"/>`]
    })
    if (rows.length === 0) return []
    const paint = `fill="none" stroke="${colour}" stroke-width="${figure(pen.fine)}"`
    return [`<g id="${name}" class="${layer}" ${paint}>\n${rows.join('\n')}\n</g>`]
  })
  const [w, h] = [figure(width), figure(height)]
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}">\n` +
    `<title>${title.replaceAll('&', '&amp;').replaceAll('<', '&lt;')}</title>\n${groups.join('\n')}\n</svg>\n`
  )
}
