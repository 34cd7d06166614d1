/**
 * Stresses at integration points from the solver's print file, carried bilinearly to the edges of elements, and tractions
 * summed over the edges that two sets of elements share. Tension positive; p, q as in the mesh.
 */
const gauss = 1 / Math.sqrt(3)
/** In the plane, in the solver's order for eight-node quadrilaterals with reduced integration. */
const points = [
  [-gauss, -gauss],
  [gauss, -gauss],
  [-gauss, gauss],
  [gauss, gauss],
]
const corners = [
  [-1, -1],
  [1, -1],
  [1, 1],
  [-1, 1],
]

/** One map a load step: element → stresses [σpp, σqq, τpq] of its four integration points in the plane. */
export function readStresses(text, mesh) {
  const byId = new Map(mesh.elements.map((e) => [e.id, e]))
  const steps = []
  let [kind, stress, place] = ['', null, null]
  for (const line of text.split('\n')) {
    if (line.includes('stresses (elem')) {
      kind = 'stress'
      stress = new Map()
      place = new Map()
      steps.push({ stress, place })
    } else if (line.includes('coordinates (elem')) kind = 'place'
    else if (line.includes('displacements')) kind = ''
    else if (kind !== '' && line.trim() !== '') {
      const v = line.trim().split(/\s+/).map(Number)
      const into = kind === 'stress' ? stress : place
      if (!into.has(v[0])) into.set(v[0], [])
      into.get(v[0])[v[1] - 1] = kind === 'stress' ? [v[2], v[3], v[5]] : [v[2], v[3]]
    }
  }
  for (const { stress: all, place: places } of steps)
    for (const [id, list] of all) {
      const element = byId.get(id)
      if (element.nodes.length !== 8) continue
      // two layers through the unit thickness carry the same plane strain
      all.set(
        id,
        points.map((_, k) => list[k].map((value, c) => (value + list[k + 4][c]) / 2)),
      )
      points.forEach((xi, k) => {
        const x = position(mesh, element, xi)
        const off = Math.hypot(x[0] - places.get(id)[k][0], x[1] - places.get(id)[k][1])
        if (!(off < 1e-4))
          throw new Error(`integration point ${k + 1} of element ${id} lies ${off} mm from where it is expected`)
      })
    }
  return steps.map(({ stress: all }) => all)
}

/** One map a load step: node → displacement along p and q. */
export function readDisplacements(text) {
  const steps = []
  let reading = false
  for (const line of text.split('\n')) {
    if (line.includes('displacements (')) {
      steps.push(new Map())
      reading = true
    } else if (line.includes('(')) reading = false
    else if (reading && line.trim() !== '') {
      const v = line.trim().split(/\s+/).map(Number)
      steps[steps.length - 1].set(v[0], [v[1], v[2]])
    }
  }
  return steps
}

function position({ nodes }, { nodes: ring }, [x, y]) {
  const sum = [0, 0]
  ring.forEach((node, k) => {
    const N = shape(k, x, y)
    sum[0] += N * nodes[node - 1][0]
    sum[1] += N * nodes[node - 1][1]
  })
  return sum
}

function shape(k, x, y) {
  if (k < 4) {
    const [a, b] = corners[k]
    return ((1 + a * x) * (1 + b * y) * (a * x + b * y - 1)) / 4
  }
  return k % 2 === 0
    ? ((1 - x * x) * (1 + (k === 4 ? -1 : 1) * y)) / 2
    : ((1 - y * y) * (1 + (k === 5 ? 1 : -1) * x)) / 2
}

const bilinear = (values, [x, y]) =>
  [0, 1, 2].map((c) => {
    const at = (k) => ((1 + (points[k][0] / gauss ** 2) * x) * (1 + (points[k][1] / gauss ** 2) * y)) / 4
    return values.reduce((sum, value, k) => sum + at(k) * value[c], 0)
  })

const sidesOf = (element) => {
  const n = element.nodes.length / 2
  return Array.from({ length: n }, (_, k) => ({
    element,
    k,
    nodes: [element.nodes[k], element.nodes[n + k], element.nodes[(k + 1) % n]],
  }))
}

/**
 * Traction on `first` along each edge it shares with `second`: the mean of what the two sides' stresses give.
 * [{ x: [p, q], traction: [p, q], length }] at the two Gauss points of each edge, `normal` outward from `first`.
 */
export function cutTractions(mesh, stress, first, second) {
  const known = new Map()
  for (const e of mesh.elements.filter(second)) for (const side of sidesOf(e)) known.set(side.nodes[1], side)
  const found = []
  for (const e of mesh.elements.filter(first))
    for (const side of sidesOf(e)) {
      const other = known.get(side.nodes[1])
      if (other === undefined) continue
      for (const s of [-gauss, gauss]) {
        const { x, tangent } = onEdge(mesh, side, s)
        const length = Math.hypot(...tangent)
        const normal = [tangent[1] / length, -tangent[0] / length] // counter-clockwise ring
        const own = edgeStress(stress, side, s)
        const across = edgeStress(stress, other, -s)
        const both = [own, across].filter((value) => value !== null)
        const mean = [0, 1, 2].map((c) => both.reduce((sum, value) => sum + value[c], 0) / both.length)
        const traction = [mean[0] * normal[0] + mean[2] * normal[1], mean[2] * normal[0] + mean[1] * normal[1]]
        found.push({ x, traction, length, normal })
      }
    }
  return found
}

function onEdge({ nodes }, { nodes: three }, s) {
  const [a, m, b] = three.map((node) => nodes[node - 1])
  const N = [(s * (s - 1)) / 2, 1 - s * s, (s * (s + 1)) / 2]
  const dN = [s - 0.5, -2 * s, s + 0.5]
  const sum = (w) => [0, 1].map((c) => w[0] * a[c] + w[1] * m[c] + w[2] * b[c])
  return { x: sum(N), tangent: sum(dN) }
}

function edgeStress(stress, { element, k }, s) {
  if (element.nodes.length !== 8) return null // triangles end in a feather edge; the neighbour's stress stands alone
  const xi = [
    [s, -1],
    [1, s],
    [-s, 1],
    [-1, -s],
  ][k]
  return bilinear(stress.get(element.id), xi)
}

/** Force, and moment about `centre` (positive from p towards q), of tractions on a cut. */
export function resultant(tractions, [p0, q0]) {
  let [p, q, moment, length] = [0, 0, 0, 0]
  for (const { x, traction, length: w } of tractions) {
    p += w * traction[0]
    q += w * traction[1]
    moment += w * ((x[0] - p0) * traction[1] - (x[1] - q0) * traction[0])
    length += w
  }
  return { p, q, moment, length }
}
