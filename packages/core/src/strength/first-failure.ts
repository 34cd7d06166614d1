/** Which ply fails first in a solved instant, where and how, and the stresses through the thickness there. */
import type { Point } from '../geometry/point.ts'
import type { FailureIndex } from '../laminate/failure/criterion.ts'
import { maximumStress } from '../laminate/failure/maximum-stress.ts'
import { tsaiWu } from '../laminate/failure/tsai-wu.ts'
import type { Laminate } from '../laminate/laminate.ts'
import type { BuiltLayer } from '../laminate/layer.ts'
import { type FaceStress, plyStresses } from '../laminate/ply-stress.ts'
import { worstByTsaiWu } from './ply-judge.ts'
import { perCorner } from './strain-map.ts'
import { type Spot, worstOfTriangles, worstSpot } from './stress-map.ts'
import type { TestBench } from './test-bench.ts'
import type { Tried } from './trial.ts'

export interface LayerThrough {
  readonly layer: string
  /** Bottom and top: height above the reference plane, stresses in the layer's axes, of the load's sign that fails first. */
  readonly z: readonly [number, number]
  readonly s1: readonly [number, number]
  readonly s2: readonly [number, number]
  readonly t12: readonly [number, number]
  /** Of this sign; null for a layer that is not judged. */
  readonly index: number | null
}

export interface FirstFailure {
  readonly index: number
  /** Greatest index when every triangle is judged by its own strains: as far apart as the mesh is coarse. */
  readonly unaveraged: number
  readonly layer: string
  /** From the bottom (lowest z). */
  readonly place: number
  readonly face: 'bottom' | 'top'
  readonly z: number
  readonly criterion: string
  readonly mode: string
  readonly position: Point
  /** Sign of the load that fails first: +1 pushes towards +z. */
  readonly sign: 1 | -1
  readonly secondOpinion: {
    readonly criterion: string
    readonly index: number
    readonly layer: string
    readonly position: Point
  }
}

export interface JudgedThrough {
  readonly value: FirstFailure
  readonly through: readonly LayerThrough[]
}

/** Where a spot lies, with its laminate. */
const placeOf = ({ nodes: { layout, laminates } }: TestBench, { node, face }: Spot) => {
  const { laminate, layer, side } = laminates[node]
  const { X } = layout.nodes
  const position: Point = [X[2 * node], X[2 * node + 1]]
  return { laminate, layer: layer[face], face: side[face] === 0 ? ('bottom' as const) : ('top' as const), position }
}

export function firstFailure(bench: TestBench, { spot, strains, corners }: Tried): JudgedThrough {
  const { laminate, layer, face, position } = placeOf(bench, spot)
  const strain = strains.subarray(perCorner * spot.node, perCorner * (spot.node + 1))
  const [plus, minus] = ([1, -1] as const).map((sign) => judgedLayers(laminate, strain, sign))
  const indexAt = (layers: readonly JudgedLayer[]): number => layers[layer].failure[face]?.index ?? 0
  const used = indexAt(minus) > indexAt(plus) ? minus : plus
  const found = used[layer]
  const second = worstSpot(bench.nodes, strains, worstByTsaiWu)
  const other = placeOf(bench, second)
  return {
    value: {
      index: spot.index,
      unaveraged: worstOfTriangles(bench.nodes, corners),
      layer: found.layer.name,
      place: layer,
      face,
      z: found[face].z,
      criterion: maximumStress.name,
      mode: found.failure[face]?.mode ?? 'combined',
      position,
      sign: used === plus ? 1 : -1,
      secondOpinion: {
        criterion: tsaiWu.name,
        index: second.index,
        layer: other.laminate.layers[other.layer].name,
        position: other.position,
      },
    },
    through: used.map(({ layer: { name }, bottom, top, failure }) => ({
      layer: name,
      z: [bottom.z, top.z],
      s1: [bottom.ply.s1, top.ply.s1],
      s2: [bottom.ply.s2, top.ply.s2],
      t12: [bottom.ply.t12, top.ply.t12],
      index: failure.bottom && failure.top && Math.max(failure.bottom.index, failure.top.index),
    })),
  }
}

type Sides<T> = { readonly bottom: T; readonly top: T }

interface JudgedLayer extends Sides<FaceStress> {
  readonly layer: BuiltLayer
  readonly failure: Sides<FailureIndex | null>
}

/** Every layer's stresses under the strains times the sign, judged by maximum stress. */
function judgedLayers(laminate: Laminate, strain: Float64Array, sign: 1 | -1): JudgedLayer[] {
  const signed = strain.map((value) => sign * value)
  const state = { strain: signed.subarray(0, 3), curvature: signed.subarray(3) }
  return plyStresses(laminate, state).map(({ bottom, top }, i) => {
    const layer = laminate.layers[i]
    const { strengths, lamina } = layer
    const at = ({ ply }: FaceStress) =>
      strengths === null ? null : maximumStress.evaluate({ stress: ply, strengths, lamina })
    return { layer, bottom, top, failure: { bottom: at(bottom), top: at(top) } }
  })
}
