/** Reads the paths of an SVG without groups, in the units of its view box. */
export interface SvgPath {
  readonly layer: string
  readonly points: readonly (readonly [number, number])[]
  readonly closed: boolean
}

export function readSvg(text: string): { width: string; height: string; viewBox: number[]; paths: SvgPath[] } {
  const root = /<svg[^>]*width="([^"]*)" height="([^"]*)" viewBox="([^"]*)"/.exec(text)
  if (root === null) throw new Error('no svg element')
  const paths = [...text.matchAll(/<path class="([^"]*)" d="([^"]*)"/g)].flatMap(([, layer, d]) => {
    const pieces = d.split(/(?=M)/).filter((piece) => piece !== '')
    return pieces.map((piece) => ({
      layer,
      points: [...piece.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const),
      closed: piece.endsWith('Z'),
    }))
  })
  return { width: root[1], height: root[2], viewBox: root[3].split(' ').map(Number), paths }
}
