/** Outlines read from DXF and SVG, laid into fin axes. */
import { DOMParser } from '@xmldom/xmldom'
import { describe, expect, test } from 'vitest'
import { chainsOf, type DrawingFile } from '../../src/features/outline/import/path.ts'
import { faultOf, placed, rootChoices } from '../../src/features/outline/import/place.ts'
import { outlinesIn } from '../../src/features/outline/import/read-drawing.ts'
import { readDxf } from '../../src/features/outline/import/read-dxf.ts'
import { readSvg, type SvgElement } from '../../src/features/outline/import/read-svg.ts'

const pairs = (...rows: readonly (readonly [number, string | number])[]): string =>
  rows.map(([code, value]) => `${code}\n${value}`).join('\n')

const dxf = (entities: string, insunits?: number): string =>
  [
    ...(insunits === undefined
      ? []
      : [pairs([0, 'SECTION'], [2, 'HEADER'], [9, '$INSUNITS'], [70, insunits], [0, 'ENDSEC'])]),
    pairs([0, 'SECTION'], [2, 'ENTITIES']),
    entities,
    pairs([0, 'ENDSEC'], [0, 'EOF']),
  ].join('\n')

const line = (x1: number, y1: number, x2: number, y2: number): string =>
  pairs([0, 'LINE'], [8, 'fin'], [10, x1], [20, y1], [11, x2], [21, y2])

const svg = (inside: string, head = 'width="300mm" viewBox="0 0 300 200"'): SvgElement =>
  new DOMParser().parseFromString(`<svg xmlns="http://www.w3.org/2000/svg" ${head}>${inside}</svg>`, 'image/svg+xml')
    .documentElement as unknown as SvgElement

function fileOf(read: ReturnType<typeof readDxf>): DrawingFile {
  if (!read.ok) throw new Error(read.message)
  return read.file
}

const mm = { turned: false, scale: 1e-3 }

/** The first outline laid on its longest straight piece, mm to a hundredth. */
function finOf(file: DrawingFile, { turned } = mm): (readonly [number, number])[] {
  const chain = chainsOf(file)[0]!
  return placed(chain, { root: rootChoices(chain)[0]!.piece, turned, scale: 1e-3 }).points.map(
    ([x, y]) => [round(x), round(y)] as const,
  )
}

const round = (value: number): number => Math.round(value * 1e5) / 1e2 + 0

const demo = [
  [0, 0],
  [150, 110],
  [270, 110],
  [300, 0],
]

describe('DXF', () => {
  test('single lines in any order and direction are one outline', () => {
    const entities = [line(300, 0, 0, 0), line(270, 110, 150, 110), line(0, 0, 150, 110), line(270, 110, 300, 0)]
    const file = fileOf(readDxf(dxf(entities.join('\n'), 4)))
    expect(file.unit).toBe('mm')
    expect(finOf(file)).toEqual(demo)
  })
  test('a polyline, turned by 30 degrees and mirrored, is laid on its root', () => {
    const [c, s] = [Math.cos(0.5), Math.sin(0.5)]
    const corners = demo.map(([x, y]) => [10 + c * x! + s * y!, 20 + s * x! - c * y!])
    const entity = pairs(
      [0, 'LWPOLYLINE'],
      [90, 4],
      [70, 1],
      ...corners.flatMap(([x, y]) => [[10, x!] as const, [20, y!] as const]),
    )
    const file = fileOf(readDxf(dxf(entity)))
    expect(file.unit).toBeNull()
    expect(finOf(file)).toEqual(demo)
  })
  test('an old polyline with a round tip: the arc keeps within the flatness', () => {
    const vertex = (x: number, y: number, bulge = 0): string => pairs([0, 'VERTEX'], [10, x], [20, y], [42, bulge])
    const bulge = -1
    const entity = [
      pairs([0, 'POLYLINE'], [70, 1], [10, 0], [20, 0]),
      ...[vertex(0, 0), vertex(0, 100, bulge), vertex(100, 100), vertex(100, 0)],
      pairs([0, 'SEQEND']),
    ].join('\n')
    const points = chainsOf(fileOf(readDxf(dxf(entity, 4))))[0]!.points
    const round = points.filter(([, y]) => y > 100 + 1e-9)
    expect(round.length).toBeGreaterThan(10)
    for (const [x, y] of round) expect(Math.hypot(x - 50, y - 100)).toBeCloseTo(50, 9)
    expect(Math.max(...round.map(([, y]) => y))).toBeGreaterThan(149.9)
  })
  test('an arc between lines', () => {
    const arc = pairs([0, 'ARC'], [10, 200], [20, 0], [40, 100], [50, 0], [51, 90])
    const file = fileOf(readDxf(dxf([line(0, 0, 300, 0), line(0, 0, 200, 100), arc].join('\n'), 4)))
    const chain = chainsOf(file)[0]!
    expect(chain.closed).toBe(true)
    for (const [x, y] of chain.points.filter(([x]) => x > 200.001)) expect(Math.hypot(x - 200, y)).toBeCloseTo(100, 9)
  })
  test('what is no outline is told', () => {
    const entities = [pairs([0, 'CIRCLE'], [10, 0], [20, 0], [40, 5]), pairs([0, 'SPLINE'], [70, 8])].join('\n')
    const found = outlinesIn('holes.dxf', readDxf(dxf(entities, 4)))
    expect(found.ok ? '' : found.message).toBe(
      'There is no outline of three corners or more in it, only CIRCLE, SPLINE.',
    )
  })
  test.each([
    ['', 'no ENTITIES section'],
    ['solid fin\n facet normal 0 0 1\n', 'no ENTITIES section'],
    ['AutoCAD Binary DXF\r\n\u001a\u0000', 'binary'],
    [dxf('').slice(0, 18), 'no ENTITIES section'],
  ])('a bad file is refused in words', (text, words) => {
    const read = readDxf(text)
    expect(read.ok ? '' : read.message).toContain(words)
  })
  test('cut off anywhere it is refused: part of an outline is no outline', () => {
    const whole = dxf([line(0, 0, 150, 110), line(150, 110, 300, 0), line(300, 0, 0, 0)].join('\n'))
    expect(readDxf(whole).ok).toBe(true)
    for (let at = 0; at < whole.indexOf('ENDSEC'); at += 5) expect(readDxf(whole.slice(0, at)).ok).toBe(false)
  })
})

describe('SVG', () => {
  test('a polygon in millimetres, y down', () => {
    const file = fileOf(readSvg(svg('<polygon points="0,150 150,40 270,40 300,150"/>')))
    expect(file.unit).toBe('mm')
    expect(finOf(file)).toEqual(demo)
  })
  test('the same as a relative path in moved, turned and scaled groups', () => {
    const inside =
      '<g transform="translate(40 30)"><g transform="rotate(20) scale(2)"><path d="m0 0l75-55h60l15 55z" transform="scale(1 -1)"/></g></g>'
    expect(finOf(fileOf(readSvg(svg(inside))))).toEqual(demo)
  })
  test('viewBox and width say how large a unit is', () => {
    const chain = chainsOf(
      fileOf(readSvg(svg('<rect width="720" height="360"/>', 'width="10in" viewBox="0 0 720 720"'))),
    )[0]!
    expect(rootChoices(chain)[0]!.length).toBeCloseTo(10, 9)
    expect(fileOf(readSvg(svg('<rect width="96" height="48"/>', 'width="500" height="500"'))).unit).toBeNull()
  })
  test('curves keep within the flatness: a quarter ellipse of an arc', () => {
    const file = fileOf(readSvg(svg('<path d="M0 0A200 100 0 0 1 200 100L0 100Z"/>')))
    const points = chainsOf(file)[0]!.points
    expect(points.length).toBeGreaterThan(8)
    for (const [x, y] of points.filter(([x, y]) => x > 1 && y > -99))
      expect((x / 200) ** 2 + ((y + 100) / 100) ** 2).toBeCloseTo(1, 2)
  })
  test('text and pictures are left out and told; definitions are not', () => {
    const inside = '<defs><path d="M0 0h9v9z"/></defs><text>fin</text><image/><path d="M0 0h90v50z"/>'
    const file = fileOf(readSvg(svg(inside)))
    expect(file.leftOut).toEqual({ text: 1, image: 1 })
    expect(chainsOf(file)).toHaveLength(1)
  })
  test('a bad path is told, not thrown', () => {
    expect(fileOf(readSvg(svg('<path d="M0 0 L zebra"/>'))).leftOut).toEqual({ path: 1 })
    expect(outlinesIn('empty.svg', readSvg(svg(''))).ok).toBe(false)
    expect(readSvg(null).ok).toBe(false)
  })
})

describe('laid into fin axes', () => {
  const file = fileOf(readSvg(svg('<polygon points="0,150 150,40 270,40 300,150"/>')))
  test('turned, the other end leads', () => {
    expect(finOf(file, { ...mm, turned: true })).toEqual([
      [0, 0],
      [30, 110],
      [150, 110],
      [300, 0],
    ])
  })
  test('only straight pieces with all the rest to one side may be the root', () => {
    const dart = chainsOf(fileOf(readSvg(svg('<polygon points="0,0 200,0 100,50 100,150"/>'))))[0]!
    expect(rootChoices(dart).map(({ length }) => length)).not.toContain(expect.closeTo(100, 6))
    expect(rootChoices(dart)[0]!.length).toBeCloseTo(200, 9)
  })
  test('too large, too small, on the root line: refused in words', () => {
    const chain = chainsOf(file)[0]!
    const at = (scale: number) => faultOf(placed(chain, { root: rootChoices(chain)[0]!.piece, turned: false, scale }))
    expect(at(1)?.message).toContain('a root is 10 mm to 3000 mm')
    expect(at(1e-6)?.hint).toBe('Choose another unit for the file.')
    expect(at(1e-3)).toBeNull()
  })
})
