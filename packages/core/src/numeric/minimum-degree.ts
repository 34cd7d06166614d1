/**
 * An order of elimination that keeps the factors of a mesh's matrix sparse: always the node with the fewest neighbours left.
 *
 * Eliminated nodes live on as cliques ("elements") that hold the nodes they join. When node p goes, its own neighbours and
 * those of its cliques become one clique L_p; the degree of each node i in it is bounded by
 *
 *   dᵢ ≤ |Aᵢ| + |L_p \ i| + Σ |L_e \ L_p|      e: the other cliques of i
 *
 * Source: Amestoy, Davis & Duff, An approximate minimum degree ordering algorithm, SIAM J. Matrix Anal. Appl. 17 (1996)
 * 886–905, without its search for indistinguishable nodes (recalled). Ties: the node whose degree changed last.
 */

/** Nodes of each element of a mesh, `perElement` each, numbered 0 … n − 1. */
export interface NodeGraph {
  readonly n: number
  readonly elements: Int32Array
  readonly perElement: number
}

/** Node numbers in the order in which to eliminate them. */
export function minimumDegree(graph: NodeGraph): Int32Array {
  const { n } = graph
  const neighbours: number[][] = nodeNeighbours(graph)
  const cliquesOf: number[][] = Array.from({ length: n }, () => [])
  const members: number[][] = Array.from({ length: n }, () => [])
  const gone = new Uint8Array(n)
  const queue = degreeQueue(neighbours.map((list) => list.length))
  const inClique = new Int32Array(n).fill(-1)
  const outside = new Int32Array(n)
  const seen = new Int32Array(n).fill(-1)
  const order = new Int32Array(n)
  for (let k = 0; k < n; k++) {
    const p = queue.take()
    order[k] = p
    gone[p] = 1
    inClique[p] = k
    const clique: number[] = []
    const join = (i: number): void => {
      if (gone[i] === 1 || inClique[i] === k) return
      inClique[i] = k
      clique.push(i)
    }
    neighbours[p].forEach(join)
    for (const e of cliquesOf[p]) {
      members[e].forEach(join)
      members[e] = [] // absorbed
    }
    members[p] = clique
    for (const i of clique) {
      for (const e of cliquesOf[i]) {
        if (seen[e] !== k) [seen[e], outside[e]] = [k, members[e].length]
        outside[e]--
      }
    }
    for (const i of clique) {
      neighbours[i] = neighbours[i].filter((j) => inClique[j] !== k)
      const others = cliquesOf[i].filter((e) => outside[e] > 0 && members[e].length > 0)
      cliquesOf[i] = [...others, p]
      const bound = others.reduce((sum, e) => sum + outside[e], neighbours[i].length + clique.length - 1)
      queue.set(i, Math.min(bound, n - k - 2))
    }
  }
  return order
}

/** Nodes by degree; `take` removes the one of least degree that was set last. */
function degreeQueue(degrees: number[]) {
  const buckets: number[][] = []
  const taken = new Uint8Array(degrees.length)
  let least = 0
  const set = (i: number, degree: number): void => {
    degrees[i] = degree
    while (buckets.length <= degree) buckets.push([])
    buckets[degree].push(i)
    least = Math.min(least, degree)
  }
  degrees.forEach((degree, i) => {
    set(i, degree)
  })
  const take = (): number => {
    while (true) {
      const i = buckets[least].pop()
      if (i === undefined) least++
      else if (taken[i] === 0 && degrees[i] === least) {
        taken[i] = 1
        return i
      }
    }
  }
  return { set, take }
}

function nodeNeighbours({ n, elements, perElement }: NodeGraph): number[][] {
  const found: Set<number>[] = Array.from({ length: n }, () => new Set())
  for (let e = 0; e < elements.length; e += perElement) {
    for (let i = e; i < e + perElement; i++)
      for (let j = e; j < e + perElement; j++) found[elements[i]].add(elements[j])
  }
  return found.map((set, i) => [...set].filter((j) => j !== i))
}
