/**
 * The T-section of a fin root in plane strain by an independent finite-element solver, CalculiX (Debian: calculix-ccx), stored
 * for packages/core/checks/t-section-calculix. Not needed to run the tests.
 *
 *   node scripts/calculix-t-section.mjs
 *
 * Three fillet radii with the tube's inside free and one with it held; both sides of the fin, sixty times as many elements as
 * the method under test has, its own mesh, elements, solver and extraction. The same on half as many elements each way stands
 * beside every result, so that the reader sees how far it has converged. Materials and loads are invented.
 */
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { deckText, rootFlexibility } from './calculix-t-section/deck.mjs'
import { measuresOf } from './calculix-t-section/measures.mjs'
import { sectionMesh } from './calculix-t-section/mesh.mjs'
import { readDisplacements, readStresses } from './calculix-t-section/read.mjs'

const isotropic = (E, G) => {
  const nu = E / (2 * G) - 1
  return { E1: E, E2: E, E3: E, nu12: nu, nu13: nu, nu23: nu, G12: G, G13: G, G23: G }
}
/** MPa; 1 along the layer, 2 along the root, 3 through the thickness. */
const materials = {
  core: { E1: 15200, E2: 18600, E3: 9000, nu12: 0.114, nu13: 0.3, nu23: 0.3, G12: 4000, G13: 2400, G23: 2400 },
  skin: { E1: 14000, E2: 14000, E3: 6500, nu12: 0.2, nu13: 0.35, nu23: 0.35, G12: 3500, G13: 2000, G23: 2000 },
  wall: { E1: 16000, E2: 12000, E3: 8000, nu12: 0.2, nu13: 0.3, nu23: 0.3, G12: 4000, G13: 2500, G23: 2500 },
  adhesive: isotropic(1600, 600),
}
/** mm */
const common = { R: 51, h: 1.6, N: 4, skin: 1.33, bond: 0.3, wall: 2, above: 12, materials }
const sections = [
  { r: 8, inside: 'free' },
  { r: 15, inside: 'free' },
  { r: 25, inside: 'free' },
  { r: 15, inside: 'held' },
]
/** N/mm and N·mm/mm */
const loads = [
  { name: 'shear', V: 1, M: 0 },
  { name: 'moment', V: 0, M: 50 },
  { name: 'both', V: 1.2, M: 60 },
]
const window = 1
const fine = 2

function solve(section, refinement) {
  const folder = mkdtempSync(join(tmpdir(), 't-section-'))
  try {
    const mesh = sectionMesh(section, refinement)
    writeFileSync(join(folder, 't.inp'), deckText(mesh, section, { title: `T-section, fillet ${section.r} mm` }))
    execFileSync('ccx', ['t'], { cwd: folder, stdio: 'pipe' })
    const printed = readFileSync(join(folder, 't.dat'), 'utf8')
    const measures = measuresOf(mesh, section, readStresses(printed, mesh), window)
    return {
      flexibility: rootFlexibility(mesh, section, readDisplacements(printed)),
      nodes: mesh.nodes.length,
      elements: mesh.elements.length,
      measures: loads.map((load) => measures(load)),
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

/** Six digits are more than the mesh is worth. */
const rounded = (value) =>
  typeof value === 'number' ? Number(value.toPrecision(6)) : Array.isArray(value) ? value.map(rounded) : mapped(value)
const mapped = (object) => Object.fromEntries(Object.entries(object).map(([key, value]) => [key, rounded(value)]))

// asked for its version, the solver answers and ends with status 201
const version = spawnSync('ccx', ['-v'], { encoding: 'utf8' })
  .stdout.trim()
  .replace('This is Version', 'CalculiX CrunchiX')
const results = sections.map(({ r, inside }) => {
  const section = { ...common, r, inside }
  const [coarse, reference] = [solve(section, fine / 2), solve(section, fine)]
  process.stderr.write(`fillet ${r} mm, inside ${inside}: ${reference.nodes} nodes\n`)
  return {
    r,
    inside,
    nodes: reference.nodes,
    elements: reference.elements,
    flexibility: rounded(reference.flexibility),
    measures: rounded(reference.measures),
    halfAsFine: rounded(coarse.measures),
  }
})
const target = join(
  dirname(fileURLToPath(import.meta.url)),
  '../packages/core/checks/t-section-calculix/t-section.json',
)
const units = 'mm, MPa, N/mm, N mm/mm'
const made = { solver: version, by: 'scripts/calculix-t-section.mjs', units, section: common, window, loads, results }
mkdirSync(dirname(target), { recursive: true })
writeFileSync(target, `${JSON.stringify(made, null, 2)}\n`)
process.stdout.write(`${target}\n`)
