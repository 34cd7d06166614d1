/** A fin set up for many loads: factors of its plate, strains, laminates and the air, each worked out once. */
import type { PlateModel } from '../plate/assemble.ts'
import { nodalField } from '../plate/nodal-field.ts'
import { type FinAir, type SteadyFinAir, steadyFinAir } from './air-on-plate.ts'
import type { PlateResponse } from './elastic-response.ts'
import { plateResponse } from './plate-response.ts'
import { type StrainMap, strainMap } from './strain-map.ts'
import { type JudgedNodes, judgedNodes, type LaminateAt } from './stress-map.ts'

export interface TestBenchInput {
  readonly model: PlateModel
  readonly laminateAt: LaminateAt
  readonly air: FinAir
}

export interface TestBench {
  readonly model: PlateModel
  readonly plate: PlateResponse
  readonly air: SteadyFinAir
  readonly nodes: JudgedNodes
  readonly map: StrainMap
  /** Strains at the triangles' corners from the plate's unknowns. */
  readonly corners: (x: Float64Array) => Float64Array
}

/** Null for a plate that nothing holds. */
export function testBench({ model, laminateAt, air }: TestBenchInput): TestBench | null {
  const plate = plateResponse(model)
  if (plate === null) return null
  const { layout } = model
  const map = strainMap(model)
  const corners = (x: Float64Array): Float64Array => map.atCorners(nodalField(layout, x))
  return { model, plate, air: steadyFinAir(air), nodes: judgedNodes(layout, laminateAt), map, corners }
}
