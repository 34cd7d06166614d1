/**
 * Why a number is what it is: the formula as the code evaluates it, what went in and where that was typed, the published source, how
 * uncertain it is and where it stops being valid. Texts are fixed; figures in them are the assessment's own.
 */
import type { Assessment, SourceNote } from '@finwright/core/assess/assessment.ts'
import type { Figures } from '../layout/figures.ts'

export interface DerivationInput {
  readonly label: string
  /** As typed, or as computed; empty where only the place is meant. */
  readonly value: string
  /** The plan's field that it was typed in. */
  readonly field?: string
  /** The derivation of a computed input. */
  readonly why?: string
}

export interface Derivation {
  readonly title: string
  readonly value: string
  /** Lines of the formula, and what its letters are. */
  readonly formula: readonly string[]
  readonly inputs: readonly DerivationInput[]
  readonly sources: readonly SourceNote[]
  readonly uncertainty: readonly string[]
  readonly limits: readonly string[]
  /** The page of docs/methods that derives it in full. */
  readonly method: string
}

export interface DerivationContext {
  readonly assessment: Assessment
  readonly figures: Figures
  /** A field of the plan as an input, with what was typed or stands by default. */
  readonly field: (path: string) => DerivationInput
}

export type Derive = (context: DerivationContext) => Derivation

/** Sources of the assessment, by section and the beginning of what they are for. */
export const sourcesOf = (
  { sources }: Assessment,
  wanted: readonly (readonly [section: string, quantity: string])[],
): readonly SourceNote[] =>
  wanted.flatMap(([section, quantity]) =>
    sources.filter((note) => note.section === section && note.quantity.startsWith(quantity)),
  )

export const computed = (label: string, value: string, why?: string): DerivationInput =>
  why === undefined ? { label, value } : { label, value, why }
