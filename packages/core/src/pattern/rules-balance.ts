/**
 * Whether a fin's two faces balance.
 *
 * A fin's faces are skinned in two different bays, so that a ply at an angle a lies at +a on one face and at −a on the other
 * (seen in fin axes). Cloth with equal warp and weft is the same at ±45°, and any cloth is the same at ±0° and ±90°; anything
 * else leaves B, the coupling of bending and stretching, different from zero: the fin warps as it cures. Mirroring
 * alternate bays turns one of the two round, which needs an even number of fins.
 */
import { degrees } from '../geometry/dimension-text.ts'
import type { Issue } from '../issue.ts'
import type { Placed, RuleInput } from './rules.ts'
import { isBias } from './trellis.ts'

export function balanceRules(structural: readonly Placed[], { fins, layup }: RuleInput): readonly Issue[] {
  const even = fins.count % 2 === 0
  const mirrored = layup.mirrorAlternateBays && even
  const odd: Issue[] = layup.mirrorAlternateBays && !even ? [mirroredOdd(fins.count)] : []
  return [...odd, ...(mirrored ? [] : structural.flatMap((place) => coupling(place, even)))]
}

const mirroredOdd = (count: number): Issue => ({
  code: 'pattern/mirror-odd',
  path: 'layup.mirrorAlternateBays',
  value: true,
  message: `Alternate bays are to be mirrored, but ${count} fins make an odd number of bays: bays ${count} and 1 would be alike and share fin 1.`,
  hint: 'Turn mirroring off and keep to cloth with equal warp and weft at 0°, 45° or 90°.',
})

/** Warp and weft within half a per cent of each other are alike: finer than cloth is woven. */
const alike = 0.005

function coupling({ ply, index }: Placed, even: boolean): Issue[] {
  if (!isBias(ply.angle)) return []
  const at45 = !isBias(ply.angle - Math.PI / 4)
  const balanced = Math.abs(ply.cloth.warpShare.value - 0.5) <= alike
  if (at45 && balanced) return []
  const why = at45
    ? `its cloth has ${(100 * ply.cloth.warpShare.value).toFixed(0)} % of its fibre along the warp`
    : `its angle is none of 0°, 45° and 90°`
  return [
    {
      code: 'pattern/angle-couples',
      path: `plies[${index}].angle`,
      value: ply.angle,
      message: `${ply.id} lies at ${degrees(ply.angle)} on one face of a fin and at ${degrees(-ply.angle)} on the other, and ${why}: the two do not balance, and the fin warps as it cures.`,
      hint: even
        ? 'Mirror alternate bays, or lay this ply at 0°, 45° or 90° with balanced cloth.'
        : 'Lay this ply at 0°, 45° or 90° with balanced cloth.',
    },
  ]
}
