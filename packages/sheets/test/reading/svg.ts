/** Reads the paths of an SVG back with an XML parser of its own, in the units of its view box; groups carry the layer. */
import { DOMParser } from '@xmldom/xmldom'

export interface SvgPath {
  /** Of the path itself, and the id of the group it stands in. */
  readonly layer: string
  readonly group: string
  readonly points: readonly (readonly [number, number])[]
  readonly closed: boolean
}

export interface ReadSvg {
  readonly width: string
  readonly height: string
  readonly viewBox: readonly number[]
  readonly groups: readonly string[]
  readonly paths: readonly SvgPath[]
  /** Elements that are no `svg`, `title`, `g` or `path`. */
  readonly others: readonly string[]
}

export function readSvg(text: string): ReadSvg {
  const document = new DOMParser({
    onError: (level, message) => {
      throw new Error(`${level}: ${message}`)
    },
  }).parseFromString(text, 'image/svg+xml')
  const root = document.documentElement!
  const elements = [...document.getElementsByTagName('*')]
  const paths = elements
    .filter(({ tagName }) => tagName === 'path')
    .flatMap((element) => {
      const pieces = (element.getAttribute('d') ?? '').split(/(?=M)/).filter((piece) => piece !== '')
      return pieces.map((piece) => ({
        layer: element.getAttribute('class') ?? '',
        group: element.parentNode?.nodeName === 'g' ? (elementOf(element.parentNode).getAttribute('id') ?? '') : '',
        points: [...piece.matchAll(/[ML](-?[\d.]+) (-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)] as const),
        closed: piece.endsWith('Z'),
      }))
    })
  return {
    width: root.getAttribute('width') ?? '',
    height: root.getAttribute('height') ?? '',
    viewBox: (root.getAttribute('viewBox') ?? '').split(' ').map(Number),
    groups: elements.filter(({ tagName }) => tagName === 'g').map((group) => group.getAttribute('id') ?? ''),
    paths,
    others: elements.map(({ tagName }) => tagName).filter((name) => !['svg', 'title', 'g', 'path'].includes(name)),
  }
}

const elementOf = (node: unknown): { getAttribute: (name: string) => string | null } =>
  node as { getAttribute: (name: string) => string | null }
