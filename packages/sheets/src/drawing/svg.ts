/** A page as SVG: width and height in mm, the view box in mm, one class a layer. */
import type { Group, Ink, Page, Path, Primitive, Stroke, Text } from './drawing.ts'
import { arcOf } from './extent.ts'
import { faceStyle, inkColour } from './ink.ts'
import { textWidth } from './lettering.ts'

export interface SvgOptions {
  /** Colour behind the drawing; left out for cutters and printers. */
  readonly paper?: string
}

export function pageAsSvg(page: Page, { paper }: SvgOptions = {}): string {
  const width = figure(page.width)
  const height = figure(page.height)
  const ground = paper === undefined ? '' : `<rect width="${width}" height="${height}" fill="${paper}"/>\n`
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}mm" height="${height}mm" viewBox="0 0 ${width} ${height}">\n` +
    `<title>${escaped(page.title)}</title>\n${ground}${itemsAsSvg(page.items)}\n</svg>\n`
  )
}

/** What stands for an ink: a colour, or on screen a variable of the style sheet. */
export type Colours = { readonly [ink in Ink]: string }

/** The inside of an `svg` element whose view box is in mm. */
export const itemsAsSvg = (items: readonly Primitive[], colours: Colours = inkColour): string =>
  items.map((item) => primitiveAsSvg(item, colours)).join('\n')

function primitiveAsSvg(item: Primitive, colours: Colours): string {
  switch (item.kind) {
    case 'path':
      return `<path class="${item.layer}" d="${pathData(item)}" ${paint(item, colours)}/>`
    case 'lines': {
      const d = item.pairs.map(([a, b]) => `M${figure(a[0])} ${figure(a[1])}L${figure(b[0])} ${figure(b[1])}`).join('')
      return `<path class="${item.layer}" d="${d}" fill="none" ${strokeAsSvg(item.stroke, colours)}/>`
    }
    case 'text':
      return textAsSvg(item, colours)
    case 'group':
      return groupAsSvg(item, colours)
  }
}

export function pathData({ vertices, closed }: Path): string {
  let d = ''
  vertices.forEach(([x, y], i) => {
    if (i === 0) d += `M${figure(x)} ${figure(y)}`
    else d += segment(vertices[i - 1], [x, y])
  })
  const last = vertices[vertices.length - 1]
  if (closed && (last[2] ?? 0) !== 0) d += segment(last, [vertices[0][0], vertices[0][1]])
  return closed ? `${d}Z` : d
}

function segment([x0, y0, bulge = 0]: Path['vertices'][number], [x, y]: readonly [number, number]): string {
  if (bulge === 0) return `L${figure(x)} ${figure(y)}`
  const { radius, sweep } = arcOf([x0, y0], [x, y], bulge)
  const large = Math.abs(sweep) > Math.PI ? 1 : 0
  return `A${figure(radius)} ${figure(radius)} 0 ${large} ${sweep > 0 ? 1 : 0} ${figure(x)} ${figure(y)}`
}

function paint({ stroke, fill }: Path, colours: Colours): string {
  const filled = fill === null ? 'fill="none"' : `fill="${colours[fill.ink]}" fill-opacity="${figure(fill.opacity)}"`
  return stroke === null ? filled : `${filled} ${strokeAsSvg(stroke, colours)}`
}

function strokeAsSvg({ ink, width, dash, phase }: Stroke, colours: Colours): string {
  const dashes = dash === undefined ? '' : ` stroke-dasharray="${dash.map(figure).join(' ')}"`
  const offset = phase === undefined ? '' : ` stroke-dashoffset="${figure(phase)}"`
  return `stroke="${colours[ink]}" stroke-width="${figure(width)}"${dashes}${offset}`
}

/** `textLength` holds the width whatever font the viewer has. */
function textAsSvg({ at, text, size, face, ink, anchor, turn, tracking, layer }: Text, colours: Colours): string {
  const { family, weight, italic } = faceStyle[face]
  const rotate =
    turn === 0 ? '' : ` transform="rotate(${figure((turn * 180) / Math.PI)} ${figure(at[0])} ${figure(at[1])})"`
  const style = `font-family="'${family}', sans-serif" font-weight="${weight}"${italic ? ' font-style="italic"' : ''}`
  const length = `textLength="${figure(textWidth(text, { size, face, tracking }))}" lengthAdjust="spacingAndGlyphs"`
  const place = `x="${figure(at[0])}" y="${figure(at[1])}" font-size="${figure(size)}" text-anchor="${anchor}"`
  return `<text class="${layer}" ${place} ${style} fill="${colours[ink]}" ${length}${rotate}>${escaped(text)}</text>`
}

function groupAsSvg({ items, move, turn, scale, clip }: Group, colours: Colours): string {
  const turned = turn === 0 ? '' : ` rotate(${figure((turn * 180) / Math.PI)})`
  const scaled = scale[0] === 1 && scale[1] === 1 ? '' : ` scale(${figure(scale[0])} ${figure(scale[1])})`
  const inner = `<g transform="translate(${figure(move[0])} ${figure(move[1])})${turned}${scaled}">\n${itemsAsSvg(items, colours)}\n</g>`
  if (clip === null) return inner
  const box = [clip.x, clip.y, clip.width, clip.height].map(figure)
  const id = `clip-${box.join('-')}`
  return (
    `<clipPath id="${id}"><rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}"/></clipPath>` +
    `<g clip-path="url(#${id})">${inner}</g>`
  )
}

/** To a nanometre, without exponent or trailing zeros. */
export function figure(value: number): string {
  const rounded = value.toFixed(6)
  const short = rounded.includes('.') ? rounded.replace(/\.?0+$/, '') : rounded
  return short === '-0' ? '0' : short
}

const escaped = (words: string): string =>
  words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;')
