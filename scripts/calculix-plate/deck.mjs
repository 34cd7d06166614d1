/**
 * Input decks for the modes and for the tip load. mm, N, MPa, t/mm³.
 *
 * The laminates are symmetric about the core's mid-plane, so the half above it moves like the whole when u = v = 0 on that
 * plane: all that bends, nothing that stretches. The root's face is held in all directions, or, `root: 'thickness free'`, in u
 * and v everywhere and in w on the mid-plane only. Half of the load acts on the half.
 */
const constants = ({ E1, E2, E3, nu12, nu13, nu23, G12, G13, G23 }) => [
  [E1, E2, E3, nu12, nu13, nu23, G12, G13].map((v) => v.toPrecision(12)).join(', '),
  `${G23.toPrecision(12)}, 293.`,
]

const listed = (set, items) => [`*${set}`, ...items.map((n) => `${n},`)]

function body({ nodes, elements, root, midPlane }, { materialOf, root: kind = 'held' }, title) {
  const lines = ['*HEADING', title, '*NODE, NSET=NALL']
  for (const [n, p] of nodes.entries()) lines.push(`${n + 1}, ${p.map((v) => v.toFixed(9)).join(', ')}`)
  lines.push('*ELEMENT, TYPE=C3D20R, ELSET=EALL')
  for (const { id, nodes: own } of elements)
    lines.push(`${id}, ${own.slice(0, 10).join(', ')},`, own.slice(10).join(', '))
  const members = new Map()
  for (const element of elements) {
    const material = materialOf(element)
    if (!members.has(material)) members.set(material, [])
    members.get(material).push(element.id)
  }
  let k = 0
  for (const [material, ids] of members) {
    k++
    lines.push(...listed(`ELSET, ELSET=E${k}`, ids), `*MATERIAL, NAME=M${k}`)
    lines.push('*ELASTIC, TYPE=ENGINEERING CONSTANTS', ...constants(material))
    lines.push('*DENSITY', material.density.toPrecision(12), `*SOLID SECTION, ELSET=E${k}, MATERIAL=M${k}`)
  }
  lines.push(...listed('NSET, NSET=ROOT', root), ...listed('NSET, NSET=MID', midPlane))
  const held = kind === 'held' ? root : root.filter((n) => nodes[n - 1][2] === 0)
  lines.push(...listed('NSET, NSET=DOWN', held))
  lines.push('*BOUNDARY', 'ROOT, 1, 2, 0.', 'DOWN, 3, 3, 0.', 'MID, 1, 2, 0.')
  return lines
}

export function modalDeck(mesh, model, count) {
  const step = ['*STEP', '*FREQUENCY', `${count},`, '*END STEP']
  return `${[...body(mesh, model, 'modes'), ...step].join('\n')}\n`
}

/** `load`: on the whole fin, shared over the thickness at `line`, the corner nodes above mid-tip. */
export function staticDeck(mesh, model, { load, line }) {
  const spans = line.map(({ z }, i) => (line[i + 1]?.z ?? z) - (line[i - 1]?.z ?? z))
  const height = line.at(-1).z
  const forces = line.map(({ node }, i) => `${node}, 3, ${(((load / 2) * spans[i]) / 2 / height).toPrecision(12)}`)
  const print = ['*NODE PRINT, NSET=TIP', 'U', '*NODE PRINT, NSET=ROOT', 'RF']
  const step = [
    ...listed('NSET, NSET=TIP', [line[0].node]),
    '*STEP',
    '*STATIC',
    '*CLOAD',
    ...forces,
    ...print,
    '*END STEP',
  ]
  return `${[...body(mesh, model, 'tip load'), ...step].join('\n')}\n`
}
