/**
 * The upper half of a trapezoidal fin as bricks of 20 nodes, in mm: lines of nodes follow the bevels and the ply edges.
 *
 * Columns run from root to tip. Those along a bevel or a ply edge keep their distance to the leading or trailing edge for as
 * long as it is there; once the ply has ended at its tip line they close up towards the column that ends at mid-tip. Rows are
 * parallel to the root, one on every tip line. A ply ends in a ramp `ramp` wide, its edge in the middle, with a line of nodes
 * there too. Through the thickness: the half of the core, then the skin, each in equal layers.
 */

/** How far inward of the edges each of the lines lies that a column follows, least first: { at, until }. */
function followed({ span, bevel, steps, ramp }) {
  const lines = [{ at: 0, until: span }]
  if (bevel > 0) lines.push({ at: bevel, until: span })
  for (const step of steps)
    for (const part of [-0.5, 0, 0.5]) lines.push({ at: step + part * ramp, until: span - step + ramp / 2 })
  return lines.sort((p, q) => p.at - q.at)
}

const divided = (from, to, count) => Array.from({ length: count }, (_, i) => from + ((to - from) * i) / count)
const pieces = (length, size) => Math.max(1, Math.round(length / size))

function rowHeights({ span, steps, ramp }, size) {
  const knots = [0, ...steps.flatMap((s) => [-0.5, 0, 0.5].map((part) => span - s + part * ramp)), span]
  const sorted = knots.sort((p, q) => p - q)
  return [...sorted.slice(0, -1).flatMap((y, i) => divided(y, sorted[i + 1], pieces(sorted[i + 1] - y, size))), span]
}

/** x of every column that follows a line, at every row: leading edge to mid-tip column to trailing edge. */
function breakLines(fin, heights) {
  const { root, tip, tipOffset, span } = fin
  const lines = followed(fin)
  const lean = [tipOffset / span, (tipOffset + tip - root) / span]
  const edge = (side, y) => (side === 0 ? 0 : root) + lean[side] * y
  const inward = (side, y, at) => edge(side, y) + (side === 0 ? 1 : -1) * at * Math.hypot(1, lean[side])
  const last = lines.at(-1).at
  const middleRoot = (inward(0, 0, last) + inward(1, 0, last)) / 2
  const middle = (y) => middleRoot + ((tipOffset + tip / 2 - middleRoot) * y) / span
  const columns = heights.map(() => [])
  for (const side of [0, 1]) {
    const sides = []
    heights.forEach((y, r) => {
      const kept = lines.filter(({ until }) => y <= until + 1e-9)
      const outermost = inward(side, y, kept.at(-1).at)
      sides.push(
        lines.map(({ at, until }, j) => {
          if (y <= until + 1e-9) return inward(side, y, at)
          const before = heights[r - 1]
          const wasKept = lines.filter((line) => y <= line.until + 1e-9).at(-1)
          const from = inward(side, before, wasKept.at)
          const share = (sides[r - 1][j] - from) / (middle(before) - from)
          return outermost + share * (middle(y) - outermost)
        }),
      )
    })
    sides.forEach((xs, r) => {
      columns[r].push(...(side === 0 ? [...xs, middle(heights[r])] : xs.toReversed()))
    })
  }
  return columns
}

export function finMesh(fin, { size, coreLayers, skinLayers }) {
  const heights = rowHeights(fin, size)
  const breaks = breakLines(fin, heights)
  const counts = breaks[0].slice(1).map((x, i) => pieces(x - breaks[0][i], size))
  const lines = breaks.map((xs) => [...counts.flatMap((n, i) => divided(xs[i], xs[i + 1], n)), xs.at(-1)])
  const [nc, nr, nl] = [lines[0].length - 1, heights.length - 1, coreLayers + skinLayers]
  const heightAt = (l, { core, skin }) =>
    l <= coreLayers ? (core * l) / coreLayers : core + (skin * (l - coreLayers)) / skinLayers
  const corners = lines.map((xs, r) =>
    xs.map((x) => {
      const through = fin.halfThickness(x, heights[r])
      return Array.from({ length: nl + 1 }, (_, l) => [x, heights[r], heightAt(l, through)])
    }),
  )
  return numbered({ corners, nc, nr, nl, coreLayers })
}

/** Corner nodes and the middles of the lines between them, numbered where a brick needs them. */
function numbered({ corners, nc, nr, nl, coreLayers }) {
  const [ni, nj, nk] = [2 * nc + 1, 2 * nr + 1, 2 * nl + 1]
  const number = new Int32Array(ni * nj * nk)
  const nodes = []
  const at = (i, j, k) => number[(k * nj + j) * ni + i]
  for (let k = 0; k < nk; k++)
    for (let j = 0; j < nj; j++)
      for (let i = 0; i < ni; i++) {
        if ((i % 2) + (j % 2) + (k % 2) > 1) continue
        const p = corners[j >> 1][i >> 1][k >> 1]
        const q = corners[(j + 1) >> 1][(i + 1) >> 1][(k + 1) >> 1]
        nodes.push(p.map((v, m) => (v + q[m]) / 2))
        number[(k * nj + j) * ni + i] = nodes.length
      }
  const ring = [
    [0, 0],
    [2, 0],
    [2, 2],
    [0, 2],
  ]
  const between = [
    [1, 0],
    [2, 1],
    [1, 2],
    [0, 1],
  ]
  const elements = []
  for (let l = 0; l < nl; l++)
    for (let r = 0; r < nr; r++)
      for (let c = 0; c < nc; c++) {
        const level = (list, k) => list.map(([i, j]) => at(2 * c + i, 2 * r + j, 2 * l + k))
        const own = [
          ...level(ring, 0),
          ...level(ring, 2),
          ...level(between, 0),
          ...level(between, 2),
          ...level(ring, 1),
        ]
        const flat = [corners[r][c], corners[r][c + 1], corners[r + 1][c + 1], corners[r + 1][c]].map((p) => p[0])
        const centre = [0, 1].map((m) => flat.reduce((sum, p) => sum + p[m], 0) / 4)
        elements.push({ id: elements.length + 1, nodes: own, centre, skinLayer: l < coreLayers ? -1 : l - coreLayers })
      }
  const pick = (test) => nodes.flatMap((p, n) => (test(p) ? [n + 1] : []))
  return { nodes, elements, root: pick((p) => p[1] === 0), midPlane: pick((p) => p[2] === 0) }
}
