/** What a laminate is made of: layers from the bottom face (lowest z) to the top. */
import type { SheetMaterial, Strengths } from '../material/material.ts'
import type { Lamina } from './lamina.ts'

export interface Layer {
  readonly lamina: Lamina
  /** From axis x towards axis y to the layer's axis 1, rad. */
  readonly theta: number
  /** Thickness, m. */
  readonly t: number
}

/** Strengths in the layer's own axes, Pa, all positive; compressive ones too. */
export interface PlyStrengths {
  readonly Xt: number
  readonly Xc: number
  readonly Yt: number
  readonly Yc: number
  readonly S: number
}

/** A layer with what mass and strength need besides stiffness. */
export interface BuiltLayer extends Layer {
  /** Names the layer in results, e.g. `P2 next face`, `core`. */
  readonly name: string
  /** kg/m³. */
  readonly density: number
  /** Null for a layer that is not judged: a veil. */
  readonly strengths: PlyStrengths | null
}

export const totalThickness = (layers: readonly Layer[]): number => layers.reduce((h, { t }) => h + t, 0)

/** A sheet, cut at theta and t thick, as a layer. */
export function sheetLayer(
  sheet: SheetMaterial,
  { theta, t, name }: Pick<BuiltLayer, 'theta' | 't' | 'name'>,
): BuiltLayer {
  return { name, theta, t, lamina: sheetLamina(sheet), density: sheet.density.value, strengths: plain(sheet.strengths) }
}

const laminae = new WeakMap<SheetMaterial, Lamina>()

/** The same object for the same sheet, so that what is kept of a lamina is found again. */
export function sheetLamina(sheet: SheetMaterial): Lamina {
  const { E1, E2, G12, nu12, G13, G23 } = sheet
  const found = laminae.get(sheet) ?? {
    ...{ E1: E1.value, E2: E2.value, G12: G12.value },
    ...{ nu12: nu12.value, G13: G13.value, G23: G23.value },
  }
  laminae.set(sheet, found)
  return found
}

const plain = ({ Xt, Xc, Yt, Yc, S }: Strengths): PlyStrengths => ({
  Xt: Xt.value,
  Xc: Xc.value,
  Yt: Yt.value,
  Yc: Yc.value,
  S: S.value,
})
