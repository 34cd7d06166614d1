/** Paths of a plan: how they are printed, and the field of the table that stands at one. */
import { type Field, type FieldKey, fields } from './fields.data.ts'

export type Path = readonly (string | number)[]

/** `plies[2].stepBack.tip`. */
export function pathText(path: Path): string {
  return path.map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`)).join('')
}

/** The field at a path, or null. A material's properties are the same fields wherever a plan states them. */
export function fieldAt(path: Path): Field | null {
  const key = candidates(aliased(path)).find((candidate) => candidate in fields)
  return key === undefined ? null : fields[key as FieldKey]
}

function aliased(path: Path): Path {
  const at = path.lastIndexOf('material')
  if (at > 0) return ['material', ...path.slice(at + 1)]
  if (path[0] === 'materials' && path.length > 2) return ['material', ...path.slice(2)]
  if (path[0] === 'resin' && path.length === 2 && path[1] !== 'tolerance') return ['material', path[1]!]
  return path
}

/** Each index written as itself or as any place. */
function candidates(path: Path): readonly string[] {
  let texts = ['']
  for (const part of path) {
    const forms = typeof part === 'number' ? [`[${part}]`, '[]'] : [part]
    texts = texts.flatMap((text) =>
      forms.map((form) => (text === '' || form.startsWith('[') ? text + form : `${text}.${form}`)),
    )
  }
  return texts
}

/** What stands at a path, or undefined. */
export function valueAt(root: unknown, path: Path): unknown {
  let value = root
  for (const part of path) {
    if (typeof value !== 'object' || value === null || !Object.hasOwn(value, part)) return undefined
    value = (value as Record<string | number, unknown>)[part]
  }
  return value
}

/** The path that `pathText` printed. */
export const parsePath = (text: string): Path =>
  [...text.matchAll(/\[(\d+)\]|([^.[\]]+)/g)].map(([, index, name]) => (index === undefined ? name! : Number(index)))
