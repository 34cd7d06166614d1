/** A font file opened by fontkit, which has no types of its own: what the tests ask of it. */
import { createRequire } from 'node:module'

export interface OpenFont {
  readonly unitsPerEm: number
  readonly capHeight: number
  readonly layout: (words: string, features: object) => { readonly advanceWidth: number }
  readonly hasGlyphForCodePoint: (code: number) => boolean
}

const fontkit = createRequire(import.meta.url)('fontkit') as { create: (bytes: Buffer) => OpenFont }

export const openFont = (bytes: Buffer): OpenFont => fontkit.create(bytes)
