/** What the solver printed. */

/** Hz, from the table of eigenvalues: number, eigenvalue, rad/time, cycles/time, imaginary part. */
export function readFrequencies(text) {
  const table = text.split('E I G E N V A L U E   O U T P U T')[1].split('P A R T I C I P A T I O N')[0]
  return table
    .split('\n')
    .map((line) => line.trim().split(/\s+/).map(Number))
    .filter((row) => row.length === 5 && row.every(Number.isFinite))
    .map((row) => row[3])
}

/** Node to three numbers, under the first heading that starts with `what`: displacements, forces. */
export function readVectors(text, what) {
  const [, ...lines] = text.slice(text.indexOf(what)).split('\n')
  const found = new Map()
  for (const line of lines) {
    const row = line.trim().split(/\s+/).map(Number)
    if (line.trim() === '') continue
    if (row.length !== 4 || !row.every(Number.isFinite)) break
    found.set(row[0], row.slice(1))
  }
  return found
}
