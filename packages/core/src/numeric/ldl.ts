/**
 * L D Lᵀ factors of a sparse symmetric matrix, without pivoting, in the order of its rows.
 *
 *   A = L D Lᵀ      L unit lower triangular, by columns; D diagonal
 *
 * Row k of L solves L₁ D₁ l = A(1…k−1, k); its pattern is what the rows of column k reach in the elimination tree. The tree,
 * the patterns and the place of every entry depend on the pattern of A alone and are found once. Number of negative d =
 * number of negative eigenvalues (Sylvester's law of inertia). Without pivoting the factors are stable for definite A; for an
 * indefinite one, K − σ M, growth is possible, so a pivot that vanishes beside its diagonal entry is reported.
 * Source: Davis, Direct Methods for Sparse Linear Systems (2006), chapter 4, up-looking factorisation (recalled).
 *
 * For speed, up to four consecutive rows that reach the same columns (the unknowns of one node do) are formed together, and up
 * to three columns with the same rows are used together in a solution; both only change the order of the same sums.
 */
import type { SymmetricMatrix, SymmetricPattern } from './sparse.ts'

export interface LdlAnalysis {
  readonly pattern: SymmetricPattern
  /** Columns of L. */
  readonly start: Int32Array
  readonly row: Int32Array
  /** Rows of L: the columns of row k, rising. */
  readonly reachStart: Int32Array
  readonly reach: Int32Array
  /** First rows of the blocks that are formed together, then n. */
  readonly rowBlocks: Int32Array
  /** First columns of the blocks that are used together, then n. */
  readonly columnBlocks: Int32Array
  /** 1 for a column that has the rows of the next one, and the next one itself. */
  readonly nested: Uint8Array
}

export interface Ldl {
  readonly analysis: LdlAnalysis
  readonly L: Float64Array
  readonly D: Float64Array
  readonly negativePivots: number
  /** Row whose pivot vanished to rounding (the matrix is singular), else −1. */
  readonly singularAt: number
}

/** A pivot smaller than this share of its diagonal entry is rounding. */
const vanishing = 16 * Number.EPSILON
/** Rows formed together: the kernel's width. */
const width = 4
const mostColumns = 3

export function analyseLdl(pattern: SymmetricPattern): LdlAnalysis {
  const { n } = pattern
  const parent = new Int32Array(n).fill(-1)
  const mark = new Int32Array(n)
  const count = new Int32Array(n)
  const reachStart = new Int32Array(n + 1)
  const path = new Int32Array(n)
  let reach = new Int32Array(4 * pattern.row.length + n)
  for (let k = 0; k < n; k++) {
    mark[k] = k
    let top = n // reach of row k is gathered at the end of `path`, tree paths in order
    for (let p = pattern.start[k]; p < pattern.start[k + 1] - 1; p++) {
      let length = 0
      for (let i = pattern.row[p]; mark[i] !== k; i = parent[i]) {
        if (parent[i] < 0) parent[i] = k
        mark[i] = k
        count[i]++
        path[length++] = i
      }
      while (length > 0) path[--top] = path[--length]
    }
    reachStart[k + 1] = reachStart[k] + n - top
    if (reachStart[k + 1] > reach.length) reach = grown(reach, 2 * reachStart[k + 1])
    reach.set(path.subarray(top).sort(), reachStart[k])
  }
  const start = new Int32Array(n + 1)
  for (let k = 0; k < n; k++) start[k + 1] = start[k] + count[k]
  const filled = start.slice()
  const row = new Int32Array(start[n])
  for (let k = 0; k < n; k++) for (let p = reachStart[k]; p < reachStart[k + 1]; p++) row[filled[reach[p]]++] = k
  const sameReach = nestedRows(n, reachStart, reach)
  // Column j + 1 has the rows of column j but its own.
  const sameRows = (j: number): boolean => row[start[j]] === j + 1 && count[j] === count[j + 1] + 1
  return {
    ...{ pattern, start, row, reachStart, reach: reach.slice(0, start[n]) },
    rowBlocks: blocks(n, sameReach, width),
    columnBlocks: blocks(n, sameRows, mostColumns),
    nested: Uint8Array.from({ length: n }, (_, j) => (j + 1 < n && sameRows(j) ? 1 : 0)),
  }
}

function grown(a: Int32Array, length: number): Int32Array<ArrayBuffer> {
  const b = new Int32Array(length)
  b.set(a)
  return b
}

/** Whether row k + 1 reaches what row k reaches, and k. */
function nestedRows(n: number, reachStart: Int32Array, reach: Int32Array): (k: number) => boolean {
  const mark = new Int32Array(n).fill(-1)
  return (k) => {
    const [first, middle, last] = [reachStart[k], reachStart[k + 1], reachStart[k + 2]]
    if (last - middle !== middle - first + 1) return false
    for (let p = middle; p < last; p++) mark[reach[p]] = k
    if (mark[k] !== k) return false
    for (let p = first; p < middle; p++) if (mark[reach[p]] !== k) return false
    return true
  }
}

/** Chains of `joined` neighbours, each cut evenly into blocks of at most `most`. */
function blocks(n: number, joined: (k: number) => boolean, most: number): Int32Array {
  const first: number[] = []
  for (let k = 0; k < n; ) {
    let end = k + 1
    while (end < n && joined(end - 1)) end++
    const pieces = Math.ceil((end - k) / most)
    for (let i = 0; i < pieces; i++) first.push(k + Math.floor((i * (end - k)) / pieces))
    k = end
  }
  return Int32Array.from([...first, n])
}

export function factorLdl(analysis: LdlAnalysis, { value }: SymmetricMatrix): Ldl {
  const { pattern, start, row, reachStart, reach, rowBlocks, nested } = analysis
  const { n } = pattern
  const L = new Float64Array(row.length)
  const D = new Float64Array(n)
  const Y = new Float64Array(width * n) // entry i of the block's r-th row at 4 i + r
  const S = new Float64Array(width * width) // the block itself, lower triangle
  const end = start.slice(0, n)
  const counts = { negativePivots: 0, singularAt: -1 }
  for (let block = 0; block + 1 < rowBlocks.length; block++) {
    const first = rowBlocks[block]
    const rows = rowBlocks[block + 1] - first
    S.fill(0)
    for (let r = 0; r < rows; r++) {
      for (let p = pattern.start[first + r]; p < pattern.start[first + r + 1]; p++) {
        const i = pattern.row[p]
        if (i < first) Y[width * i + r] = value[p]
        else S[width * r + i - first] = value[p]
      }
    }
    for (let at = reachStart[first]; at < reachStart[first + 1]; at++) {
      const i = reach[at]
      if (nested[i] === 1 && reach[at + 1] === i + 1 && at + 1 < reachStart[first + 1]) {
        eliminatePair({ Y, S, L, D, row, rows, i, start, end })
        end[i + 1] += rows
        at++
      } else eliminateColumn({ Y, S, L, D, row, rows, i, start, end })
      end[i] += rows
    }
    factorBlock({ S, L, D, value, pattern, end, first, rows, counts })
  }
  return { analysis, L, D, ...counts }
}

interface ColumnStep {
  readonly Y: Float64Array
  readonly S: Float64Array
  readonly L: Float64Array
  readonly D: Float64Array
  readonly row: Int32Array
  readonly rows: number
  readonly i: number
  readonly start: Int32Array
  readonly end: Int32Array
}

/** Takes column i of L out of the block's rows and appends their entries to it. */
function eliminateColumn({ Y, S, L, D, row, rows, i, start, end }: ColumnStep): void {
  const at = width * i
  const y0 = Y[at]
  const y1 = Y[at + 1]
  const y2 = Y[at + 2]
  const y3 = Y[at + 3]
  Y.fill(0, at, at + width)
  const to = end[i]
  for (let p = start[i]; p < to; p++) {
    const l = L[p]
    const k = width * row[p]
    Y[k] -= l * y0
    Y[k + 1] -= l * y1
    Y[k + 2] -= l * y2
    Y[k + 3] -= l * y3
  }
  intoBlock(S, L, { rows, to, d: D[i] }, y0, y1, y2, y3)
}

/** Columns i and i + 1 that have the same rows: Y goes to and fro half as often. */
function eliminatePair({ Y, S, L, D, row, rows, i, start, end }: ColumnStep): void {
  const at = width * i
  const y0 = Y[at]
  const y1 = Y[at + 1]
  const y2 = Y[at + 2]
  const y3 = Y[at + 3]
  let p = start[i]
  const own = L[p]
  const z0 = Y[at + 4] - own * y0
  const z1 = Y[at + 5] - own * y1
  const z2 = Y[at + 6] - own * y2
  const z3 = Y[at + 7] - own * y3
  Y.fill(0, at, at + 2 * width)
  const to = end[i + 1]
  p++
  for (let q = start[i + 1]; q < to; p++, q++) {
    const l = L[p]
    const m = L[q]
    const k = width * row[q]
    Y[k] -= l * y0 + m * z0
    Y[k + 1] -= l * y1 + m * z1
    Y[k + 2] -= l * y2 + m * z2
    Y[k + 3] -= l * y3 + m * z3
  }
  intoBlock(S, L, { rows, to: end[i], d: D[i] }, y0, y1, y2, y3)
  intoBlock(S, L, { rows, to, d: D[i + 1] }, z0, z1, z2, z3)
}

function intoBlock(
  S: Float64Array,
  L: Float64Array,
  { rows, to, d }: { readonly rows: number; readonly to: number; readonly d: number },
  y0: number,
  y1: number,
  y2: number,
  y3: number,
): void {
  for (let r = 0; r < rows; r++) {
    const l = (r === 0 ? y0 : r === 1 ? y1 : r === 2 ? y2 : y3) / d
    L[to + r] = l
    const s = width * r
    S[s] -= l * y0
    S[s + 1] -= l * y1
    S[s + 2] -= l * y2
    S[s + 3] -= l * y3
  }
}

interface BlockStep {
  readonly S: Float64Array
  readonly L: Float64Array
  readonly D: Float64Array
  readonly value: Float64Array
  readonly pattern: SymmetricPattern
  readonly end: Int32Array
  readonly first: number
  readonly rows: number
  readonly counts: { negativePivots: number; singularAt: number }
}

/** The block's own dense factors. */
function factorBlock({ S, L, D, value, pattern, end, first, rows, counts }: BlockStep): void {
  for (let c = 0; c < rows; c++) {
    const k = first + c
    const d = S[width * c + c]
    const diagonal = value[pattern.start[k + 1] - 1]
    if (!(Math.abs(d) > vanishing * Math.abs(diagonal)) && counts.singularAt < 0) counts.singularAt = k
    if (d < 0) counts.negativePivots++
    D[k] = d
    for (let r = c + 1; r < rows; r++) {
      const l = S[width * r + c] / d
      L[end[k]++] = l
      for (let s = c + 1; s <= r; s++) S[width * r + s] -= l * S[width * s + c]
    }
  }
}

/** x of A x = b. */
export function solveLdl({ analysis: { start, row, columnBlocks }, L, D }: Ldl, b: Float64Array): Float64Array {
  const x = b.slice()
  const blockCount = columnBlocks.length - 1
  for (let block = 0; block < blockCount; block++) {
    const j = columnBlocks[block]
    const columns = columnBlocks[block + 1] - j
    if (columns === 3) forward3(x, L, row, start, j)
    else for (let k = j; k < j + columns; k++) forward1(x, L, row, start, k)
  }
  for (let j = 0; j < x.length; j++) x[j] /= D[j]
  for (let block = blockCount - 1; block >= 0; block--) {
    const j = columnBlocks[block]
    const columns = columnBlocks[block + 1] - j
    if (columns === 3) backward3(x, L, row, start, j)
    else for (let k = j + columns - 1; k >= j; k--) backward1(x, L, row, start, k)
  }
  return x
}

function forward1(x: Float64Array, L: Float64Array, row: Int32Array, start: Int32Array, j: number): void {
  const xj = x[j]
  for (let p = start[j]; p < start[j + 1]; p++) x[row[p]] -= L[p] * xj
}

function backward1(x: Float64Array, L: Float64Array, row: Int32Array, start: Int32Array, j: number): void {
  let xj = x[j]
  for (let p = start[j]; p < start[j + 1]; p++) xj -= L[p] * x[row[p]]
  x[j] = xj
}

/** Columns j, j + 1, j + 2: the first two have entries of their own beside the rows all three share. */
function forward3(x: Float64Array, L: Float64Array, row: Int32Array, start: Int32Array, j: number): void {
  let p = start[j]
  let q = start[j + 1]
  let r = start[j + 2]
  const x0 = x[j]
  const x1 = x[j + 1] - L[p] * x0
  const x2 = x[j + 2] - L[p + 1] * x0 - L[q] * x1
  x[j + 1] = x1
  x[j + 2] = x2
  p += 2
  q += 1
  for (; r < start[j + 3]; p++, q++, r++) x[row[r]] -= L[p] * x0 + L[q] * x1 + L[r] * x2
}

function backward3(x: Float64Array, L: Float64Array, row: Int32Array, start: Int32Array, j: number): void {
  const first = start[j]
  const second = start[j + 1]
  let x0 = x[j]
  let x1 = x[j + 1]
  let x2 = x[j + 2]
  for (let p = first + 2, q = second + 1, r = start[j + 2]; r < start[j + 3]; p++, q++, r++) {
    const y = x[row[r]]
    x0 -= L[p] * y
    x1 -= L[q] * y
    x2 -= L[r] * y
  }
  x1 -= L[second] * x2
  x0 -= L[first] * x1 + L[first + 1] * x2
  x[j] = x0
  x[j + 1] = x1
  x[j + 2] = x2
}
