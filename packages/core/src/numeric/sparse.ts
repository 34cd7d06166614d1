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
  const elementsOf = incidence(n, size, unknowns)
  const start = new Int32Array(n + 1)
  const rows: number[] = []
  const slot = new Int32Array((unknowns.length / size) * packed(size)).fill(-1)
  const mark = new Int32Array(n).fill(-1)
  const place = new Int32Array(n)
  for (let column = 0; column < n; column++) {
    mark[column] = column
    const found = [column]
    const elements = elementsOf(column)
    for (const e of elements) {
      for (let k = e * size; k < (e + 1) * size; k++) {
        const i = unknowns[k]
        if (i < 0 || i > column || mark[i] === column) continue
        mark[i] = column
        found.push(i)
      }
    }
    found.sort((p, q) => p - q)
    found.forEach((i, k) => {
      place[i] = start[column] + k
    })
    for (const i of found) rows.push(i)
    start[column + 1] = rows.length
    for (const e of elements) placeElement({ slot, place, unknowns, size, e, column })
  }
  return { pattern: { n, start, row: Int32Array.from(rows) }, size, slot }
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

function incidence(n: number, size: number, unknowns: Int32Array): (i: number) => Int32Array {
  const start = new Int32Array(n + 1)
  for (const i of unknowns) if (i >= 0) start[i + 1]++
  for (let i = 0; i < n; i++) start[i + 1] += start[i]
  const filled = start.slice()
  const elements = new Int32Array(start[n])
  unknowns.forEach((i, k) => {
    if (i >= 0) elements[filled[i]++] = Math.floor(k / size)
  })
  return (i) => elements.subarray(start[i], start[i + 1])
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
