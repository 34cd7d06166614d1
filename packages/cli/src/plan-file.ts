/** Reads a plan from disk, its attachments beside it, and refuses with every issue at once. */
import { readFileSync } from 'node:fs'
import { dirname, resolve } from 'node:path'
import { type PlanDocument, readPlan } from '@finwright/plan/read-plan.ts'
import { Refusal } from './outcome.ts'

/** The plan, read and validated. Throws `Refusal` with the issues of an unreadable or bad plan. */
export function loadPlan(file: string): PlanDocument {
  const text = readText(file)
  if (!text.ok) throw new Refusal([unreadable(file, text.reason)])
  const folder = dirname(resolve(file))
  const read = readPlan({ text: text.text, readAttachment: (name) => readText(resolve(folder, name)) })
  if (!read.ok) throw new Refusal(read.issues)
  return read.value
}

type Read = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly reason: string }

const decoder = new TextDecoder('utf-8', { fatal: true })

function readText(path: string): Read {
  try {
    return { ok: true, text: decoder.decode(readFileSync(path)).replace(/^\uFEFF/, '') }
  } catch (problem) {
    return { ok: false, reason: reasonOf(problem as NodeJS.ErrnoException) }
  }
}

function reasonOf({ code, message }: NodeJS.ErrnoException): string {
  if (code === 'ENOENT') return 'there is no such file'
  if (code === 'EACCES' || code === 'EPERM') return 'the system does not allow reading it'
  if (code === 'EISDIR') return 'it is a folder'
  if (code === 'ERR_ENCODING_INVALID_ENCODED_DATA') return 'it is not UTF-8 text'
  return message
}

function unreadable(file: string, reason: string) {
  return {
    code: 'plan/unreadable',
    path: '',
    value: file,
    message: `The plan ${file} cannot be read: ${reason}.`,
    hint: 'Give the path of a plan file, for example examples/demo.fincan.json.',
  }
}
