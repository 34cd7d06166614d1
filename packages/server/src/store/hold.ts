/**
 * One server a data folder. Who holds it stands in a file there with the address it answers at; a holder that does not answer
 * by its own token is gone (killed, power lost), and its place is taken.
 */
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'

export interface Holder {
  readonly address: string
  readonly token: string
}

/** Another server holds the folder, and answers. */
export class FolderInUse extends Error {
  readonly address: string
  constructor(address: string) {
    super(`held by ${address}`)
    this.address = address
  }
}

const name = 'server.json'
const patience = 2000

/** Holds the folder until the function that comes back is called. */
export async function hold(folder: string, own: Holder): Promise<() => void> {
  const file = join(folder, name)
  for (;;) {
    if (written(file, own)) return () => release(file, own)
    const other = readHolder(file)
    if (other !== null && (await answers(other))) throw new FolderInUse(other.address)
    rmSync(file, { force: true })
  }
}

function written(file: string, own: Holder): boolean {
  try {
    writeFileSync(file, JSON.stringify(own), { flag: 'wx', mode: 0o600 })
    return true
  } catch (problem) {
    if ((problem as { code?: string }).code !== 'EEXIST') throw problem
    return false
  }
}

function readHolder(file: string): Holder | null {
  try {
    const { address, token } = JSON.parse(readFileSync(file, 'utf8')) as Partial<Holder>
    const known =
      typeof address === 'string' && typeof token === 'string' && /^http:\/\/127\.0\.0\.1:\d+\/$/.test(address)
    return known ? { address, token } : null
  } catch {
    return null
  }
}

async function answers({ address, token }: Holder): Promise<boolean> {
  try {
    const reply = await fetch(new URL('api', address), { signal: AbortSignal.timeout(patience) })
    return ((await reply.json()) as { instance?: unknown }).instance === token
  } catch {
    return false
  }
}

function release(file: string, own: Holder): void {
  if (readHolder(file)?.token === own.token) rmSync(file, { force: true })
}
