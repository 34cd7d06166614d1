/** Names that tell every ply from every other, and every piece from every other, whatever bay or can it is for. */
import type { Issue } from '../issue.ts'
import type { ScheduledPly } from './schedule.ts'

/** `P1`, `P2`, …, each letter counted from the core outward. */
export function numberingRule(plies: readonly Pick<ScheduledPly, 'id'>[]): Issue[] {
  const counts = new Map<string, number>()
  return plies.flatMap(({ id }, index) => {
    const letter = id.replace(/\d+$/, '')
    const expected = (counts.get(letter) ?? 0) + 1
    counts.set(letter, expected)
    if (letter !== '' && id === `${letter}${expected}`) return []
    return [
      {
        code: 'pattern/ply-number',
        path: `plies[${index}].id`,
        value: id,
        message: `Ply ${index + 1} from the core is called '${id}'; plies of one kind are numbered from the core outward without gaps, here '${letter || 'P'}${expected}'.`,
        hint: 'Number the plies in the order they are laid.',
      },
    ]
  })
}

/** Two pieces of one name would be mixed up in the bag. */
export function pieceNameRule(pieces: readonly { readonly id: string; readonly can: string }[]): Issue[] {
  const twice = pieces.filter(({ id }, i) => pieces.findIndex((other) => other.id === id) !== i)
  if (twice.length === 0) return []
  const names = [...new Set(twice.map(({ id }) => id))]
  return [
    {
      code: 'pattern/piece-name',
      path: 'cans',
      value: names,
      message: `${names.length} ${names.length === 1 ? 'name stands' : 'names stand'} for more than one piece, ${names.slice(0, 3).join(', ')}${names.length > 3 ? ', …' : ''}: two cans of one letter, or two plies of one number.`,
      hint: 'Give every can its own letter and every ply its own number.',
    },
  ]
}
