/** Factors of a plate's stiffness, made once and kept as long as the plate itself. */
import { factorLdl, type Ldl } from '../numeric/ldl.ts'
import type { PlateModel } from './assemble.ts'

const kept = new WeakMap<PlateModel, Ldl>()

/** Singular, `singularAt` ≥ 0, for a plate that nothing holds. */
export function plateFactors(model: PlateModel): Ldl {
  const found = kept.get(model) ?? factorLdl(model.layout.analysis, model.K)
  kept.set(model, found)
  return found
}
