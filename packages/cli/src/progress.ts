/** Progress on standard error: one line that is rewritten on a terminal, a line a step elsewhere. */
export interface Progress {
  readonly step: (text: string) => void
  readonly done: () => void
}

export function progressTo(stream: NodeJS.WriteStream): Progress {
  if (!stream.isTTY) return { step: (text) => void stream.write(`${text}\n`), done: () => undefined }
  const clear = '\r\u001b[K'
  return { step: (text) => void stream.write(`${clear}${text}`), done: () => void stream.write(clear) }
}

export const silent: Progress = { step: () => undefined, done: () => undefined }
