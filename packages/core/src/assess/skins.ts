/** The cured skins of a fin: every ply of the schedule as it comes out of the mould. */
import type { BayPly, Face } from '../laminate/fin-laminate.ts'
import { type CuredPly, curedPly, staysInLaminate } from '../laminate/ply.ts'
import type { FinSection } from './assessment.ts'
import type { CanDesign, PlyDesign } from './design.ts'

export interface SkinPly {
  readonly design: PlyDesign
  readonly cured: CuredPly
}

/**
 * Plies that stay in the laminate, core outward, patches too; peel ply and film are pulled off. `resinFactor`: what heat leaves of the
 * resin's modulus.
 */
export function curedPlies({ plies, resin, layup }: CanDesign, resinFactor = 1): readonly SkinPly[] {
  const warm = resinFactor === 1 ? resin : { ...resin, E: { ...resin.E, value: resin.E.value * resinFactor } }
  return plies
    .filter(({ cloth }) => staysInLaminate(cloth))
    .map((design) => ({
      design,
      cured: curedPly({
        cloth: design.cloth,
        resin: warm,
        resinPerCloth: layup.resinPerCloth,
        voidFraction: layup.voidFraction,
      }),
    }))
}

/**
 * Those on one face of a fin. The next fin of a bay turns its previous face to it: a patch on the next fin's side lies on every fin's
 * previous face.
 */
export const onFace = (face: Face, plies: readonly SkinPly[]): readonly SkinPly[] =>
  plies.filter(({ design: { cover } }) => cover === 'bay' || cover !== face)

/** Those on the face with the thinner skin, where patches make the two differ: it is hotter in flight and holds the root less. */
export function thinnerFace(plies: readonly SkinPly[]): readonly SkinPly[] {
  const thickness = (face: readonly SkinPly[]): number => face.reduce((sum, { cured }) => sum + cured.t, 0)
  const [next, previous] = [onFace('next', plies), onFace('previous', plies)]
  return thickness(next) < thickness(previous) ? next : previous
}

/** As laid in a bay, core outward; the same object for the same ply. */
export const bayPlies = (plies: readonly SkinPly[]): readonly BayPly[] => plies.map(bayPly)

const inBay = new WeakMap<SkinPly, BayPly>()

function bayPly(skin: SkinPly): BayPly {
  const { design, cured } = skin
  const found = inBay.get(skin) ?? { id: design.id, ply: cured, angle: design.angle }
  inBay.set(skin, found)
  return found
}

export function plyFigures(plies: readonly SkinPly[]): FinSection['plies'] {
  return plies.map(({ design, cured }) => ({
    id: design.id,
    thickness_m: cured.t,
    fibreFraction: cured.fibreVolumeFraction,
    arealMass_kg_m2: cured.arealMass,
    E1_Pa: cured.lamina.E1,
    E2_Pa: cured.lamina.E2,
    G12_Pa: cured.lamina.G12,
    nu12: cured.lamina.nu12,
  }))
}
