/**
 * Loads along the root, per length, from the reactions of a plate held there.
 *
 *   V = −Σ force / L      M = −Σ momentX / L      over one side of the plate's mesh, length L
 *
 * The root lies along x with the fin at y > 0 (fin axes). A side of quadratic elements has a node at each end and one in the
 * middle; a corner's reaction is shared by the two sides it joins in proportion to their lengths. That is exact for a load that
 * does not vary along the root and keeps every total. At the ends of a clamped root the plate's reactions are singular, and a
 * finer mesh reads a higher load on a shorter side.
 */
export interface RootReactions {
  /** Coordinates of the plate's nodes, 2 per node. */
  readonly X: ArrayLike<number>
  /** The sides of the mesh that lie on the root: end, middle, end. */
  readonly sides: readonly { readonly nodes: readonly [number, number, number] }[]
  /** What the support does to the plate: N, and N·m about x. */
  readonly nodal: readonly { readonly node: number; readonly force: number; readonly momentX: number }[]
}

/** Stations in the middle of each side, by rising x. V positive towards +z, M positive for such a load outboard of the root. */
export function rootLine({ X, sides, nodal }: RootReactions): { x: number[]; V: number[]; M: number[] } {
  const at = new Map(nodal.map((reaction) => [reaction.node, reaction]))
  const length = (side: RootReactions['sides'][number]): number => Math.abs(X[2 * side.nodes[2]] - X[2 * side.nodes[0]])
  const reach = new Map<number, number>()
  for (const side of sides)
    for (const node of [side.nodes[0], side.nodes[2]]) reach.set(node, (reach.get(node) ?? 0) + length(side))
  const stations = sides.map((side) => {
    const L = length(side)
    const [a, middle, b] = side.nodes
    const parts = [
      [a, L / (reach.get(a) as number)],
      [middle, 1],
      [b, L / (reach.get(b) as number)],
    ] as const
    const sum = (of: 'force' | 'momentX'): number =>
      parts.reduce((total, [node, share]) => total + share * (at.get(node)?.[of] ?? 0), 0)
    return { x: (X[2 * a] + X[2 * b]) / 2, V: -sum('force') / L, M: -sum('momentX') / L }
  })
  stations.sort((p, q) => p.x - q.x)
  return { x: stations.map(({ x }) => x), V: stations.map(({ V }) => V), M: stations.map(({ M }) => M) }
}
