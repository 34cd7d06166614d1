/** Which keys the schema knows at a path, for the hint that follows an unknown one. */
import { z } from 'zod'
import type { Path } from './locate.ts'

export function knownKeys(schema: z.ZodType, path: Path): readonly string[] {
  return [...new Set(objectsAt(schema, path).flatMap((object) => Object.keys(object.shape)))]
}

function objectsAt(schema: unknown, path: Path): readonly z.ZodObject[] {
  if (schema instanceof z.ZodOptional) return objectsAt(schema.unwrap(), path)
  if (schema instanceof z.ZodUnion) return schema.options.flatMap((option) => objectsAt(option, path))
  const [part, ...rest] = path
  if (schema instanceof z.ZodObject) {
    if (part === undefined) return [schema]
    return Object.hasOwn(schema.shape, part) ? objectsAt(schema.shape[part], rest) : []
  }
  if (schema instanceof z.ZodArray && part !== undefined) return objectsAt(schema.element, rest)
  if (schema instanceof z.ZodRecord && part !== undefined) return objectsAt(schema.valueType, rest)
  return []
}
