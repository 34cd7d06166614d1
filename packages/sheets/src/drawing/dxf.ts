/**
 * A page as DXF for cutters and plotters: millimetres ($INSUNITS 4), one layer a purpose, outlines as closed LWPOLYLINE.
 * DXF points y up: (x, y) of the page becomes (x, height - y), and a bulge changes its sign.
 */
import { Colors, DxfWriter, LWPolylineFlags, point2d, point3d, Units } from '@tarikjabiri/dxf'
import type { Layer, Page, Path, Text } from './drawing.ts'
import { capHeight, textWidth } from './lettering.ts'

/** Layer names and colours as a cutter's operator meets them. */
const layers: { readonly [layer in Layer]: { name: string; colour: number } } = {
  cut: { name: 'CUT', colour: Colors.Red },
  net: { name: 'NET', colour: Colors.Blue },
  fold: { name: 'FOLD', colour: Colors.Cyan },
  mark: { name: 'MARK', colour: Colors.Green },
  weave: { name: 'WEAVE', colour: Colors.Yellow },
  text: { name: 'TEXT', colour: Colors.White },
  check: { name: 'CHECK', colour: Colors.Magenta },
  frame: { name: 'FRAME', colour: Colors.White },
  fill: { name: 'FILL', colour: Colors.White },
}

/** Paths, lines and text; fills are left out. The page holds no groups. */
export function pageAsDxf(page: Page): string {
  const dxf = new DxfWriter()
  dxf.setUnits(Units.Millimeters)
  const used = new Set(page.items.flatMap((item) => (item.kind === 'group' ? [] : [item.layer])))
  for (const layer of used) dxf.addLayer(layers[layer].name, layers[layer].colour, 'Continuous')
  for (const item of page.items) {
    if (item.kind === 'path' && item.stroke !== null) addPath(dxf, item, page.height)
    else if (item.kind === 'text') addWords(dxf, item, page.height)
    else if (item.kind === 'lines') {
      for (const [a, b] of item.pairs) {
        const from = point3d(a[0], page.height - a[1])
        dxf.addLine(from, point3d(b[0], page.height - b[1]), { layerName: layers[item.layer].name })
      }
    }
  }
  return dxf.stringify()
}

function addPath(dxf: DxfWriter, { vertices, closed, layer }: Path, height: number): void {
  const points = vertices.map(([x, y, bulge]) =>
    bulge === undefined || bulge === 0
      ? { point: point2d(x, height - y) }
      : { point: point2d(x, height - y), bulge: -bulge },
  )
  const flags = closed ? LWPolylineFlags.Closed : LWPolylineFlags.None
  dxf.addLWPolyline(points, { flags, layerName: layers[layer].name })
}

/** Anchored at its start whatever the anchor, so that every reader agrees. */
function addWords(dxf: DxfWriter, { at, text, size, face, anchor, turn, tracking, layer }: Text, height: number): void {
  const width = textWidth(text, { size, face, tracking })
  const shift = anchor === 'start' ? 0 : anchor === 'middle' ? -width / 2 : -width
  const x = at[0] + shift * Math.cos(turn)
  const y = at[1] + shift * Math.sin(turn)
  const options = { rotation: (-turn * 180) / Math.PI, layerName: layers[layer].name }
  dxf.addText(point3d(x, height - y), size * capHeight[face], plain(text), options)
}

/** DXF's own codes for the signs that its simple fonts lack. */
const plain = (words: string): string =>
  words.replaceAll('±', '%%p').replaceAll('°', '%%d').replaceAll('–', '-').replaceAll('·', '-').replaceAll('→', '->')
