/** Bodies of requests, never longer than allowed: what is longer is refused before it is kept. */

import { payloadIssues } from '@finwright/plan/protocol/command.ts'
import { shallowEnough } from '@finwright/plan/protocol/record.ts'
import type { z } from 'zod'
import { Refusal } from './refusal.ts'

/** Bytes of a JSON body. A plan is some thousands; an import carries its files along. Common practice, no source. */
export const longestJson = 24 * 2 ** 20

export async function bytesOf(request: Request, most: number): Promise<Uint8Array> {
  const stated = Number(request.headers.get('content-length') ?? 0)
  if (stated > most) throw tooLarge(stated, most)
  const chunks: Uint8Array[] = []
  let size = 0
  for await (const chunk of request.body ?? []) {
    size += chunk.length
    if (size > most) throw tooLarge(size, most)
    chunks.push(chunk)
  }
  return Buffer.concat(chunks)
}

export async function jsonOf<T>(request: Request, shape: z.ZodType<T>): Promise<T> {
  const type = request.headers.get('content-type') ?? ''
  if (!/^application\/json\s*(;|$)/i.test(type)) throw notJsonType(type)
  const text = textOf(await bytesOf(request, longestJson))
  const value = parsed(text)
  if (!shallowEnough(value)) throw unreadable('it nests deeper than any plan', text)
  const read = shape.safeParse(value)
  if (!read.success) throw new Refusal(400, payloadIssues(read.error.issues, 'request'))
  return read.data
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch (problem) {
    throw unreadable((problem as Error).message, text)
  }
}

export function textOf(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  } catch {
    throw unreadable('it is not UTF-8 text', '')
  }
}

const unreadable = (why: string, text: string): Refusal =>
  new Refusal(400, [
    {
      code: 'server/not-json',
      path: '',
      value: text.slice(0, 40),
      message: `The body of the request is no JSON that is read here: ${why}.`,
      hint: 'Send a JSON object in UTF-8; docs/server.md lists what each address takes.',
    },
  ])

const notJsonType = (type: string): Refusal =>
  new Refusal(415, [
    {
      code: 'server/not-json',
      path: 'Content-Type',
      value: type.slice(0, 80),
      message: `The body is of type '${type.slice(0, 80)}'; it must be application/json.`,
      hint: 'Send JSON with the header Content-Type: application/json.',
    },
  ])

const megabytes = (bytes: number): string => `${(bytes / 2 ** 20).toFixed(1)} MB`

const tooLarge = (size: number, most: number): Refusal =>
  new Refusal(413, [
    {
      code: 'server/too-large',
      path: '',
      value: size,
      message: `What was sent has ${megabytes(size)} or more; at most ${megabytes(most)} are taken.`,
      hint: 'Send less: a shorter table, a smaller photograph.',
    },
  ])
