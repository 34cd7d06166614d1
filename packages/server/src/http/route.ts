/** A table of addresses and what answers them: `'GET /api/plans/:id': query(standing)`. */
import type { z } from 'zod'
import type { Services } from '../services.ts'
import { bytesOf, jsonOf } from './body.ts'

export type Reply =
  | { readonly status?: number; readonly json: unknown }
  | {
      readonly status?: number
      readonly bytes: Uint8Array | string
      readonly headers: { readonly [name: string]: string }
    }
  | { readonly stream: ReadableStream<Uint8Array> }

export interface Question {
  /** `:id` of the address; always there when the address names it. */
  readonly param: (name: string) => string
  readonly search: URLSearchParams
}

export interface Route {
  readonly answer: (question: Question, request: Request, services: Services) => Reply | Promise<Reply>
}

export type RouteTable = { readonly [address: string]: Route }

/** Reads and changes nothing. */
export const query = (answer: (question: Question, services: Services) => Reply | Promise<Reply>): Route => ({
  answer: (question, _, services) => answer(question, services),
})

/** Changes something, by a JSON body of a given shape. */
export const change = <T>(
  shape: z.ZodType<T>,
  answer: (body: T, question: Question, services: Services) => Reply | Promise<Reply>,
): Route => ({
  answer: async (question, request, services) => answer(await jsonOf(request, shape), question, services),
})

/** Changes something, without a body. */
export const act = (answer: (question: Question, services: Services) => Reply | Promise<Reply>): Route => ({
  answer: (question, _, services) => answer(question, services),
})

/** Takes bytes as they are, up to so many. */
export const upload = (most: number, answer: (bytes: Uint8Array, services: Services) => Reply): Route => ({
  answer: async (_, request, services) => answer(await bytesOf(request, most), services),
})

export const json = (value: unknown, status = 200): Reply => ({ json: value, status })

const whole = /^\d{1,9}$/

/** A whole number from the address, or another value where none is given; null where it is no number. */
export function wholeNumber(text: string | null, otherwise: number): number | null {
  if (text === null) return otherwise
  return whole.test(text) ? Number(text) : null
}
