/**
 * The demo fin as the solid model takes it: our laminates, read at a point, with the plies of a face gathered in two element
 * layers of equal height T/2. Their plane-stress stiffnesses Q₁ (inner) and Q₂ keep the plies' zeroth and first moment,
 *
 *   M₀ = ∫ Q̄ ds / T      M₁ = ∫ Q̄ s ds / T²      Q₁ = 3 M₀ − 4 M₁      Q₂ = 4 M₁ − M₀      s from the core outward
 *
 * so that A is exact whatever the core's thickness and D but for the skin's own second moment; what that costs is returned.
 * Through the thickness each layer has the mean of its plies' shear compliance.
 */
import { readFileSync } from 'node:fs'
import { finPlate } from '@finwright/core/assess/fin-plate.ts'
import { curedPlies } from '@finwright/core/assess/skins.ts'
import { inPlaneModuli, rotatedShearCompliance, rotatedStiffness } from '@finwright/core/laminate/lamina.ts'
import { readPlan } from '@finwright/plan/read-plan.ts'

/** What plate theory does not know and a solid must: MPa. Invented, of the size of a glass laminate's. */
export const throughThickness = { E3: 10000, nu13: 0.3, nu23: 0.3 }

export function demoDesign() {
  const plan = readPlan({
    text: readFileSync('examples/demo.fincan.json', 'utf8'),
    readAttachment: (name) => ({ ok: true, text: readFileSync(`examples/${name}`, 'utf8') }),
  })
  if (!plan.ok) throw new Error(`the demo plan has issues: ${JSON.stringify(plan.issues)}`)
  const { fins, plies, layup, resin } = plan.value.design
  return { fins, plies, layup, resin }
}

export function demoFin(design, { ramp, through = throughThickness }) {
  const plies = curedPlies(design)
  const { at } = finPlate(design, plies)
  const { points } = design.fins.outline
  const [, [lead, span], [trail], [root]] = points.map((p) => p.map((v) => v * 1e3))
  const { leading, trailing, tip } = design.fins.edges
  const sameBothSides = leading.kind === 'bevel' && leading.width === trailing.width && leading.land === trailing.land
  if (!sameBothSides || tip.kind !== 'square') throw new Error('the mesh is for equal bevels and a square tip')
  const [bevel, land, core] = [leading.width, leading.land, design.fins.core.thickness].map((v) => v * 1e3)
  const edge = plies.map(({ design: { stepBack }, cured }) => ({ step: stepBack.leading * 1e3, t: cured.t * 1e3 }))
  for (const {
    design: { stepBack: s },
  } of plies)
    if (s.tip !== s.leading || s.trailing !== s.leading) throw new Error('the mesh is for equal steps on all edges')
  const lean = [lead / span, (trail - root) / span]
  const inward = (x, y) =>
    Math.min((x - lean[0] * y) / Math.hypot(1, lean[0]), (root + lean[1] * y - x) / Math.hypot(1, lean[1]))
  const halfThickness = (x, y) => {
    const side = Math.max(0, inward(x, y))
    const depth = Math.min(side, span - y)
    const present = (step) => (step === 0 ? 1 : Math.min(1, Math.max(0, (depth - step) / ramp + 0.5)))
    return {
      core: (land + (core - land) * Math.min(1, side / bevel)) / 2,
      skin: edge.reduce((sum, { step, t }) => sum + t * present(step), 0),
    }
  }
  const steps = [...new Set(edge.map(({ step }) => step))].filter((step) => step > 0)
  const shape = { root, tip: trail - lead, tipOffset: lead, span, bevel, steps, ramp, halfThickness }
  const skins = new Map()
  const skinAt = (x, y) => {
    const found = at(x * 1e-3, y * 1e-3)
    const key = found.plies.map(({ design: { id } }) => id).join(' ')
    if (!skins.has(key)) skins.set(key, gathered(found.laminate, through))
    return skins.get(key)
  }
  const [coreLayer] = at(root * 0.6e-3, 1e-3).laminate.layers.filter(({ name }) => name === 'core')
  const coreMaterial = {
    ...material(rotatedStiffness(coreLayer.lamina, coreLayer.theta), [coreLayer], 0, coreLayer.t),
    ...through,
  }
  const materialOf = ({ centre: [x, y], skinLayer }) => (skinLayer < 0 ? coreMaterial : skinAt(x, y).layers[skinLayer])
  return { shape, materialOf, coreMaterial, skins }
}

/** The previous face's plies, core outward, in two layers; bending: D11, D22, D66 with those over the laminate's own, less 1. */
function gathered({ layers, D }, through) {
  const coreAt = layers.findIndex(({ name }) => name === 'core')
  const core = layers[coreAt]
  const face = layers.slice(coreAt + 1)
  const T = face.reduce((sum, { t }) => sum + t, 0)
  const [M0, M1] = [new Float64Array(9), new Float64Array(9)]
  let s = 0
  for (const { lamina, theta, t } of face) {
    rotatedStiffness(lamina, theta).forEach((q, k) => {
      M0[k] += (q * t) / T
      M1[k] += (q * t * (s + t / 2)) / T ** 2
    })
    s += t
  }
  const Qs = [M0.map((m, k) => 3 * m - 4 * M1[k]), M0.map((m, k) => 4 * M1[k] - m)]
  const Q = rotatedStiffness(core.lamina, core.theta)
  const z = (i) => core.t / 2 + (T * i) / 2
  const bending = [0, 4, 8].map((k) => {
    const skins = Qs.reduce((sum, own, i) => sum + (2 * own[k] * (z(i + 1) ** 3 - z(i) ** 3)) / 3, 0)
    return ((Q[k] * core.t ** 3) / 12 + skins) / D[k] - 1
  })
  return {
    bending,
    layers: Qs.map((own, i) => ({ ...material(own, face, (T * i) / 2, (T * (i + 1)) / 2), ...through })),
  }
}

/** Plane-stress stiffness as given; the rest means over the heights z0 to z1 above the first layer's underside. MPa, t/mm³. */
function material(Q, layers, z0, z1) {
  if (Math.abs(Q[2]) + Math.abs(Q[5]) > 1e-9 * Q[0]) throw new Error('axes of the layer must lie along x and y')
  if (!(Q[0] > 0 && Q[8] > 0 && Q[0] * Q[4] > Q[1] ** 2)) throw new Error('the gathered plies make no material')
  let [xz, yz, density, below] = [0, 0, 0, 0]
  for (const { lamina, theta, t, density: rho } of layers) {
    const share = Math.max(0, Math.min(z1, below + t) - Math.max(z0, below)) / (z1 - z0)
    const shear = rotatedShearCompliance(lamina, theta)
    xz += share * shear.xz
    yz += share * shear.yz
    density += share * rho
    below += t
  }
  const { E1, E2, G12, nu12 } = inPlaneModuli(Q)
  const inPlane = { E1: E1 * 1e-6, E2: E2 * 1e-6, G12: G12 * 1e-6, nu12 }
  return { ...inPlane, G13: 1e-6 / xz, G23: 1e-6 / yz, density: density * 1e-12 }
}
