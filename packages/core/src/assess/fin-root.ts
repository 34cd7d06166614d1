/** What holds the fin's root: joint and tube wall as springs, soft, likely and stiff; a clamp where the joint cannot be computed. */
import type { RootHold } from '../bond/joint/root-hold.ts'
import { type RootHoldInput, rootHold } from '../bond/joint/root-hold.ts'
import { rootLength } from '../geometry/fin-outline.ts'
import type { Issue } from '../issue.ts'
import type { CanDesign } from './design.ts'
import type { FinPlate } from './fin-plate.ts'
import type { Section } from './flown.ts'
import { rootSection } from './root-section.ts'

export interface FinRoot {
  readonly section: RootHoldInput
  /** Null where the joint cannot be computed: warnings say why. */
  readonly hold: RootHold | null
}

export function finRoot(design: CanDesign, plate: FinPlate): Section<FinRoot> {
  const section = rootSection(design, plate.at(rootLength(design.fins.outline) / 2, 0).plies)
  const made = rootHold(section)
  if (made.ok) return { value: { section, hold: made.value }, warnings: made.warnings }
  return { value: { section, hold: null }, warnings: [...made.issues, asClamped] }
}

const asClamped: Issue = {
  code: 'bond/root-as-clamped',
  path: 'structure.root',
  value: null,
  message:
    "How far the root gives cannot be computed for this joint; the fin is taken as clamped at the body's surface, without fillets.",
  hint: 'Mend what the other bond warnings name; until then ask for more margin, since root fixity alone moves the flutter speed by some 8 %.',
}
