/**
 * Sparse symmetric matrices: the upper triangle by columns. Column j holds the rows `row[start[j]] … row[start[j + 1] − 1]`,
 * ascending, none below the diagonal; every diagonal entry is present.
 *
 * The pattern and the place of each element's contributions are found once, so that a matrix with the same pattern and new
 * numbers is only a sum over elements.
 */
import { invariant } from '../issue.ts'

export interface SymmetricPattern {
  readonly n: number
  readonly start: Int32Array
  readonly row: Int32Array
}

export interface SymmetricMatrix {
  readonly pattern: SymmetricPattern
  /** One a pattern entry. */
  readonly value: Float64Array
}

export interface AssemblyPlan {
  readonly pattern: SymmetricPattern
  /** Unknowns per element. */
  readonly size: number
  /**
   * Where local entry (i, j), i ≤ j, of element e goes: `slot[e size (size + 1) / 2 + j (j + 1) / 2 + i]`, an index into
   * `value`, or −1 when one of the two unknowns is held.
   */
  readonly slot: Int32Array
}

/** `unknowns`: `size` per element, numbers 0 … n − 1, or −1 for a held one. */
export function assemblyPlan({ n, size, unknowns }: { n: number; size: number; unknowns: Int32Array }): AssemblyPlan {
  invariant(unknowns.length % size === 0, `${unknowns.length} element unknowns are not a multiple of ${size}`)
  const elements = incidence(n, size, unknowns)
  for (let i = 0; i < n; i++) invariant(elements.start[i + 1] > elements.start[i], `unknown ${i} is in no element`)
  const pattern = upperPattern(n, size, unknowns, elements)
  const slot = new Int32Array((unknowns.length / size) * packed(size)).fill(-1)
  const place = new Int32Array(n)
  for (let column = 0; column < n; column++) {
    for (let p = pattern.start[column]; p < pattern.start[column + 1]; p++) place[pattern.row[p]] = p
    for (let k = elements.start[column]; k < elements.start[column + 1]; k++) {
      placeElement({ slot, place, unknowns, size, e: elements.list[k], column })
    }
  }
  return { pattern, size, slot }
}

/** Row by row, each row's columns from the diagonal on: so the rows of every column come in order. */
function upperPattern(n: number, size: number, unknowns: Int32Array, elements: Incidence): SymmetricPattern {
  const mark = new Int32Array(n)
  const visit = (stamp: number, each: (i: number, j: number) => void): void => {
    for (let i = 0; i < n; i++) {
      for (let k = elements.start[i]; k < elements.start[i + 1]; k++) {
        const first = elements.list[k] * size
        for (let p = first; p < first + size; p++) {
          const j = unknowns[p]
          if (j < i || mark[j] === stamp + i) continue
          mark[j] = stamp + i
          each(i, j)
        }
      }
    }
  }
  const start = new Int32Array(n + 1)
  visit(1, (_, j) => {
    start[j + 1]++
  })
  for (let j = 0; j < n; j++) start[j + 1] += start[j]
  const row = new Int32Array(start[n])
  const filled = start.slice()
  visit(n + 1, (i, j) => {
    row[filled[j]++] = i
  })
  return { n, start, row }
}

/** Entries of the upper triangle of a matrix of `size`. */
export const packed = (size: number): number => (size * (size + 1)) / 2

interface ElementColumn {
  readonly slot: Int32Array
  readonly place: Int32Array
  readonly unknowns: Int32Array
  readonly size: number
  readonly e: number
  readonly column: number
}

function placeElement({ slot, place, unknowns, size, e, column }: ElementColumn): void {
  const at = unknowns.indexOf(column, e * size) - e * size
  for (let k = 0; k < size; k++) {
    const i = unknowns[e * size + k]
    if (i < 0 || i > column) continue
    const [low, high] = k < at ? [k, at] : [at, k]
    slot[e * packed(size) + packed(high) + low] = place[i]
  }
}

/** Elements of unknown i: `list[start[i]] … list[start[i + 1] − 1]`. */
interface Incidence {
  readonly start: Int32Array
  readonly list: Int32Array
}

function incidence(n: number, size: number, unknowns: Int32Array): Incidence {
  const start = new Int32Array(n + 1)
  for (let k = 0; k < unknowns.length; k++) if (unknowns[k] >= 0) start[unknowns[k] + 1]++
  for (let i = 0; i < n; i++) start[i + 1] += start[i]
  const filled = start.slice()
  const list = new Int32Array(start[n])
  for (let k = 0; k < unknowns.length; k++) if (unknowns[k] >= 0) list[filled[unknowns[k]]++] = Math.floor(k / size)
  return { start, list }
}

export const zeroMatrix = (pattern: SymmetricPattern): SymmetricMatrix => ({
  pattern,
  value: new Float64Array(pattern.row.length),
})

/** y = A x */
export function multiply({ pattern: { n, start, row }, value }: SymmetricMatrix, x: Float64Array): Float64Array {
  const y = new Float64Array(n)
  for (let j = 0; j < n; j++) {
    const xj = x[j]
    const diagonal = start[j + 1] - 1
    let sum = value[diagonal] * xj
    for (let p = start[j]; p < diagonal; p++) {
      const i = row[p]
      y[i] += value[p] * xj
      sum += value[p] * x[i]
    }
    y[j] += sum
  }
  return y
}

/** A − shift B, both over one pattern. */
export function shifted(A: SymmetricMatrix, B: SymmetricMatrix, shift: number): SymmetricMatrix {
  invariant(A.pattern === B.pattern, 'matrices of different patterns')
  return { pattern: A.pattern, value: shift === 0 ? A.value : A.value.map((a, p) => a - shift * B.value[p]) }
}
