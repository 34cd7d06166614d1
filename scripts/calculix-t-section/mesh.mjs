/**
 * Eight-node quadrilaterals and six-node triangles of the whole T-section (both sides of the fin), mm.
 *
 * p runs outward along the fin's mid-plane from the tube's axis, q square to it. The side q > 0 is laid out in blocks of
 * rows and columns that follow the section; the other side is its mirror image. Rows and columns are listed at half steps, so
 * that the middle nodes lie on the true lines and circles.
 */

/** @typedef {{ R: number, h: number, N: number, r: number, skin: number, bond: number, wall: number, above: number }} Section */
/** @typedef {{ id: number, block: string, i: number, j: number, side: 1 | -1, nodes: number[] }} Element */

/** Points 0 … 1 at half steps of n steps, each `ratio` times the one before. */
const graded = (n, ratio = 1) => {
  const step = (k) => (ratio === 1 ? k / n : (ratio ** k - 1) / (ratio ** n - 1))
  return Array.from({ length: 2 * n + 1 }, (_, k) =>
    k % 2 === 0 ? step(k / 2) : (step((k - 1) / 2) + step((k + 1) / 2)) / 2,
  )
}
const reversed = (list) => list.map((value) => 1 - value).reverse()
/** Two lists end to end, the second without its first member. */
const joined = (...lists) => lists.flatMap((list, k) => (k === 0 ? list : list.slice(1)))

/**
 * @param {Section} s
 * @param {number} fine multiplies every number of elements
 */
export function sectionMesh(s, fine) {
  const { R, h, N, r, skin, bond, wall, above } = s
  const count = (n) => Math.max(1, Math.round(n * fine))
  const xc = Math.sqrt((R + r) ** 2 - (h + r) ** 2)
  const theta = Math.asin((h + r) / (R + r))
  const phi = Math.acos((h + r) / (R + r))
  const onCircle = (rho, q) => Math.sqrt(rho * rho - q * q)

  // stations along the section: fin above the fillet, leg on the fin, end of the bond, leg on the body, body
  const top = xc + above
  const grade = 0.94 ** (1 / fine)
  const along = {
    fin: graded(count(12), 0.93 ** (1 / fine)).map((f) => top + (xc - top) * f),
    face: graded(count(28), grade).map((f) => xc + (onCircle(R + bond, h) - xc) * f),
    end: graded(count(2) * 2).map((f) => R + bond * (1 - f)),
    foot: reversed(graded(count(28), grade)).map((f) => Math.asin(h / R) + (theta - Math.asin(h / R)) * f),
    body: graded(count(24)).map((f) => theta + (Math.PI / N - theta) * f),
  }
  const leg = joined(
    along.face.map((p) => [p, h]),
    along.end.map((rho) => [onCircle(rho, h), h]),
    along.foot.map((a) => [R * Math.cos(a), R * Math.sin(a)]),
  )
  const share = 0.06 // of the arc that faces the end of the bond
  const legShare = graded(count(28), 0.97 ** (1 / fine)).map((f) => (f * (1 - share)) / 2)
  const arcShare = joined(
    legShare,
    graded(count(2) * 2).map((f) => (1 - share) / 2 + share * f),
    reversed(legShare),
  )
  const arcAngle = arcShare.map((f) => f * phi)
  const onArc = (radius, psi) => [xc - radius * Math.sin(psi), h + r - radius * Math.cos(psi)]
  const arc = arcAngle.map((psi) => onArc(r, psi))

  const acrossCore = reversed(graded(count(10), 1.2 ** (1 / fine))).map((f) => f * h)
  const acrossFillet = graded(count(10), 1.15 ** (1 / fine))
  const acrossSkin = graded(2 * count(3)).map((f) => f * skin)
  const acrossBond = along.end.toReversed()
  const acrossWall = reversed(graded(count(6), 1.15 ** (1 / fine))).map((f) => R - wall * (1 - f))

  const mesh = { nodes: [], elements: [], find: new Map() }
  const blocks = []
  const block = (name, columns, rows, at) => blocks.push({ name, columns, rows, at })
  const blend = (a, b, f) => [a[0] + (b[0] - a[0]) * f, a[1] + (b[1] - a[1]) * f]

  const coreEnd = onCircle(R + bond, h)
  const heights = joined(along.fin, along.face)
  block('core', heights.length, acrossCore.length, (i, j) => {
    const q = acrossCore[j]
    const down = (xc + above - heights[i]) / (xc + above - coreEnd)
    return [heights[i] + (onCircle(R + bond, q) - coreEnd) * down, q]
  })
  block('bond', acrossCore.length, acrossBond.length, (i, j) => [onCircle(acrossBond[j], acrossCore[i]), acrossCore[i]])
  block('fillet', leg.length, acrossFillet.length, (i, j) => blend(leg[i], arc[i], acrossFillet[j]))
  const angles = joined(
    acrossCore.map((q) => Math.asin(q / R)),
    along.foot,
    along.body,
  )
  block('wall', angles.length, acrossWall.length, (i, j) => [
    acrossWall[j] * Math.cos(angles[i]),
    acrossWall[j] * Math.sin(angles[i]),
  ])
  block('skinFin', along.fin.length, acrossSkin.length, (i, j) => [along.fin[i], h + acrossSkin[j]])
  block('skinArc', arcAngle.length, acrossSkin.length, (i, j) => onArc(r - acrossSkin[j], arcAngle[i]))
  block('skinBody', along.body.length, acrossSkin.length, (i, j) => [
    (R + acrossSkin[j]) * Math.cos(along.body[i]),
    (R + acrossSkin[j]) * Math.sin(along.body[i]),
  ])
  for (const side of [1, -1]) for (const each of blocks) meshBlock(mesh, each, side)
  const rows = Object.fromEntries(blocks.map(({ name, rows: points }) => [name, (points - 1) / 2]))
  return { ...mesh, xc, theta, phi, top, middle: (leg.length - 1) / 4, rows }
}

function meshBlock(mesh, { name, columns, rows, at }, side) {
  const node = (i, j) => nodeAt(mesh, at(i, j), side)
  for (let i = 0; i + 2 < columns; i += 2)
    for (let j = 0; j + 2 < rows; j += 2) {
      const ring = [
        [0, 0],
        [2, 0],
        [2, 2],
        [0, 2],
        [1, 0],
        [2, 1],
        [1, 2],
        [0, 1],
      ].map(([a, b]) => node(i + a, j + b))
      mesh.elements.push({
        id: mesh.elements.length + 1,
        block: name,
        i: i / 2,
        j: j / 2,
        side,
        nodes: wound(mesh, collapsed(ring)),
      })
    }
}

/** A quadrilateral whose one side has shrunk to a point becomes a triangle. */
function collapsed(ring) {
  const [a, b, c, d, ab, bc, cd, da] = ring
  if (a === d) return [a, b, c, ab, bc, cd]
  if (b === c) return [a, b, d, ab, cd, da]
  return ring
}

/** Counter-clockwise, as the solver wants it. */
function wound({ nodes }, ring) {
  const corners = ring.length / 2
  let area = 0
  for (let k = 0; k < corners; k++) {
    const [a, b] = [nodes[ring[k] - 1], nodes[ring[(k + 1) % corners] - 1]]
    area += a[0] * b[1] - a[1] * b[0]
  }
  if (area > 0) return ring
  const outer = ring.slice(0, corners).reverse()
  const middle = ring.slice(corners, 2 * corners - 1).reverse()
  return [...outer, ...middle, ring[2 * corners - 1]]
}

function nodeAt({ nodes, find }, [p, q], side) {
  const x = [p, q * side]
  const [a, b] = x.map((value) => Math.round(value * 1e6))
  for (let da = -1; da <= 1; da++)
    for (let db = -1; db <= 1; db++) {
      const known = find.get(`${a + da},${b + db}`)
      if (known !== undefined) return known
    }
  nodes.push(x)
  find.set(`${a},${b}`, nodes.length)
  return nodes.length
}
