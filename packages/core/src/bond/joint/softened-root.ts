/**
 * The root at a temperature: what the resin governs made softer, what the fibres govern left alone.
 *
 * `adhesive` and `resin` are shear moduli over those at room temperature, 0 to 1, as the fillet's and the skins' own temperatures
 * give them. The skin's moduli in its plane are the caller's, who has its laminate at that temperature; through its thickness
 * E3 and G13 follow the resin in proportion, an estimate on the soft side (fibres across stiffen E3 somewhat).
 */
import { invariant } from '../../issue.ts'
import type { TeeRoot } from './tee-give.ts'

export interface SofteningFactors {
  readonly adhesive: number
  readonly resin: number
}

export function softenedRoot<Root extends TeeRoot>(root: Root, { adhesive, resin }: SofteningFactors): Root {
  for (const factor of [adhesive, resin]) invariant(factor > 0 && factor <= 1, `a modulus falls to ${factor} of itself`)
  const { moduli } = root.skin
  return {
    ...root,
    adhesive: { ...root.adhesive, E: adhesive * root.adhesive.E, G: adhesive * root.adhesive.G },
    skin: { ...root.skin, moduli: { ...moduli, E3: resin * moduli.E3, G13: resin * moduli.G13 } },
  }
}
