/** What the checks of plates share: an isotropic sheet and the modes of a cantilever of any outline, written out. */
import { meshOutline } from '../src/geometry/outline-mesh.ts'
import type { Point } from '../src/geometry/point.ts'
import { assemblePlate } from '../src/plate/assemble.ts'
import { plateModes } from '../src/plate/modes.ts'
import type { PlateSection } from '../src/plate/section.ts'
import type { Support } from '../src/plate/supports.ts'

export interface Sheet {
  readonly E: number
  readonly nu: number
  readonly t: number
  readonly rho: number
}

export const bendingStiffness = ({ E, nu, t }: Sheet): number => (E * t ** 3) / (12 * (1 - nu ** 2))

/** Homogeneous sheet, shear correction 5/6. */
export function sheetSection(sheet: Sheet): PlateSection {
  const { E, nu, t, rho } = sheet
  const S = ((5 / 6) * E * t) / (2 * (1 + nu))
  const plane = (c: number): number[] => [c, nu * c, 0, nu * c, c, 0, 0, 0, (c * (1 - nu)) / 2]
  return {
    A: plane((E * t) / (1 - nu ** 2)),
    B: new Float64Array(9),
    D: plane(bendingStiffness(sheet)),
    S: [S, 0, 0, S],
    massPerArea: rho * t,
    rotaryInertia: (rho * t ** 3) / 12,
  }
}

export interface SheetModes {
  readonly outline: readonly Point[]
  /** One a segment; default: the first clamped, the rest free. */
  readonly supports?: readonly Support[]
  readonly sheet: Sheet
  readonly size: number
  readonly count: number
}

/** rad/s, ascending; throws when the eigenproblem did not converge. */
export function sheetModes({ outline, sheet, size, count, supports }: SheetModes): readonly number[] {
  const section = sheetSection(sheet)
  const model = assemblePlate({
    mesh: meshOutline({ outline, size }),
    supports: supports ?? outline.map((_, i) => (i === 0 ? 'clamped' : 'free')),
    sectionAt: () => section,
  })
  const modes = plateModes(model, count)
  if (modes.kind !== 'converged') throw new Error(`modes: ${modes.kind}`)
  return modes.omega
}

/** ω L² √(ρ t / D) */
export const frequencyParameter = (omega: number, L: number, sheet: Sheet): number =>
  omega * L ** 2 * Math.sqrt((sheet.rho * sheet.t) / bendingStiffness(sheet))
