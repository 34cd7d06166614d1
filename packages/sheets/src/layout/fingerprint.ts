/**
 * Eight hexadecimal digits that change when a page changes: tells a stale sheet from a fresh one, nothing more.
 * FNV-1a, 32 bits: hash = (hash ⊕ byte) · 16777619 mod 2³² from 2166136261 (Fowler, Noll and Vo,
 * draft-eastlake-fnv, section 5; recalled).
 */

/** Of the UTF-8 of the content as JSON. */
export const fingerprint = (content: unknown): string =>
  fnv1a(new TextEncoder().encode(JSON.stringify(content)))
    .toString(16)
    .padStart(8, '0')

export function fnv1a(bytes: Uint8Array): number {
  let hash = 2166136261
  for (const byte of bytes) hash = Math.imul(hash ^ byte, 16777619) >>> 0
  return hash
}
