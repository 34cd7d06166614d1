/**
 * Eight hexadecimal digits that change when a page changes: tells a stale sheet from a fresh one, nothing more.
 * FNV-1a, 32 bits (Fowler, Noll, Vo; IETF draft-eastlake-fnv), over the UTF-8 of the JSON text.
 */
export function fingerprint(content: unknown): string {
  let hash = 0x811c9dc5
  for (const byte of new TextEncoder().encode(JSON.stringify(content))) {
    hash = Math.imul(hash ^ byte, 0x01000193) >>> 0
  }
  return hash.toString(16).padStart(8, '0')
}
