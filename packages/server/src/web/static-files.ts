/**
 * The app's files, read once at start into a fixed map from address to bytes. A request looks up its address in the map and
 * nothing else: no path from a request ever reaches the file system.
 */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join, relative, sep } from 'node:path'

export interface StaticFile {
  readonly bytes: Uint8Array | string
  readonly headers: { readonly [name: string]: string }
}

export type StaticFiles = ReadonlyMap<string, StaticFile>

const types: { readonly [ending: string]: string } = {
  html: 'text/html; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  mjs: 'text/javascript; charset=utf-8',
  css: 'text/css; charset=utf-8',
  json: 'application/json; charset=utf-8',
  webmanifest: 'application/manifest+json; charset=utf-8',
  svg: 'image/svg+xml',
  png: 'image/png',
  jpg: 'image/jpeg',
  webp: 'image/webp',
  ico: 'image/x-icon',
  ttf: 'font/ttf',
  woff2: 'font/woff2',
  wasm: 'application/wasm',
  txt: 'text/plain; charset=utf-8',
}

/** Names with a fingerprint in them, as the app's build writes them, never change what they hold. */
const fingerprinted = /[-.][A-Za-z0-9_-]{8,}\.\w+$/

export function staticFilesIn(folder: string): StaticFiles {
  const files = new Map<string, StaticFile>()
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const ending = entry.name.split('.').at(-1) ?? ''
    if (!entry.isFile() || types[ending] === undefined) continue
    const place = join(entry.parentPath ?? entry.path, entry.name)
    const address = `/${relative(folder, place).split(sep).join('/')}`
    const lasting = address.startsWith('/assets/') && fingerprinted.test(entry.name)
    const cache = lasting ? 'public, max-age=31536000, immutable' : 'no-cache'
    files.set(address, {
      bytes: readFileSync(place),
      headers: { 'content-type': types[ending], 'cache-control': cache },
    })
  }
  return files
}

export const hasApp = (folder: string): boolean => existsSync(join(folder, 'index.html'))

/** The file at an address; an address of the app that is no file is a page of the app, so that deep links work. */
export function staticFileAt(files: StaticFiles, address: string): StaticFile | undefined {
  const found = files.get(address)
  if (found !== undefined) return found
  const isPage = !address.split('/').at(-1)!.includes('.')
  return isPage ? files.get('/index.html') : undefined
}
