/**
 * Failure indices of a laminate's plies from its strains, for loads that may come from either side.
 *
 *   maximum stress, both signs    max(|σ1|/min(Xt, Xc), |σ2|/min(Yt, Yc), |τ12|/S) = max |r ε|,  rows r of T Q̄ (1, z) over the strength
 *   Tsai-Wu, both signs           (|b| + √(b² + 4a))/2      a, b: quadratic and linear parts (laminate/failure/tsai-wu.ts)
 *
 * A linear stress turns its sign with the load, so the worse of the two signs needs the lesser strength of each pair only, and the
 * sign of b never counts. Both indices are convex along z in one material at one angle, so of all its layers the lowest and the
 * highest face bound it. The numbers are those of `maximumStress` and `tsaiWu` on `plyStresses`; rows are worked out once a laminate.
 */
import { type Lamina, rotatedStiffness } from '../laminate/lamina.ts'
import type { Laminate } from '../laminate/laminate.ts'
import type { PlyStrengths } from '../laminate/layer.ts'
import { inPlyAxes } from '../laminate/ply-stress.ts'

export interface JudgedLaminate {
  readonly laminate: Laminate
  /** Faces judged: of the layers with strengths, lowest and highest of each material and angle. */
  readonly faces: number
  /** Place of a face's layer from the bottom. */
  readonly layer: Int32Array
  /** 0 for the layer's bottom face, 1 for its top. */
  readonly side: Int32Array
  /** 3 rows of 6 a face: ply stresses over the lesser strength, from membrane strains and curvatures. */
  readonly rows: Float64Array
  /** F1, F2, F11, F22, F66, 2 F12 a face, over those reduced stresses. */
  readonly tsaiWu: Float64Array
}

const kept = new WeakMap<Laminate, JudgedLaminate>()

export function judged(laminate: Laminate): JudgedLaminate {
  const known = kept.get(laminate)
  if (known !== undefined) return known
  const made = judge(laminate)
  kept.set(laminate, made)
  return made
}

function judge(laminate: Laminate): JudgedLaminate {
  const { layers, reference } = laminate
  const faces = outerFaces(layers)
  const rows = new Float64Array(18 * faces.length)
  const tsaiWu = new Float64Array(6 * faces.length)
  const heights = [-reference]
  for (const { t } of layers) heights.push(heights[heights.length - 1] + t)
  faces.forEach(({ layer, side, material }, face) => {
    const z = heights[layer + side]
    for (let i = 0; i < 3; i++) {
      for (let j = 0; j < 3; j++) {
        rows[18 * face + 6 * i + j] = material.rows[3 * i + j]
        rows[18 * face + 6 * i + 3 + j] = z * material.rows[3 * i + j]
      }
    }
    tsaiWu.set(material.tsaiWu, 6 * face)
  })
  const column = (key: 'layer' | 'side') => Int32Array.from(faces, (face) => face[key])
  return { laminate, faces: faces.length, layer: column('layer'), side: column('side'), rows, tsaiWu }
}

interface JudgedFace {
  readonly layer: number
  readonly side: 0 | 1
  readonly material: JudgedMaterial
}

/** Layers of one material at one angle: its lowest bottom and its highest top. */
function outerFaces(layers: Laminate['layers']): JudgedFace[] {
  const found = new Map<JudgedMaterial, [JudgedFace, JudgedFace]>()
  layers.forEach(({ lamina, theta, strengths }, layer) => {
    if (strengths === null) return
    const material = judgedMaterial(lamina, strengths, theta)
    const bottom = found.get(material)?.[0] ?? { layer, side: 0, material }
    found.set(material, [bottom, { layer, side: 1, material }])
  })
  return [...found.values()].flat()
}

/** One material at one angle: T Q̄ over the lesser strengths, 3 × 3, and the six coefficients of Tsai-Wu over them. */
interface JudgedMaterial {
  readonly rows: Float64Array
  readonly tsaiWu: Float64Array
}

const materials = new WeakMap<PlyStrengths, WeakMap<Lamina, Map<number, JudgedMaterial>>>()

function judgedMaterial(lamina: Lamina, strengths: PlyStrengths, theta: number): JudgedMaterial {
  const ofStrengths = materials.get(strengths) ?? new WeakMap<Lamina, Map<number, JudgedMaterial>>()
  materials.set(strengths, ofStrengths)
  const angles = ofStrengths.get(lamina) ?? new Map<number, JudgedMaterial>()
  ofStrengths.set(lamina, angles)
  const known = angles.get(theta)
  if (known !== undefined) return known
  const { Xt, Xc, Yt, Yc, S } = strengths
  const [X, Y] = [Math.min(Xt, Xc), Math.min(Yt, Yc)]
  const Qbar = rotatedStiffness(lamina, theta)
  const rows = new Float64Array(9)
  for (let j = 0; j < 3; j++) {
    const { s1, s2, t12 } = inPlyAxes([Qbar[j], Qbar[3 + j], Qbar[6 + j]], theta)
    rows[j] = s1 / X
    rows[3 + j] = s2 / Y
    rows[6 + j] = t12 / S
  }
  const f12 = -Math.sqrt(1 / (Xt * Xc * Yt * Yc))
  const linear = [X * (1 / Xt - 1 / Xc), Y * (1 / Yt - 1 / Yc)]
  const tsaiWu = Float64Array.of(...linear, (X * X) / (Xt * Xc), (Y * Y) / (Yt * Yc), 1, X * Y * f12)
  const made = { rows, tsaiWu }
  angles.set(theta, made)
  return made
}

/** The worst face of a laminate, written by the functions below. */
export interface WorstFace {
  index: number
  face: number
}

/** Greatest maximum-stress index of either sign at the strains from `at` on (membrane, then curvature). */
export function worstByStress(
  { faces, rows }: JudgedLaminate,
  strains: Float64Array,
  at: number,
  to: WorstFace,
): WorstFace {
  const [e0, e1, e2, k0, k1, k2] = [
    strains[at],
    strains[at + 1],
    strains[at + 2],
    strains[at + 3],
    strains[at + 4],
    strains[at + 5],
  ]
  let [index, place] = [-1, -1]
  for (let row = 0, p = 0; row < 3 * faces; row++, p += 6) {
    const value = Math.abs(
      rows[p] * e0 + rows[p + 1] * e1 + rows[p + 2] * e2 + rows[p + 3] * k0 + rows[p + 4] * k1 + rows[p + 5] * k2,
    )
    if (value > index) {
      index = value
      place = row
    }
  }
  to.index = index
  to.face = place < 0 ? -1 : Math.floor(place / 3)
  return to
}

/** Greatest Tsai-Wu index of either sign. */
export function worstByTsaiWu(
  { faces, rows, tsaiWu }: JudgedLaminate,
  strains: Float64Array,
  at: number,
  to: WorstFace,
): WorstFace {
  to.index = -1
  to.face = -1
  for (let face = 0, p = 0, f = 0; face < faces; face++, p += 18, f += 6) {
    let [s1, s2, t12] = [0, 0, 0]
    for (let j = 0; j < 6; j++) {
      const strain = strains[at + j]
      s1 += rows[p + j] * strain
      s2 += rows[p + 6 + j] * strain
      t12 += rows[p + 12 + j] * strain
    }
    const b = tsaiWu[f] * s1 + tsaiWu[f + 1] * s2
    const a = tsaiWu[f + 2] * s1 * s1 + tsaiWu[f + 3] * s2 * s2 + tsaiWu[f + 4] * t12 * t12 + tsaiWu[f + 5] * s1 * s2
    const index = (Math.abs(b) + Math.sqrt(b * b + 4 * a)) / 2
    if (index > to.index) {
      to.index = index
      to.face = face
    }
  }
  return to
}
