/** Which fields of a plan may be left out, read off the same definition that validates. */
import type { z } from 'zod'
import { canPlan } from './can.ts'
import { type Path, pathText } from './locate.ts'
import { studyPlan } from './study.ts'

/** As zod describes a shape; the parts that lead to a field. */
interface Described {
  readonly type: string
  readonly shape?: Readonly<Record<string, z.core.$ZodType>>
  readonly innerType?: z.core.$ZodType
  readonly options?: readonly z.core.$ZodType[]
  readonly element?: z.core.$ZodType
  readonly items?: readonly z.core.$ZodType[]
  readonly valueType?: z.core.$ZodType
}

const described = (shape: z.core.$ZodType): Described => shape._zod.def as unknown as Described

const known = new Map<string, boolean>()

/**
 * Whether a plan may leave the field out. Where only some forms of a choice need it, the plan reader tells when it is missed.
 * Entries of lists are taken out by commands of their own.
 */
export function isOptional(path: Path, study = false): boolean {
  const key = `${study ? 'study ' : ''}${pathText(path.map((part) => (typeof part === 'number' ? 0 : part)))}`
  const before = known.get(key)
  if (before !== undefined) return before
  const found = places(study ? studyPlan : canPlan, path)
  const optional = typeof path.at(-1) === 'string' && found.some((one) => one === 'optional')
  known.set(key, optional)
  return optional
}

type Found = 'optional' | 'required'

/** What the last name of the path is in each form that has it. */
function places(shape: z.core.$ZodType, path: Path): readonly Found[] {
  const { type, shape: names, innerType, options, element, items, valueType } = described(shape)
  if (innerType !== undefined && names === undefined) return places(innerType, path)
  if (options !== undefined) return options.flatMap((option) => places(option, path))
  const [name, ...rest] = path
  if (name === undefined) return []
  const inner = stepInto({ names, element, items, valueType }, name)
  if (inner === undefined) return []
  if (rest.length > 0) return places(inner, rest)
  return [type === 'record' || described(inner).type === 'optional' ? 'optional' : 'required']
}

interface Within {
  readonly names: Described['shape']
  readonly element: Described['element']
  readonly items: Described['items']
  readonly valueType: Described['valueType']
}

function stepInto({ names, element, items, valueType }: Within, name: string | number): z.core.$ZodType | undefined {
  if (typeof name === 'number') return element ?? items?.[name]
  if (names !== undefined) return Object.hasOwn(names, name) ? names[name] : undefined
  return valueType
}
