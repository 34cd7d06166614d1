/** A plate's displacements for forces at its nodes, K x = F, without what a full static solution reports besides: for many loads. */
import { solveLdl } from '../numeric/ldl.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { plateFactors } from '../plate/factors.ts'
import type { PlateResponse } from './elastic-response.ts'

/** Null for a plate that nothing holds. */
export function plateResponse(model: PlateModel): PlateResponse | null {
  const { layout } = model
  if (!layout.heldInSpace) return null
  const factors = plateFactors(model)
  if (factors.singularAt >= 0) return null
  const { n, perNode, unknown } = layout
  const count = layout.nodes.X.length / 2
  const solve = (nodalForce: Float64Array): Float64Array => {
    const b = new Float64Array(n)
    for (let node = 0; node < count; node++) {
      const i = unknown[node * perNode]
      if (i >= 0) b[i] += nodalForce[node]
    }
    return solveLdl(factors, b)
  }
  const deflection = (x: Float64Array): Float64Array => {
    const w = new Float64Array(count)
    for (let node = 0; node < count; node++) {
      const i = unknown[node * perNode]
      if (i >= 0) w[node] = x[i]
    }
    return w
  }
  return { solve, deflection }
}
