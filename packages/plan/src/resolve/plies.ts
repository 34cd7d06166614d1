/** Plies and lay-up of the plan, in SI. Plies are numbered from the core outward: P cloth that stays, V veil, R peel ply, F film. */
import type { Layup, PlyDesign, PlyRole } from '@finwright/core/assess/design.ts'
import type { CanPlan } from '../schema/can.ts'
import { siValue } from '../schema/judge.ts'
import { type Loose, listOf } from './loose.ts'
import type { Find } from './materials.ts'

type TypedPly = Loose<CanPlan['plies'][number]>

const initials: { readonly [role in PlyRole]: string } = { structural: 'P', surface: 'V', peel: 'R', film: 'F' }

export function resolvePlies(
  plies: Loose<CanPlan['plies']> | undefined,
  find: Find,
): Loose<readonly PlyDesign[]> | undefined {
  const list = listOf(plies)
  const ids = plyIds(list?.map((ply) => ply?.role) ?? [])
  return list?.map((ply, i) => ({ id: ids[i], ...resolvePly(ply, i, find) }))
}

/** Each role is counted by itself; undefined where the role is not known. */
export function plyIds(roles: readonly (PlyRole | undefined)[]): readonly (string | undefined)[] {
  const counts = { structural: 0, surface: 0, peel: 0, film: 0 }
  return roles.map((role) => {
    if (role === undefined) return undefined
    counts[role] += 1
    return `${initials[role]}${counts[role]}`
  })
}

function resolvePly(ply: TypedPly | undefined, i: number, find: Find): Omit<Loose<PlyDesign>, 'id'> {
  const { stepBack, overhang } = ply ?? {}
  return {
    cloth: find('cloth', ply?.cloth, `plies[${i}].cloth`),
    angle: siValue('plies[].angle', ply?.angle),
    role: ply?.role,
    cover: ply?.cover,
    onBody: ply?.onBody === undefined ? 0 : siValue('plies[].onBody', ply.onBody),
    wrap: siValue('plies[].wrap', ply?.wrap),
    stepBack: {
      leading: siValue('plies[].stepBack.leading', stepBack?.leading),
      trailing: siValue('plies[].stepBack.trailing', stepBack?.trailing),
      tip: siValue('plies[].stepBack.tip', stepBack?.tip),
      bodyForward: siValue('plies[].stepBack.bodyForward', stepBack?.bodyForward),
      bodyAft: siValue('plies[].stepBack.bodyAft', stepBack?.bodyAft),
    },
    overhang: {
      edges: siValue('plies[].overhang.edges', overhang?.edges),
      bodyEnds: siValue('plies[].overhang.bodyEnds', overhang?.bodyEnds),
    },
  }
}

export function resolveLayup(layup: Loose<NonNullable<CanPlan['layup']>> | undefined): Loose<Layup> {
  const { overrun, losses } = layup ?? {}
  return {
    overrun: {
      forward: siValue('layup.overrun.forward', overrun?.forward),
      aft: siValue('layup.overrun.aft', overrun?.aft),
    },
    resinPerCloth: siValue('layup.resinPerCloth', layup?.resinPerCloth),
    voidFraction: siValue('layup.voids', layup?.voids),
    biasShear: siValue('layup.biasShear', layup?.biasShear),
    mirrorAlternateBays: layup?.mirrorAlternateBays,
    stepPerThickness: siValue('layup.stepPerThickness', layup?.stepPerThickness),
    losses: {
      peelPly: siValue('layup.losses.peelPly', losses?.peelPly),
      primer: siValue('layup.losses.primer', losses?.primer),
      cup: siValue('layup.losses.cup', losses?.cup),
    },
  }
}
