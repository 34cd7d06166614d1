/** Every command there is, by name. Web and server read this one table; a name that does not stand here does nothing. */
import { clearField, setField } from './commands/field.ts'
import { attachFile, detachFile } from './commands/file.ts'
import { listCommands, rowCommands } from './commands/list.ts'
import { canName, plyName } from './commands/names.ts'
import { setPoints, setTrapezoid } from './commands/outline.ts'
import { rename, replacePlan, setUnits } from './commands/plan.ts'

const plies = listCommands({ path: ['plies'], one: 'ply', named: plyName })
const rolls = listCommands({ path: ['stock', 'rolls'], one: 'roll' })
const cans = listCommands({ path: ['cans'], one: 'can', named: canName })
const thrust = rowCommands({ path: ['flight', 'thrust'], one: 'row of the thrust curve' })
const drag = rowCommands({ path: ['flight', 'drag'], one: 'row of the drag table' })
const history = rowCommands({ path: ['flight', 'history'], one: 'row of the flown history' })
const states = listCommands({ path: ['flight', 'states'], one: 'air state' })
const sections = listCommands({ path: ['printing', 'sections'], one: 'printed section' })

export const commands = {
  'field.set': setField,
  'field.clear': clearField,
  'plies.insert': plies.insert,
  'plies.remove': plies.remove,
  'plies.move': plies.move,
  'plies.duplicate': plies.duplicate,
  'rolls.insert': rolls.insert,
  'rolls.remove': rolls.remove,
  'rolls.move': rolls.move,
  'rolls.duplicate': rolls.duplicate,
  'cans.insert': cans.insert,
  'cans.remove': cans.remove,
  'cans.move': cans.move,
  'cans.duplicate': cans.duplicate,
  'thrust.insert': thrust.insert,
  'thrust.remove': thrust.remove,
  'drag.insert': drag.insert,
  'drag.remove': drag.remove,
  'history.insert': history.insert,
  'history.remove': history.remove,
  'states.insert': states.insert,
  'states.remove': states.remove,
  'sections.insert': sections.insert,
  'sections.remove': sections.remove,
  'outline.setPoints': setPoints,
  'outline.setTrapezoid': setTrapezoid,
  'plan.rename': rename,
  'plan.setUnits': setUnits,
  'plan.replace': replacePlan,
  'files.attach': attachFile,
  'files.detach': detachFile,
} as const

export type CommandName = keyof typeof commands

/** What a command of this name takes. */
export type PayloadOf<N extends CommandName> = NonNullable<(typeof commands)[N]['sample']>

/** A command with its payload, one of each name. */
export type Intent = { [N in CommandName]: { readonly name: N; readonly payload: PayloadOf<N> } }[CommandName]
