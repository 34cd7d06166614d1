/**
 * Which keys the schema knows at a path, for the hint that follows an unknown one. Of the members of a union those count
 * whose fixed words agree with what stands there: a square edge has no width.
 */
import { z } from 'zod'
import type { Path } from './locate.ts'

export function knownKeys(schema: z.ZodType, path: Path, value: unknown): readonly string[] {
  const members = objectsAt(schema, path)
  const meant = members.filter((member) => agrees(member, value))
  return [...new Set((meant.length > 0 ? meant : members).flatMap((object) => Object.keys(object.shape)))]
}

function agrees({ shape }: z.ZodObject, value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return true
  return Object.entries(value).every(([key, written]) => {
    const member: unknown = Object.hasOwn(shape, key) ? shape[key] : undefined
    return !(member instanceof z.ZodLiteral) || member.values.has(written as never)
  })
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
