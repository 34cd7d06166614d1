/** Nests off the main thread: the long search, which hears between its rounds that it is to stop, and the nudge. */
import type { Checked } from '@finwright/core/issue.ts'
import { piecesAsLaid } from '@finwright/core/nest/free-turn.ts'
import { type KeptPlacement, placementsOf } from '@finwright/core/nest/kept.ts'
import type { NestInput } from '@finwright/core/nest/nest.ts'
import { type Nudge, type Nudged, nudger } from '@finwright/core/nest/nudge.ts'
import type { NestedRoll } from '@finwright/core/nest/piece.ts'
import { searchNestInTurns } from '@finwright/core/nest/search-nest.ts'
import { expose } from 'comlink'

export interface SearchTold {
  /** Share of the effort spent. */
  readonly spent: number
  /** Of cloth, width times length, m²; now, and of the nest that the search began with. */
  readonly usedArea: number
  readonly startArea: number
  /** Of cloth to be bought, m. */
  readonly buyLength: number
}

let stopping = { aborted: false }
let hold: { readonly key: string; readonly move: ReturnType<typeof nudger> } | null = null

const work = {
  /** Stops at a share of `saved` of the start's cloth, when told, or when the budget is spent; the best so far is the result. */
  async search(
    input: NestInput,
    { budget, saved }: { readonly budget: number; readonly saved: number | null },
    told: (progress: SearchTold) => void,
  ): Promise<{ readonly placements: readonly KeptPlacement[]; readonly told: SearchTold }> {
    const own = { aborted: false }
    stopping = own
    let latest: SearchTold | null = null
    let heard = 0
    const nest = await searchNestInTurns(
      input,
      { budget },
      {
        signal: own,
        pause: breath,
        shouldStop: () => saved !== null && latest !== null && latest.usedArea <= (1 - saved) * latest.startArea,
        onRound: ({ spent, usedArea, buyLength, better }) => {
          latest = { spent, usedArea, buyLength, startArea: latest?.startArea ?? usedArea }
          if (!better && performance.now() - heard < 100) return
          heard = performance.now()
          told(latest)
        },
      },
    )
    if (!nest.ok) throw new Error(nest.issues[0]!.message)
    return { placements: placementsOf(nest.value.rolls), told: latest! }
  },
  stop(): void {
    stopping.aborted = true
  },
  /** Moves a piece as far as it may go. Made once for all moves of a cloth: `key` tells one set of pieces from another. */
  nudge(key: string, input: NestInput, roll: NestedRoll, nudge: Nudge): Checked<Nudged> {
    if (hold?.key !== key)
      hold = { key, move: nudger({ ...input, pieces: piecesAsLaid(input.pieces, [roll]), stock: input.rolls }) }
    return hold.move(roll, nudge)
  },
}

export type NestWork = typeof work

/** Lets messages in. */
const breath = (): Promise<void> => new Promise((done) => setTimeout(done))

expose(work)
