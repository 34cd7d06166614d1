/** Every number that can be asked why, by name. */
import type { Derivation, DerivationContext, Derive } from './derivation.ts'
import { flightDerivations } from './flight.ts'
import { holdDerivations } from './hold.ts'
import { mixDerivations } from './mix.ts'

const derivations: Readonly<Record<string, Derive>> = { ...flightDerivations, ...holdDerivations, ...mixDerivations }

export const derivationNames: readonly string[] = Object.keys(derivations)

/** Null where there is none of that name. */
export function derivationOf(name: string, context: DerivationContext): Derivation | null {
  return Object.hasOwn(derivations, name) ? derivations[name]!(context) : null
}
