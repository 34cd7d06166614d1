/** Makers of a `Property`, one for each degree of confidence, so that tables of data stay readable. */
import type { Property } from './material.ts'

/** Read in the named source. */
export const read = (value: number, source: string): Property => ({ value, source, confidence: 'read' })

/** From the named source as remembered, not re-read. */
export const recalled = (value: number, source: string): Property => ({
  value,
  source: `${source}; recalled`,
  confidence: 'recalled',
})

/** Common practice or memory; `why` says how the value was chosen. */
export const practice = (value: number, why: string): Property => ({
  value,
  source: `common practice, no source: ${why}`,
  confidence: 'practice',
})

/** Computed by the method that `method` names. */
export const estimate = (value: number, method: string): Property => ({ value, source: method, confidence: 'estimate' })
