/** The stream that tells windows of what others did (server-sent events, HTML Living Standard, section 9.2). */
import type { ServerEvent } from '@finwright/plan/protocol/wire.ts'

export interface Events {
  readonly tell: (event: ServerEvent) => void
  /** A new listener's stream, or null when there are too many. */
  readonly listen: (hello: ServerEvent) => ReadableStream<Uint8Array> | null
  readonly close: () => void
}

/** A window is one listener. */
const mostListeners = 64
/** Keeps the connection from being taken for dead. */
const beat = 20_000

export function eventStreams(): Events {
  const listeners = new Set<ReadableStreamDefaultController<Uint8Array>>()
  const encoder = new TextEncoder()
  const send = (text: string): void => {
    for (const one of listeners) {
      try {
        one.enqueue(encoder.encode(text))
      } catch {
        listeners.delete(one)
      }
    }
  }
  const timer = setInterval(() => send(': here\n\n'), beat)
  timer.unref()
  return {
    tell: (event) => send(written(event)),
    listen: (hello) => {
      if (listeners.size >= mostListeners) return null
      let own: ReadableStreamDefaultController<Uint8Array> | undefined
      return new ReadableStream<Uint8Array>({
        start: (controller) => {
          own = controller
          listeners.add(controller)
          controller.enqueue(encoder.encode(`retry: 1000\n\n${written(hello)}`))
        },
        cancel: () => {
          if (own !== undefined) listeners.delete(own)
        },
      })
    },
    close: () => {
      clearInterval(timer)
      for (const one of listeners) one.close()
      listeners.clear()
    },
  }
}

const written = (event: ServerEvent): string => `event: ${event.kind}\ndata: ${JSON.stringify(event)}\n\n`
