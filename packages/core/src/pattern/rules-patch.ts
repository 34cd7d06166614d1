/**
 * Patches: plies that cover one side of each bay. Every fin then has the patch on one face only, because its two faces come from
 * two bays; the laminate is no longer balanced about its core. The rules of the whole bay's plies pass over patches.
 */
import type { Issue } from '../issue.ts'
import type { ScheduledPly } from './schedule.ts'

export function patchRules(plies: readonly ScheduledPly[]): readonly Issue[] {
  return plies.flatMap((ply, index) => {
    if (ply.cover === 'bay' || ply.role !== 'structural') return []
    const other = plies.some(
      (one) =>
        one.role === 'structural' &&
        one.cover !== 'bay' &&
        one.cover !== ply.cover &&
        one.cloth.id === ply.cloth.id &&
        Math.abs(one.angle) === Math.abs(ply.angle),
    )
    const face = ply.cover === 'next' ? 'previous' : 'next'
    return [
      {
        code: 'pattern/patch-one-face',
        path: `plies[${index}].cover`,
        value: ply.cover,
        message: other
          ? `${ply.id} is a patch on the ${ply.cover} fin's side of each bay; stiffness, strength and flutter count it, the balance about the core is judged without patches.`
          : `${ply.id} is a patch on the ${ply.cover} fin's side of each bay, so that every fin has it on its ${face} face only and is no longer balanced about its core: it may warp in the cure. Stiffness, strength and flutter count it; the balance and the twist of the cure are judged without patches.`,
        hint: other
          ? 'A stiff patch moves load to its edges: taper it with steps.'
          : "Add the same patch on the other side ('next' and 'previous'), or lay a whole ply.",
      },
    ]
  })
}
