/** Cans put in, renamed, taken out, as commands; a list that is only the default is written down first. Pure. */
import type { Issue } from '@finwright/core/issue.ts'
import type { Intent } from '@finwright/plan/protocol/commands.ts'
import { isObject, type JsonObject } from '@finwright/plan/protocol/record.ts'

export type Made =
  | { readonly ok: true; readonly intent: Intent }
  | { readonly ok: false; readonly issues: readonly Issue[] }

const alphabet = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ'

export const cansOf = (value: unknown): readonly JsonObject[] => (Array.isArray(value) ? value.filter(isObject) : [])

const letters = (cans: readonly JsonObject[]): readonly string[] => cans.map(({ letter }) => String(letter ?? ''))

export const freeLetter = (cans: readonly JsonObject[]): string | undefined =>
  [...alphabet].find((letter) => !letters(cans).includes(letter))

const whole = (cans: readonly JsonObject[]): Made => ({
  ok: true,
  intent: { name: 'field.set', payload: { path: ['cans'], value: cans } },
})

export function addedCan(cans: readonly JsonObject[], stated: boolean): Made {
  const letter = freeLetter(cans)
  if (letter === undefined)
    return refused('cans', cans.length, 'There are 26 cans; every letter from A to Z is taken.', 'Take one out first.')
  const entry = { letter, purpose: letters(cans).length === 0 ? 'flight' : 'backup' }
  return stated
    ? { ok: true, intent: { name: 'cans.insert', payload: { at: cans.length, entry } } }
    : whole([...cans, entry])
}

export function removedCan(cans: readonly JsonObject[], stated: boolean, at: number): Made {
  return stated
    ? { ok: true, intent: { name: 'cans.remove', payload: { at } } }
    : whole(cans.filter((_, i) => i !== at))
}

export function renamedCan(cans: readonly JsonObject[], stated: boolean, at: number, letter: string): Made {
  const path = `cans[${at}].letter`
  if (!/^[A-Z]$/.test(letter))
    return refused(
      path,
      letter,
      `The letter of a can is '${letter}'; it must be one letter, A to Z.`,
      `Type one letter, such as '${freeLetter(cans) ?? 'A'}'.`,
    )
  if (letters(cans).some((other, i) => i !== at && other === letter))
    return refused(
      path,
      letter,
      `The letter '${letter}' is taken by another can; each can must have its own, A to Z.`,
      `Use a letter that is free, such as '${freeLetter(cans) ?? '?'}'.`,
    )
  return changed(cans, stated, at, 'letter', letter)
}

export const setPurpose = (cans: readonly JsonObject[], stated: boolean, at: number, purpose: string): Made =>
  changed(cans, stated, at, 'purpose', purpose)

const changed = (cans: readonly JsonObject[], stated: boolean, at: number, name: string, value: string): Made =>
  stated
    ? { ok: true, intent: { name: 'field.set', payload: { path: ['cans', at, name], value } } }
    : whole(cans.map((can, i) => (i === at ? { ...can, [name]: value } : can)))

const refused = (path: string, value: unknown, message: string, hint: string): Made => ({
  ok: false,
  issues: [{ code: 'cans/letter', path, value, message, hint }],
})
