/** The one worker that nests, what goes into it, and the search that goes on while other pages are looked at. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { CanDesign } from '@finwright/core/assess/design.ts'
import { type NestRoll, nestInput } from '@finwright/core/assess/nest-section.ts'
import type { KeptPlacement } from '@finwright/core/nest/kept.ts'
import type { NestInput } from '@finwright/core/nest/nest.ts'
import type { NestedRoll } from '@finwright/core/nest/piece.ts'
import { proxy, type Remote, wrap } from 'comlink'
import { cell } from '../../state/store.ts'
import type { NestWork, SearchTold } from './nest.worker.ts'

let started: Remote<NestWork> | null = null

export const nestWork = (): Remote<NestWork> => {
  started ??= wrap<NestWork>(new Worker(new URL('./nest.worker.ts', import.meta.url), { type: 'module', name: 'nest' }))
  return started
}

export function inputOf({ pattern }: Assessment, design: CanDesign): NestInput {
  const radians = (degrees: number): number => (degrees * Math.PI) / 180
  return nestInput(
    design,
    pattern.pieces.map((piece) => ({ ...piece, outline: piece.outline_m, angle: radians(piece.angle_deg) })),
  )
}

/** Of one cloth alone. */
export const ofCloth = ({ pieces, rolls, gap }: NestInput, cloth: string): NestInput => ({
  pieces: pieces.filter((piece) => piece.cloth.id === cloth),
  rolls: rolls.filter((roll) => roll.cloth.id === cloth),
  gap,
})

export const nestedRoll = (roll: NestRoll): NestedRoll => ({
  ...{ roll: roll.roll, cloth: roll.cloth, clothName: roll.clothName, width: roll.width_m, selvedge: roll.selvedge_m },
  ...{ availableLength: roll.availableLength_m, usedLength: roll.usedLength_m, density: roll.density },
  waste: roll.waste_m2,
  placements: roll.placements.map(({ piece, x_m, y_m, rotation_deg }) => ({
    ...{ piece, x: x_m, y: y_m, rotation: (rotation_deg * Math.PI) / 180 },
  })),
})

export const placementsIn = (rolls: readonly NestRoll[]): KeptPlacement[] =>
  rolls.flatMap((roll) => nestedRoll(roll).placements.map((at) => ({ ...at, roll: roll.roll })))

export type Searching =
  | { readonly kind: 'rests'; readonly said: string }
  | { readonly kind: 'looks'; readonly told: SearchTold | null; readonly take: boolean }

const state = cell<Searching>({ kind: 'rests', said: '' })
export const searching = { get: state.get, watch: state.watch }

export interface SearchAsked {
  readonly input: NestInput
  readonly budget: number
  /** Share of cloth saved that is good enough; null looks on. */
  readonly saved: number | null
  /** Of cloth that the nest shown takes, m²: it stays unless less is found. */
  readonly shownArea: number
  /** Whether the plan is still the one that the search was for. */
  readonly stands: () => boolean
  readonly keep: (placements: readonly KeptPlacement[]) => boolean
}

export async function search({ input, budget, saved, shownArea, stands, keep }: SearchAsked): Promise<void> {
  if (state.get().kind === 'looks') return
  state.set({ kind: 'looks', told: null, take: true })
  try {
    const found = await nestWork().search(
      input,
      { budget, saved },
      proxy((told: SearchTold) => {
        const now = state.get()
        if (now.kind === 'looks') state.set({ ...now, told })
      }),
    )
    const now = state.get()
    const { startArea, usedArea } = found.told
    const gain = 1 - usedArea / startArea
    if (now.kind === 'looks' && !now.take) rest('Cancelled. The nest is as it was.')
    else if (!stands()) rest('The plan changed meanwhile: what was found is for other pieces and was put aside.')
    else if (!(usedArea < shownArea * (1 - leastGain))) rest('Nothing better was found. The nest is as it was.')
    else if (keep(found.placements))
      rest(
        `Kept in the plan: ${(100 * gain).toFixed(1)} % less cloth than filling alone. Undo brings the old nest back.`,
      )
    else rest('The plan did not take it.')
  } catch (error) {
    rest(`The search ended early: ${error instanceof Error ? error.message : String(error)}`)
  }
}

/** A smaller share less is what writing places to a micrometre may cost. */
const leastGain = 1e-5

/** With `take` the best so far is kept; without it nothing changes. */
export function endSearch(take: boolean): void {
  const now = state.get()
  if (now.kind !== 'looks') return
  state.set({ ...now, take })
  void nestWork().stop()
}

const rest = (said: string): void => state.set({ kind: 'rests', said })
