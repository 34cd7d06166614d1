/** Runs both fins on two meshes each and writes the fixtures; started from the repository's root by calculix-plate.mjs. */
import { spawnSync } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { modalDeck, staticDeck } from './deck.mjs'
import { demoDesign, demoFin, throughThickness } from './demo-fin.mjs'
import { finMesh } from './mesh.mjs'
import { readFrequencies, readVectors } from './read.mjs'

const folder = 'packages/core/checks/calculix-plate'
const load = 100 // N at mid-tip
const modes = 4
const ramp = 1 // mm over which a ply ends

/** Two meshes, every count doubled from one to the other but the skin's two layers, which are materials of their own. */
const meshes = [
  { size: 8, coreLayers: 1, skinLayers: 2 },
  { size: 4, coreLayers: 2, skinLayers: 2 },
]

/** Solved for their modes only: what is the coarsest that is as near the fine mesh as the plate is, and how long does it take? */
const coarser = [
  { size: 32, coreLayers: 1, skinLayers: 2 },
  { size: 16, coreLayers: 1, skinLayers: 2 },
]

/** Modes take this many seconds of processor time, one thread; the machine is whatever ran the script. */
function run(name, deck) {
  const place = mkdtempSync(join(tmpdir(), 'plate-'))
  try {
    writeFileSync(join(place, `${name}.inp`), deck)
    const script = `TIMEFORMAT='%U %S'; time ccx ${name} > log`
    const env = { ...process.env, OMP_NUM_THREADS: '1' }
    const { stderr } = spawnSync('bash', ['-c', script], { cwd: place, env, encoding: 'utf8' })
    const seconds = stderr
      .trim()
      .split(/\s+/)
      .slice(-2)
      .reduce((sum, v) => sum + Number(v), 0)
    const text = readFileSync(join(place, `${name}.dat`), 'utf8')
    if (text.trim() === '') throw new Error(readFileSync(join(place, 'log'), 'utf8').slice(-2000))
    return { text, seconds }
  } finally {
    rmSync(place, { recursive: true, force: true })
  }
}

/** Of the whole fin, from the half: the moment about the root line, and where along the root it acts. */
function rootMoment({ nodes }, forces) {
  let [moment, first] = [0, 0]
  for (const [node, [, fy, fz]] of forces) {
    const [x, y, z] = nodes[node - 1]
    const own = 2 * (y * fz - z * fy)
    moment += own
    first += x * own
  }
  return { moment: Math.abs(moment) / 1e3, centre: first / moment }
}

function modesOf({ shape, ...model }, options) {
  const mesh = finMesh(shape, options)
  const { text, seconds } = run('modal', modalDeck(mesh, model, modes))
  const size = { ...options, nodes: mesh.nodes.length, elements: mesh.elements.length }
  const frequencies = readFrequencies(text).slice(0, modes)
  return { mesh, found: { ...size, frequencies, modalSeconds: Number(seconds.toPrecision(2)) } }
}

function solve({ shape, ...model }, options) {
  const { mesh, found } = modesOf({ shape, ...model }, options)
  const tip = [shape.tipOffset + shape.tip / 2, shape.span]
  const line = mesh.nodes
    .flatMap(([x, y, z], n) => (Math.hypot(x - tip[0], y - tip[1]) < 1e-6 ? [{ node: n + 1, z }] : []))
    .sort((p, q) => p.z - q.z)
  const { text } = run('static', staticDeck(mesh, model, { load, line }))
  const { moment, centre } = rootMoment(mesh, readVectors(text, 'forces (fx,fy,fz)'))
  const deflection = readVectors(text, 'displacements (vx,vy,vz)').get(line[0].node)[2]
  const result = { ...found, deflection, rootMoment: moment, rootMomentCentre: centre }
  process.stderr.write(`${JSON.stringify(result)}\n`)
  return result
}

/** Six digits are more than the meshes are worth. */
const rounded = (value) =>
  JSON.parse(JSON.stringify(value, (_, v) => (typeof v === 'number' ? Number(v.toPrecision(6)) : v)))

function store(name, inputs, [coarse, fine]) {
  const units =
    'results Hz, mm, N m, s of processor time; load N, ramp mm; solid MPa, t/mm3; sheet, outline and design SI'
  const made = { solver, by: 'scripts/calculix-plate.mjs', units, load, ramp, ...inputs, fine, coarse }
  writeFileSync(join(folder, `${name}.json`), `${JSON.stringify(made, null, 2)}\n`)
}

// asked for its version, the solver answers and ends with status 201
const solver = spawnSync('ccx', ['-v'], { encoding: 'utf8' })
  .stdout.trim()
  .replace('This is Version', 'CalculiX CrunchiX')
mkdirSync(folder, { recursive: true })

const design = demoDesign()
const softer = Object.fromEntries(Object.entries(throughThickness).map(([name, value]) => [name, value / 2]))
const sheet = { E: 70e9, nu: 0.33, rho: 2700, t: 5e-3 }
function isotropic() {
  const { shape } = demoFin(design, { ramp })
  const G = (sheet.E * 1e-6) / (2 * (1 + sheet.nu))
  const [E, nu] = [sheet.E * 1e-6, sheet.nu]
  const metal = {
    E1: E,
    E2: E,
    E3: E,
    nu12: nu,
    nu13: nu,
    nu23: nu,
    G12: G,
    G13: G,
    G23: G,
    density: sheet.rho * 1e-12,
  }
  // the same columns and rows; what the demo calls skin is the outer part of the sheet
  const half = (sheet.t * 1e3) / 2
  const plain = { ...shape, halfThickness: () => ({ core: half / 2, skin: half / 2 }) }
  return meshes.map((options) =>
    solve({ shape: plain, materialOf: () => metal }, { ...options, skinLayers: options.coreLayers }),
  )
}

/** What was chosen by us, changed, on the coarse mesh. */
const variants = [
  { name: 'plies end over twice the width', fin: { ramp: 2 * ramp } },
  { name: 'half the stiffness and Poisson ratios through the thickness', fin: { through: softer } },
  { name: 'the root may change its thickness', root: 'thickness free' },
]
function demo() {
  const fin = demoFin(design, { ramp })
  const results = meshes.map((options) => solve(fin, options))
  const varied = variants.map(({ name, fin: changed, root }) => {
    const { frequencies, deflection } = solve({ ...demoFin(design, { ramp, ...changed }), root }, meshes[0])
    return { name, frequencies, deflection }
  })
  const rough = coarser.map((options) => modesOf(fin, options).found)
  const skins = [...fin.skins].map(([plies, { bending, layers }]) => ({ plies, bending, layers }))
  return { results, rough, solid: { core: fin.coreMaterial, skins }, varied }
}

const wanted = process.env.CASE ?? ''
if (wanted !== 'demo') store('aluminium', { outline: design.fins.outline.points, sheet }, rounded(isotropic()))
if (wanted !== 'aluminium') {
  const { results, rough, solid, varied } = demo()
  store(
    'demo-fin',
    { design, solid: rounded(solid), variants: rounded(varied), coarser: rounded(rough) },
    rounded(results),
  )
}
