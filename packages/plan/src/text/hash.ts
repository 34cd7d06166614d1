/**
 * A short fingerprint of the plan and its attachments: the first 12 hexadecimal digits of SHA-256 (FIPS 180-4, section 6.2,
 * recalled) over UTF-8 text with line ends as \n, each part preceded by its name and length. The same in browser and Node.
 */

export interface HashedPart {
  readonly name: string
  readonly text: string
}

const shortLength = 12

export function contentHash(parts: readonly HashedPart[]): string {
  const whole = parts.map(({ name, text }) => {
    const unix = text.replace(/\r\n?/g, '\n')
    return `${name.length}:${name}${unix.length}:${unix}`
  })
  return sha256(whole.join('')).slice(0, shortLength)
}

/** Hexadecimal SHA-256 of the text's UTF-8 bytes. */
export function sha256(text: string): string {
  const bytes = utf8(text)
  const padded = new Uint8Array(((bytes.length + 8) >> 6) * 64 + 64)
  padded.set(bytes)
  padded[bytes.length] = 0x80
  const view = new DataView(padded.buffer)
  view.setUint32(padded.length - 8, Math.floor((bytes.length * 8) / 2 ** 32))
  view.setUint32(padded.length - 4, (bytes.length * 8) >>> 0)
  const H = Uint32Array.from(roots(8, 1 / 2))
  const w = new Uint32Array(64)
  for (let block = 0; block < padded.length; block += 64) {
    for (let t = 0; t < 16; t += 1) w[t] = view.getUint32(block + 4 * t)
    compress(H, w)
  }
  return [...H].map((word) => word.toString(16).padStart(8, '0')).join('')
}

const rotr = (x: number, n: number): number => (x >>> n) | (x << (32 - n))

function compress(H: Uint32Array, w: Uint32Array): void {
  for (let t = 16; t < 64; t += 1) {
    const s0 = rotr(w[t - 15]!, 7) ^ rotr(w[t - 15]!, 18) ^ (w[t - 15]! >>> 3)
    const s1 = rotr(w[t - 2]!, 17) ^ rotr(w[t - 2]!, 19) ^ (w[t - 2]! >>> 10)
    w[t] = w[t - 16]! + s0 + w[t - 7]! + s1
  }
  let [a, b, c, d, e, f, g, h] = H as unknown as [number, number, number, number, number, number, number, number]
  for (let t = 0; t < 64; t += 1) {
    const S1 = rotr(e, 6) ^ rotr(e, 11) ^ rotr(e, 25)
    const T1 = (h + S1 + ((e & f) ^ (~e & g)) + K[t]! + w[t]!) | 0
    const S0 = rotr(a, 2) ^ rotr(a, 13) ^ rotr(a, 22)
    const T2 = (S0 + ((a & b) ^ (a & c) ^ (b & c))) | 0
    ;[h, g, f, e, d, c, b, a] = [g, f, e, (d + T1) | 0, c, b, a, (T1 + T2) | 0]
  }
  for (const [i, x] of [a, b, c, d, e, f, g, h].entries()) H[i] = H[i]! + x
}

/** First 32 bits of the fractional parts of a power of the first primes (FIPS 180-4, sections 4.2.2 and 5.3.3). */
function roots(count: number, power: number): number[] {
  const primes: number[] = []
  for (let n = 2; primes.length < count; n += 1) if (primes.every((p) => n % p !== 0)) primes.push(n)
  return primes.map((p) => Math.floor((p ** power % 1) * 2 ** 32))
}

const K = Uint32Array.from(roots(64, 1 / 3))

function utf8(text: string): Uint8Array {
  const bytes: number[] = []
  for (const character of text) {
    const code = character.codePointAt(0)!
    if (code < 0x80) bytes.push(code)
    else if (code < 0x800) bytes.push(0xc0 | (code >> 6), 0x80 | (code & 63))
    else if (code < 0x10000) bytes.push(0xe0 | (code >> 12), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63))
    else bytes.push(0xf0 | (code >> 18), 0x80 | ((code >> 12) & 63), 0x80 | ((code >> 6) & 63), 0x80 | (code & 63))
  }
  return Uint8Array.from(bytes)
}
