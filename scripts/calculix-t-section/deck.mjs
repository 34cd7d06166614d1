/**
 * The input deck: plane strain, every layer orthotropic along its own line, two load steps (unit shear, unit moment). mm, N, MPa.
 *
 * Materials are given by 1 along the layer, 2 along the root (out of the section), 3 through the thickness. The solver's local
 * axes are (along, through, root) where the layer is straight and (through, along, root) where it is a circle.
 */
const outward = {
  core: 'straight',
  skinFin: 'straight',
  skinArc: 'fillet',
  skinBody: 'tube',
  wall: 'tube',
  bond: 'straight',
  fillet: 'straight',
}

/** Nine engineering constants for axes a, b, c, each one of 1, 2, 3 of the material. */
function constants(m, [a, b, c]) {
  const E = { 1: m.E1, 2: m.E2, 3: m.E3 }
  const G = { 12: m.G12, 13: m.G13, 23: m.G23 }
  const printed = { 12: m.nu12, 13: m.nu13, 23: m.nu23 }
  const nu = (i, j) => (i < j ? printed[`${i}${j}`] : (printed[`${j}${i}`] * E[i]) / E[j])
  const shear = (i, j) => G[i < j ? `${i}${j}` : `${j}${i}`]
  return [E[a], E[b], E[c], nu(a, b), nu(a, c), nu(b, c), shear(a, b), shear(a, c), shear(b, c)]
}

/** Plane-strain moduli of core and skin along the span, and the fin's bending stiffness per length of root. */
function finBending({ h, skin, materials }) {
  const along = (m) => m.E1 / (1 - (m.nu12 ** 2 * m.E2) / m.E1)
  const [Ec, Es] = [along(materials.core), along(materials.skin)]
  return { Ec, Es, EI: (2 / 3) * (Ec * h ** 3 + Es * ((h + skin) ** 3 - h ** 3)) }
}

/**
 * How much more the fin turns than one clamped on the root line, under a unit moment and a unit shear force: the work of the
 * unit moment's nodal forces, less the bending of the fin from the root line to the cut.
 */
export function rootFlexibility(mesh, section, [shear, moment]) {
  const work = (step) => {
    let sum = 0
    for (const [node, [fp, fq]] of endForces(mesh, section, { V: 0, M: 1 }))
      sum += fp * step.get(node)[0] + fq * step.get(node)[1]
    return sum
  }
  const L = mesh.top - section.R
  const { EI } = finBending(section)
  return { perMoment: work(moment) - L / EI, perShear: work(shear) + L ** 2 / (2 * EI) }
}

/**
 * Tractions of beam theory on the cut fin, as nodal forces of the edges' quadratic shape functions, for shear V towards −q
 * and moment M (about the root line, tension at q > 0), both per unit length of root.
 */
export function endForces({ nodes, elements, top }, { R, h, skin, materials }, { V, M }) {
  const { Ec, Es, EI } = finBending({ h, skin, materials })
  const H = h + skin
  const moment = M - V * (top - R)
  const normal = (q) => ((Math.abs(q) > h ? Es : Ec) * moment * q) / EI
  const shear = (q) => {
    const a = Math.min(Math.abs(q), h)
    const skinPart = (Es / 2) * (H ** 2 - Math.max(Math.abs(q), h) ** 2)
    return (V / EI) * (skinPart + (Ec / 2) * (h ** 2 - a ** 2))
  }
  const forces = new Map()
  const add = (node, fp, fq) => {
    const known = forces.get(node) ?? [0, 0]
    forces.set(node, [known[0] + fp, known[1] + fq])
  }
  for (const { nodes: ring, block } of elements) {
    if (block !== 'core' && block !== 'skinFin') continue
    const corners = ring.length / 2
    for (let k = 0; k < corners; k++) {
      const edge = [ring[k], ring[corners + k], ring[(k + 1) % corners]]
      if (!edge.every((n) => Math.abs(nodes[n - 1][0] - top) < 1e-9)) continue
      const [q0, , q2] = edge.map((n) => nodes[n - 1][1])
      const inside = (q0 + q2) / 2 // tells core from skin on the edge's own side of the interface
      for (const [x, w] of [
        [-Math.sqrt(0.6), 5 / 9],
        [0, 8 / 9],
        [Math.sqrt(0.6), 5 / 9],
      ]) {
        const q = q0 + ((x + 1) / 2) * (q2 - q0)
        const shape = [(x * (x - 1)) / 2, 1 - x * x, (x * (x + 1)) / 2]
        const material = Math.abs(inside) > h ? Math.max(Math.abs(q), h * (1 + 1e-12)) : Math.min(Math.abs(q), h)
        const weight = (w * Math.abs(q2 - q0)) / 2
        edge.forEach((n, a) => {
          add(n, shape[a] * weight * normal(Math.sign(q) * material), -shape[a] * weight * shear(q))
        })
      }
    }
  }
  return forces
}

export function deckText(mesh, section, { title }) {
  const { R, h, N, r, wall, inside, materials } = section
  const { nodes, elements, xc } = mesh
  const out = ['*HEADING', title, '*NODE, NSET=NALL']
  nodes.forEach(([p, q], k) => {
    out.push(`${k + 1}, ${p.toFixed(10)}, ${q.toFixed(10)}, 0.`)
  })
  for (const [kind, size] of [
    ['CPE8R', 8],
    ['CPE6', 6],
  ]) {
    const own = elements.filter((e) => e.nodes.length === size)
    if (own.length === 0) continue
    out.push(`*ELEMENT, TYPE=${kind}, ELSET=EALL`)
    for (const e of own) out.push(`${e.id}, ${e.nodes.join(', ')}`)
  }
  const c = h + r
  const axes = {
    straight: ['*ORIENTATION, NAME=STRAIGHT, SYSTEM=RECTANGULAR', '1., 0., 0., 0., 1., 0.'],
    tube: ['*ORIENTATION, NAME=TUBE, SYSTEM=CYLINDRICAL', '0., 0., 0., 0., 0., 1.'],
    filletA: ['*ORIENTATION, NAME=FILLETA, SYSTEM=CYLINDRICAL', `${xc}, ${c}, 0., ${xc}, ${c}, 1.`],
    filletB: ['*ORIENTATION, NAME=FILLETB, SYSTEM=CYLINDRICAL', `${xc}, ${-c}, 0., ${xc}, ${-c}, 1.`],
  }
  for (const lines of Object.values(axes)) out.push(...lines)
  const materialOf = {
    core: 'core',
    wall: 'wall',
    bond: 'adhesive',
    fillet: 'adhesive',
    skinFin: 'skin',
    skinArc: 'skin',
    skinBody: 'skin',
  }
  for (const name of Object.keys(materialOf))
    for (const side of [1, -1]) {
      const set = `${name.toUpperCase()}${side > 0 ? 'A' : 'B'}`
      out.push(`*ELSET, ELSET=${set}`)
      for (const e of elements) if (e.block === name && e.side === side) out.push(`${e.id},`)
      const straight = outward[name] === 'straight'
      const orientation = outward[name] === 'fillet' ? `FILLET${side > 0 ? 'A' : 'B'}` : outward[name].toUpperCase()
      const values = constants(materials[materialOf[name]], straight ? [1, 3, 2] : [3, 1, 2])
      out.push(`*MATERIAL, NAME=M${set}`, '*ELASTIC, TYPE=ENGINEERING CONSTANTS')
      out.push(`${values.slice(0, 8).join(', ')},`, `${values[8]}`)
      out.push(`*SOLID SECTION, ELSET=${set}, MATERIAL=M${set}, ORIENTATION=${orientation}`, '1.')
    }
  out.push('*BOUNDARY')
  nodes.forEach(([p, q], k) => {
    const rho = Math.hypot(p, q)
    const atEnd = Math.abs(Math.abs(Math.atan2(q, p)) - Math.PI / N) < 1e-9 && rho < R + section.skin + 1e-6
    const within = inside === 'held' && Math.abs(rho - (R - wall)) < 1e-6
    if (atEnd || within) out.push(`${k + 1}, 1, 2, 0.`)
  })
  for (const load of [
    { V: 1, M: 0 },
    { V: 0, M: 1 },
  ]) {
    out.push('*STEP', '*STATIC', '*CLOAD, OP=NEW')
    for (const [node, [fp, fq]] of endForces(mesh, section, load)) {
      if (fp !== 0) out.push(`${node}, 1, ${fp.toExponential(9)}`)
      if (fq !== 0) out.push(`${node}, 2, ${fq.toExponential(9)}`)
    }
    out.push(
      '*EL PRINT, ELSET=EALL, GLOBAL=YES',
      'S',
      '*EL PRINT, ELSET=EALL',
      'COORD',
      '*NODE PRINT, NSET=NALL',
      'U',
      '*END STEP',
    )
  }
  return `${out.join('\n')}\n`
}
