/**
 * The known word nearest to a mistyped one, by edit distance with transpositions (Damerau, Communications of the ACM 7,
 * 1964, recalled); null when none is near enough to be meant.
 */
export function nearest(word: string, known: readonly string[]): string | null {
  const lower = word.toLowerCase()
  if (lower.length > 60) return null
  let best: string | null = null
  let least = Math.max(1, Math.floor(lower.length / 3)) + 1
  for (const candidate of known) {
    const distance = editDistance(lower, candidate.toLowerCase())
    if (distance < least) {
      best = candidate
      least = distance
    }
  }
  return best
}

/** `Did you mean 'x'?`; the message has listed what there is. */
export function suggestion(word: string, known: readonly string[]): string {
  const near = nearest(word, known)
  return near === null ? 'Choose one of those.' : `Did you mean '${near}'?`
}

function editDistance(a: string, b: string): number {
  const rows = [Array.from({ length: b.length + 1 }, (_, j) => j)]
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i]
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      let distance = Math.min(rows[i - 1]![j]! + 1, row[j - 1]! + 1, rows[i - 1]![j - 1]! + same)
      const swapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      if (swapped) distance = Math.min(distance, rows[i - 2]![j - 2]! + 1)
      row.push(distance)
    }
    rows.push(row)
  }
  return rows[a.length]![b.length]!
}
