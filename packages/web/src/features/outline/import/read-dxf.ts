/**
 * Outlines of an ASCII DXF file: LINE, ARC, LWPOLYLINE and POLYLINE of the model, in file units, y up. The file is pairs of lines,
 * group code and value; what each code means: Autodesk, DXF Reference (AutoCAD 2012), ENTITIES section and header variable $INSUNITS.
 */
import type { FileUnit, Path, Piece, ReadDrawing, XY } from './path.ts'

interface Group {
  readonly code: number
  readonly value: string
}

interface Entity {
  readonly name: string
  readonly groups: readonly Group[]
}

/** Values of $INSUNITS that a fin may be drawn in. */
const units: Readonly<Record<string, FileUnit>> = { 1: 'in', 2: 'ft', 4: 'mm', 5: 'cm', 6: 'm' }

export function readDxf(text: string): ReadDrawing {
  if (text.startsWith('AutoCAD Binary DXF'))
    return {
      ok: false,
      message: 'This is a binary DXF file.',
      hint: 'Save it as ASCII DXF, any version, and drop it again.',
    }
  const groups = groupsOf(text)
  const start = groups?.findIndex(({ code, value }) => code === 2 && value === 'ENTITIES') ?? -1
  if (groups === null || start < 0)
    return {
      ok: false,
      message: 'This file has no ENTITIES section of a DXF drawing.',
      hint: 'Export the outline as ASCII DXF, or as SVG, and drop it again.',
    }
  if (!groups.some(({ code, value }, i) => code === 0 && value === 'ENDSEC' && i > start))
    return {
      ok: false,
      message: 'This DXF file breaks off within its drawing.',
      hint: 'Export or copy it again, and drop it again.',
    }
  const paths: Path[] = []
  const leftOut: Record<string, number> = {}
  for (const entity of withVertices(entitiesOf(groups.slice(start + 1)))) {
    const path = pathOf(entity)
    if (path !== null) paths.push(path)
    else leftOut[entity.name] = (leftOut[entity.name] ?? 0) + 1
  }
  const at = groups.findIndex(({ code, value }) => code === 9 && value === '$INSUNITS')
  return { ok: true, file: { unit: units[groups[at + 1]?.value ?? ''] ?? null, paths, leftOut } }
}

/** Null where the pairs do not hold. */
function groupsOf(text: string): Group[] | null {
  const lines = text.split(/\r\n|\r|\n/)
  const groups: Group[] = []
  for (let i = 0; i + 1 < lines.length; i += 2) {
    const code = lines[i]!.trim()
    if (!/^-?\d+$/.test(code)) return null
    groups.push({ code: Number(code), value: lines[i + 1]!.trim() })
  }
  return groups
}

function entitiesOf(groups: readonly Group[]): Entity[] {
  const found: { name: string; groups: Group[] }[] = []
  for (const group of groups) {
    if (group.code === 0 && group.value === 'ENDSEC') break
    if (group.code === 0) found.push({ name: group.value, groups: [] })
    else found.at(-1)?.groups.push(group)
  }
  return found
}

/** The vertices of an old polyline follow it as entities of their own. */
function withVertices(entities: readonly Entity[]): Entity[] {
  const whole: { name: string; groups: Group[] }[] = []
  for (const { name, groups } of entities) {
    const owner = whole.at(-1)
    if (name === 'VERTEX' && owner?.name === 'POLYLINE') owner.groups.push({ code: -1, value: '' }, ...groups)
    else if (name !== 'SEQEND') whole.push({ name, groups: [...groups] })
  }
  return whole
}

function pathOf({ name, groups }: Entity): Path | null {
  const number = (code: number, missing = 0): number => {
    const found = Number(groups.find((group) => group.code === code)?.value ?? missing)
    return Number.isFinite(found) ? found : missing
  }
  // drawn from the back: the extrusion direction is -z
  if (number(230, 1) < 0) return null
  switch (name) {
    case 'LINE':
      return {
        start: [number(10), number(20)],
        pieces: [{ kind: 'line', to: [number(11), number(21)] }],
        closed: false,
      }
    case 'ARC':
      return arc([number(10), number(20)], number(40), number(50), number(51))
    case 'LWPOLYLINE':
      return polyline(vertices(groups, 10), (number(70) & 1) === 1)
    case 'POLYLINE': {
      const marks = groups.flatMap(({ code }, i) => (code === -1 ? [i] : []))
      const all = marks.flatMap((mark, i) => vertices(groups.slice(mark + 1, marks[i + 1]), 10))
      return polyline(all, (number(70) & 1) === 1)
    }
    default:
      return null
  }
}

interface Vertex {
  readonly at: XY
  readonly bulge: number
}

/** A vertex begins with each x. */
function vertices(groups: readonly Group[], x: number): Vertex[] {
  const starts = groups.flatMap(({ code }, i) => (code === x ? [i] : []))
  return starts.map((start, k) => {
    const own = groups.slice(start, starts[k + 1])
    const value = (code: number): number => Number(own.find((group) => group.code === code)?.value ?? 0)
    return { at: [value(x), value(x + 10)], bulge: value(42) }
  })
}

function polyline(all: readonly Vertex[], closed: boolean): Path | null {
  if (all.length < 2 || all.some(({ at, bulge }) => ![...at, bulge].every(Number.isFinite))) return null
  const ends = closed ? [...all.slice(1), all[0]!] : all.slice(1)
  const pieces = ends.map(({ at: to }, i): Piece => {
    const { bulge } = all[i]!
    return bulge === 0 ? { kind: 'line', to } : { kind: 'arc', to, bulge }
  })
  return { start: all[0]!.at, pieces, closed }
}

/** Counter-clockwise from one angle to the other, in two halves so that each has a finite bulge. */
function arc([x, y]: XY, r: number, fromDeg: number, toDeg: number): Path {
  const sweep = ((((toDeg - fromDeg) % 360) + 360) % 360 || 360) * (Math.PI / 180)
  const from = (fromDeg * Math.PI) / 180
  const on = (angle: number): XY => [x + r * Math.cos(angle), y + r * Math.sin(angle)]
  const bulge = Math.tan(sweep / 8)
  return {
    start: on(from),
    pieces: [1, 2].map((half) => ({ kind: 'arc', to: on(from + (sweep * half) / 2), bulge })),
    closed: false,
  }
}
