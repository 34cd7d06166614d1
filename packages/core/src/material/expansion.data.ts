/**
 * Linear thermal expansion near room temperature, 1/K: along and across the fibre, of cured resin, of sheets along and across
 * their grain. For how a fin warps as it cools, where the differences count and a third of any of them moves the answer by a third.
 */

import type { Expansion } from './expansion.ts'
import { practice, read, recalled } from './property.ts'

const CALLISTER =
  'Callister & Rethwisch, Fundamentals of Materials Science and Engineering, 3rd ed. (2007), table B.6 (read in a public copy)'

export const fibreExpansion: Readonly<Record<string, Expansion>> = {
  'e-glass': { along: read(5.0e-6, `${CALLISTER}: E-glass 5.0`), across: read(5.0e-6, `${CALLISTER}: E-glass 5.0`) },
  's-glass': {
    along: recalled(1.6e-6, "glass fibre makers' property summary, S-glass"),
    across: recalled(1.6e-6, "glass fibre makers' property summary, S-glass"),
  },
  'carbon-standard': {
    along: read(-0.6e-6, `${CALLISTER}: standard-modulus carbon, lengthwise −0.6`),
    across: read(10e-6, `${CALLISTER}: standard-modulus carbon, crosswise 10.0`),
  },
}

/** Bowles & Tompkins (1989) have 44 and 63, Sideridis (1994) 52.5, both read in a thesis that quotes them. */
export const epoxyExpansion = practice(
  60e-6,
  'cured laminating epoxy below its glass transition, 44 to 65 in print for hot-cured ones',
)

const G10 = 'glass-epoxy sheet makers’ summaries, 10 to 15 along the sheet'

export const sheetExpansion: Readonly<Record<string, Expansion>> = {
  g10: { along: practice(11e-6, `${G10}; lengthwise`), across: practice(13e-6, `${G10}; crosswise`) },
  'g10-typical': { along: practice(11e-6, `${G10}; lengthwise`), across: practice(13e-6, `${G10}; crosswise`) },
  'birch-plywood': {
    along: practice(6e-6, 'plywood along the face grain; what it takes up of moisture moves it far more'),
    across: practice(8e-6, 'plywood across the face grain; what it takes up of moisture moves it far more'),
  },
  'aluminium-6061-t6': {
    along: recalled(23.6e-6, 'MIL-HDBK-5J, 6061'),
    across: recalled(23.6e-6, 'MIL-HDBK-5J, 6061'),
  },
  'aluminium-7075-t6': {
    along: recalled(23.4e-6, 'MIL-HDBK-5J, 7075'),
    across: recalled(23.4e-6, 'MIL-HDBK-5J, 7075'),
  },
  'carbon-plate': {
    along: practice(3e-6, 'woven carbon-epoxy plate, 2 to 4'),
    across: practice(3e-6, 'woven carbon-epoxy plate, 2 to 4'),
  },
}

/** Of a sheet that the table does not know: between glass-epoxy and aluminium, and the same both ways. */
export const unknownSheetExpansion: Expansion = {
  along: practice(12e-6, 'the material is not in the table'),
  across: practice(12e-6, 'the material is not in the table'),
}
