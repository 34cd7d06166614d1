/**
 * Static solution of a plate under normal loads, K x = F, with what its supports carry.
 *
 * The reaction of a held component is what the elements around it do to it less the load on it, that of a spring its force. Moments are vectors in plate
 * axes, right-handed: a node's moment about x is minus the force conjugate to φy, about y the one conjugate to φx.
 */
import { type Ldl, solveLdl } from '../numeric/ldl.ts'
import { multiply, packed } from '../numeric/sparse.ts'
import { elementMap, type PlateModel, sectionsOf, turnFrames } from './assemble.ts'
import { type SpringForce, springForces } from './elastic-edge.ts'
import { plateFactors } from './factors.ts'
import type { PlateLayout } from './layout.ts'
import { nodalForces, type PlateLoads } from './loads.ts'
import { type NodalField, nodalField } from './nodal-field.ts'
import { bears, heldBy } from './supports.ts'
import { elementScratch, elementStiffness, nodesPerElement } from './triangle-mitc7.ts'

/** What a support does to the plate at one node: N and N·m. */
export interface NodalReaction {
  readonly node: number
  readonly force: number
  readonly momentX: number
  readonly momentY: number
}

/** What the support of one segment of the outline does to the plate. */
export interface SegmentReaction {
  readonly segment: number
  /** Along +z, N. For a clamped root: the root shear. */
  readonly force: number
  /** About the segment's own line, right-handed in its direction (counter-clockwise round the plate), N·m: root moment. */
  readonly momentAlong: number
  /** About the in-plane line through the segment's middle that points into the plate, N·m: root torque. */
  readonly momentAcross: number
}

export type PlateStatic =
  | {
      readonly kind: 'solved'
      readonly field: NodalField
      readonly nodal: readonly NodalReaction[]
      /** One a supported segment; a corner between two supported segments counts with the first. */
      readonly segments: readonly SegmentReaction[]
      /** ‖F − K x‖ / ‖F‖ */
      readonly residual: number
    }
  /** Nothing resists some motion: the plate can move as a rigid body, or a part of it has no stiffness. */
  | { readonly kind: 'not-held' }

/** Solves for several loads with the same factors. */
export function plateSolver(model: PlateModel): (loads: PlateLoads) => PlateStatic {
  if (!model.layout.heldInSpace) return () => ({ kind: 'not-held' })
  const factors = plateFactors(model)
  if (factors.singularAt >= 0) return () => ({ kind: 'not-held' })
  return (loads) => solve(model, factors, nodalForces(model.layout, loads))
}

export const plateStatic = (model: PlateModel, loads: PlateLoads): PlateStatic => plateSolver(model)(loads)

function solve(model: PlateModel, factors: Ldl, F: Float64Array): PlateStatic {
  const { layout, K } = model
  const { n, perNode, unknown } = layout
  const b = new Float64Array(n)
  F.forEach((force, node) => {
    const i = unknown[node * perNode]
    if (i >= 0) b[i] += force
  })
  const x = solveLdl(factors, b)
  const rest = multiply(K, x).map((v, i) => b[i] - v)
  const [difference, size] = [length(rest), length(b)]
  const field = nodalField(layout, x)
  const nodal = withSprings(nodalReactions(model, x, F), layout, field)
  return {
    kind: 'solved',
    field,
    nodal,
    segments: segmentReactions(layout, nodal),
    residual: size === 0 ? 0 : difference / size,
  }
}

const length = (v: Float64Array): number => Math.sqrt(v.reduce((sum, x) => sum + x * x, 0))

/** Elements' forces on held components, in the nodes' frames: K_e x_e − F. */
function nodalReactions(model: PlateModel, x: Float64Array, F: Float64Array): NodalReaction[] {
  const { layout } = model
  const { nodes, perNode, unknown, coupled } = layout
  const isHeld = (node: number): boolean => {
    for (let k = 0; k < 3; k++) if (unknown[node * perNode + k] < 0) return true
    return false
  }
  const forces = new Map<number, Float64Array>()
  const scratch = elementScratch(coupled)
  const size = nodesPerElement * perNode
  for (let e = 0; e < nodes.T.length / nodesPerElement; e++) {
    const own = nodes.T.subarray(e * nodesPerElement, (e + 1) * nodesPerElement)
    if (!own.some(isHeld)) continue
    elementStiffness(scratch, elementMap(layout.mesh, e), sectionsOf(model, e))
    turnFrames(scratch.K, layout, e)
    const values = Float64Array.from({ length: size }, (_, j) => {
      const i = unknown[own[Math.floor(j / perNode)] * perNode + (j % perNode)]
      return i < 0 ? 0 : x[i]
    })
    own.forEach((node, i) => {
      if (!isHeld(node)) return
      if (!forces.has(node)) forces.set(node, new Float64Array(3))
      const sum = forces.get(node) as Float64Array
      for (let k = 0; k < 3; k++) sum[k] += rowTimes(scratch.K, size, i * perNode + k, values)
    })
  }
  return [...forces].map(([node, force]) => inPlateAxes(layout, node, force, F[node])).sort((p, q) => p.node - q.node)
}

function rowTimes(K: Float64Array, size: number, row: number, x: Float64Array): number {
  let sum = 0
  for (let j = 0; j < size; j++) sum += K[row <= j ? packed(j) + row : packed(row) + j] * x[j]
  return sum
}

function inPlateAxes({ perNode, unknown, frame }: PlateLayout, node: number, force: Float64Array, load: number) {
  const held = (k: number): number => (unknown[node * perNode + k] < 0 ? 1 : 0)
  const [along, across] = [held(1) * force[1], held(2) * force[2]]
  const [c, s] = [Math.cos(frame[2 * node]), Math.sin(frame[2 * node])]
  return {
    node,
    force: held(0) * (force[0] - load),
    momentX: -(s * along + c * across),
    momentY: c * along - s * across,
  }
}

/** A component held rigidly has the springs' force in its reaction already: elements and load alone balance it. */
function withSprings(
  rigid: readonly NodalReaction[],
  layout: PlateLayout,
  field: NodalField,
): readonly NodalReaction[] {
  if (layout.springs.length === 0) return rigid
  const sum = new Map<number, NodalReaction>(rigid.map((reaction) => [reaction.node, reaction]))
  for (const { node, force, phiX, phiY } of springForces(layout.springs, field)) {
    const own = sum.get(node) ?? { node, force: 0, momentX: 0, momentY: 0 }
    const free = freePart(layout, node, [force, phiX, phiY])
    sum.set(node, {
      node,
      force: own.force + free[0],
      momentX: own.momentX - free[2],
      momentY: own.momentY + free[1],
    })
  }
  return [...sum.values()].sort((p, q) => p.node - q.node)
}

/** Of forces on w, φx, φy of a node, the part on components that are not held rigidly. */
function freePart({ unknown, perNode, frame }: PlateLayout, node: number, [w, x, y]: SpringForce): SpringForce {
  const free = (k: number): number => (unknown[node * perNode + k] < 0 ? 0 : 1)
  const [c, s] = [Math.cos(frame[2 * node]), Math.sin(frame[2 * node])]
  const [along, across] = [free(1) * (c * x + s * y), free(2) * (c * y - s * x)]
  return [free(0) * w, c * along - s * across, s * along + c * across]
}

function segmentReactions({ nodes, supports }: PlateLayout, nodal: readonly NodalReaction[]): SegmentReaction[] {
  const { X, sides } = nodes
  const segments = [...new Set(sides.map(({ segment }) => segment))].sort((p, q) => p - q)
  const counted = new Set<number>()
  const found: SegmentReaction[] = []
  for (const segment of segments) {
    const held = heldBy(supports[segment])
    if (!bears(supports[segment]) && !held.slopeAlong && !held.slopeAcross) continue
    const own = sides.filter((side) => side.segment === segment)
    const [a, b] = [own[0].nodes[0], own[own.length - 1].nodes[2]]
    const [dx, dy] = [X[2 * b] - X[2 * a], X[2 * b + 1] - X[2 * a + 1]]
    const length = Math.hypot(dx, dy)
    const [tx, ty] = [dx / length, dy / length]
    const middle = { x: (X[2 * a] + X[2 * b]) / 2, y: (X[2 * a + 1] + X[2 * b + 1]) / 2 }
    let [force, momentX, momentY] = [0, 0, 0]
    const members = new Set(own.flatMap(({ nodes: three }) => three))
    for (const reaction of nodal) {
      if (!members.has(reaction.node) || counted.has(reaction.node)) continue
      counted.add(reaction.node)
      force += reaction.force
      momentX += reaction.momentX + (X[2 * reaction.node + 1] - middle.y) * reaction.force
      momentY += reaction.momentY - (X[2 * reaction.node] - middle.x) * reaction.force
    }
    // the plate lies to the left of a counter-clockwise segment
    const [momentAlong, momentAcross] = [momentX * tx + momentY * ty, -momentX * ty + momentY * tx]
    found.push({ segment, force, momentAlong, momentAcross })
  }
  return found
}
