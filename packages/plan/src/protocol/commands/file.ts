/** Files beside the plan: thrust curves, flights, photographs. The record holds their fingerprints, the store their bytes. */
import { z } from 'zod'
import { command, refused } from '../command.ts'
import type { PlanRecord } from '../record.ts'

/** Bounds of what one plan may carry; common practice, no source. */
export const fileLimits = { bytes: 16 * 2 ** 20, all: 256 * 2 ** 20, count: 200 } as const

export const fileShape = z.strictObject({
  sha256: z.string().regex(/^[0-9a-f]{64}$/),
  size: z.int().min(0).max(fileLimits.bytes),
})

/** A plain name: no folder, nothing hidden, no control characters. */
export const fileName = z
  .string()
  .min(1)
  .max(120)
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  .regex(/^(?!\.)[^/\\:*?"<>|\u0000-\u001f\u007f]+$/, 'it must be a plain file name, without folders')

export const attachFile = command({
  payload: z.strictObject({ name: fileName, file: fileShape }),
  label: ({ name }) => `file ${name}`,
  footprint: ({ name }) => ({ values: [], orders: [], files: [name] }),
  apply: ({ name, file }, record) => {
    const files = { ...record.files, [name]: file }
    const total = Object.values(files).reduce((sum, { size }) => sum + size, 0)
    if (Object.keys(files).length > fileLimits.count || total > fileLimits.all) return tooMuch(record, name)
    return { ok: true, record: { ...record, files }, changes: [{ kind: 'file', name }] }
  },
})

export const detachFile = command({
  payload: z.strictObject({ name: fileName }),
  label: ({ name }) => `file ${name} taken away`,
  footprint: ({ name }) => ({ values: [], orders: [], files: [name] }),
  apply: ({ name }, record) => {
    if (!Object.hasOwn(record.files, name)) {
      return refused({
        code: 'command/no-file',
        path: `files.${name}`,
        value: name,
        message: `No file '${name}' lies beside this plan.`,
        hint: 'Look at the list of files again.',
      })
    }
    const files = Object.fromEntries(Object.entries(record.files).filter(([other]) => other !== name))
    return { ok: true, record: { ...record, files }, changes: [{ kind: 'file', name }] }
  },
})

const tooMuch = (record: PlanRecord, name: string) =>
  refused({
    code: 'command/too-many-files',
    path: `files.${name}`,
    value: Object.keys(record.files).length,
    message: `With '${name}' the files beside this plan would be too many: at most ${fileLimits.count} files and ${fileLimits.all / 2 ** 20} MB together.`,
    hint: 'Take away files that are not needed, or make the photographs smaller.',
  })
