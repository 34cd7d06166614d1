/** Outlines as drawing files hold them, in the file's own units, y up: read, flattened, and strung together. */
export type XY = readonly [number, number]

export type Piece =
  | { readonly kind: 'line'; readonly to: XY }
  /** Tangent of a quarter of the arc's angle, positive to the left. */
  | { readonly kind: 'arc'; readonly to: XY; readonly bulge: number }
  | { readonly kind: 'cubic'; readonly c1: XY; readonly c2: XY; readonly to: XY }

export interface Path {
  readonly start: XY
  readonly pieces: readonly Piece[]
  readonly closed: boolean
}

export type FileUnit = 'mm' | 'cm' | 'm' | 'in' | 'ft'

export interface DrawingFile {
  /** Null where the file does not say how large its unit is. */
  readonly unit: FileUnit | null
  readonly paths: readonly Path[]
  /** What is in the file and is no outline, by name, with how many. */
  readonly leftOut: Readonly<Record<string, number>>
}

export interface Unreadable {
  readonly message: string
  readonly hint: string
}

export type ReadDrawing = { readonly ok: true; readonly file: DrawingFile } | ({ readonly ok: false } & Unreadable)

export interface Chain {
  readonly points: readonly XY[]
  readonly closed: boolean
}

/** Chord of a flattened curve to the curve, over the drawing's extent: 0.05 mm on a fin of 250 mm. */
const flatness = 2e-4
/** Ends closer than this over the extent are one. */
const sameEnd = 1e-4

/** Flattened and joined where ends meet; the largest first. */
export function chainsOf({ paths }: DrawingFile): readonly Chain[] {
  const corners = paths.flatMap(({ start, pieces }) => [start, ...pieces.map(({ to }) => to)])
  if (corners.length === 0) return []
  const size = extent(corners)
  const flat = paths.map((path) => flattened(path, flatness * size))
  const open = flat.filter(({ closed }) => !closed)
  const chains = [...flat.filter(({ closed }) => closed), ...joined(open, sameEnd * size)]
  return chains
    .map((chain) => tidied(chain, sameEnd * size))
    .filter(({ points }) => points.length >= 3)
    .sort((a, b) => extent(b.points) - extent(a.points))
}

function extent(points: readonly XY[]): number {
  const [X, Y] = [points.map(([x]) => x), points.map(([, y]) => y)]
  const range = (values: number[]): number =>
    values.reduce((a, b) => Math.max(a, b), -Infinity) - values.reduce((a, b) => Math.min(a, b), Infinity)
  return Math.hypot(range(X), range(Y))
}

function flattened({ start, pieces, closed }: Path, tolerance: number): Chain {
  const points: XY[] = [start]
  for (const piece of pieces) {
    const from = points.at(-1)!
    if (piece.kind === 'line') points.push(piece.to)
    else if (piece.kind === 'arc') points.push(...arcPoints(from, piece.to, piece.bulge, tolerance))
    else points.push(...cubicPoints(from, piece, tolerance))
  }
  return { points, closed }
}

/** n chords of an arc of angle a and radius r stray by r (1 - cos(a / 2n)). */
function arcPoints(from: XY, to: XY, bulge: number, tolerance: number): XY[] {
  const angle = 4 * Math.atan(bulge)
  const chord = Math.hypot(to[0] - from[0], to[1] - from[1])
  if (chord === 0 || Math.abs(angle) < 1e-9) return [to]
  const r = chord / (2 * Math.sin(Math.abs(angle) / 2))
  const step = 2 * Math.acos(Math.max(0, 1 - tolerance / r))
  const n = Math.min(200, Math.max(1, Math.ceil(Math.abs(angle) / step)))
  // centre: from the chord's middle, to the left of its direction
  const apothem = chord / 2 / Math.tan(angle / 2)
  const [ux, uy] = [(to[0] - from[0]) / chord, (to[1] - from[1]) / chord]
  const centre: XY = [(from[0] + to[0]) / 2 - uy * apothem, (from[1] + to[1]) / 2 + ux * apothem]
  const first = Math.atan2(from[1] - centre[1], from[0] - centre[0])
  return Array.from({ length: n }, (_, i): XY => {
    if (i === n - 1) return to
    const at = first + (angle * (i + 1)) / n
    return [centre[0] + r * Math.cos(at), centre[1] + r * Math.sin(at)]
  })
}

/** n chords of a cubic stray by at most M / (8 n²), M its greatest second derivative, which is 6 times a second difference of its points. */
function cubicPoints(p0: XY, { c1, c2, to }: Extract<Piece, { kind: 'cubic' }>, tolerance: number): XY[] {
  const second = (a: XY, b: XY, c: XY): number => Math.hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1])
  const M = 6 * Math.max(second(p0, c1, c2), second(c1, c2, to))
  const n = Math.min(200, Math.max(1, Math.ceil(Math.sqrt(M / (8 * tolerance)))))
  return Array.from({ length: n }, (_, i): XY => {
    const t = (i + 1) / n
    const s = 1 - t
    const blend = (k: 0 | 1): number => s ** 3 * p0[k] + 3 * s * s * t * c1[k] + 3 * s * t * t * c2[k] + t ** 3 * to[k]
    return i === n - 1 ? to : [blend(0), blend(1)]
  })
}

const near = (a: XY, b: XY, tolerance: number): boolean => Math.hypot(a[0] - b[0], a[1] - b[1]) <= tolerance

/** Single lines and arcs strung together end to end, whichever way round each was drawn. */
function joined(open: readonly Chain[], tolerance: number): Chain[] {
  const rest = open.map(({ points }) => points)
  const done: Chain[] = []
  while (rest.length > 0) {
    let chain = rest.shift()!
    for (;;) {
      const end = chain.at(-1)!
      const start = chain[0]!
      const found = rest.findIndex((one) =>
        [one[0]!, one.at(-1)!].some((point) => near(point, end, tolerance) || near(point, start, tolerance)),
      )
      if (found < 0 || near(start, end, tolerance)) break
      chain = strung(chain, rest.splice(found, 1)[0]!, tolerance)
    }
    done.push({ points: chain, closed: near(chain[0]!, chain.at(-1)!, tolerance) })
  }
  return done
}

function strung(chain: readonly XY[], other: readonly XY[], tolerance: number): readonly XY[] {
  const back = [...other].reverse()
  const end = chain.at(-1)!
  if (near(other[0]!, end, tolerance)) return [...chain, ...other.slice(1)]
  if (near(back[0]!, end, tolerance)) return [...chain, ...back.slice(1)]
  const start = chain[0]!
  return near(other.at(-1)!, start, tolerance) ? [...other, ...chain.slice(1)] : [...back, ...chain.slice(1)]
}

/** Without doubled points and points on the straight between their neighbours. */
function tidied({ points, closed }: Chain, tolerance: number): Chain {
  let kept = points.filter((point, i) => i === 0 || !near(point, points[i - 1]!, tolerance))
  if (closed && kept.length > 1 && near(kept[0]!, kept.at(-1)!, tolerance)) kept = kept.slice(0, -1)
  const n = kept.length
  const straight = (i: number): boolean => {
    if (!closed && (i === 0 || i === n - 1)) return false
    const [a, b, c] = [kept[(i + n - 1) % n]!, kept[i]!, kept[(i + 1) % n]!]
    const [ux, uy] = [c[0] - a[0], c[1] - a[1]]
    const length = Math.hypot(ux, uy)
    const ahead = ux * (b[0] - a[0]) + uy * (b[1] - a[1])
    if (length === 0 || ahead <= 0 || ahead >= length * length) return false
    return Math.abs(ux * (b[1] - a[1]) - uy * (b[0] - a[0])) / length < 1e-3 * tolerance
  }
  return { points: kept.filter((_, i) => !straight(i)), closed }
}
