/** Moves by hand: each begins where the piece lies and ends where it may lie; what came of it is entered in the plan as one nest. */
import type { Assessment } from '@finwright/core/assess/assessment.ts'
import type { NestRoll } from '@finwright/core/assess/nest-section.ts'
import type { NestedRoll } from '@finwright/core/nest/piece.ts'
import { useRef, useState } from 'react'
import { useCanDesign, useEnter, useTyped } from '../../state/use.ts'
import { keepNest } from './nest.commands.ts'
import { inputOf, nestedRoll, nestWork, ofCloth, placementsIn } from './nesting.ts'

interface Made {
  readonly of: NestRoll
  readonly roll: NestRoll
  /** The kept nest of the plan that it belongs to, as JSON. */
  readonly typed: string
}

interface Step {
  readonly x: number
  readonly y: number
  readonly quarters: number
}

export interface Hand {
  /** Away from where it took hold, m on the roll. */
  readonly to: (x: number, y: number) => void
  readonly end: () => void
}

export function useNudge(assessment: Assessment, given: NestRoll) {
  const design = useCanDesign()
  const enter = useEnter()
  const typed = JSON.stringify(useTyped(['stock', 'layout']) ?? null)
  // what the hand made of this very roll; a new answer takes its place, and so does an undo
  const [made, setMade] = useState<Made | null>(null)
  const [said, setSaid] = useState('')
  const roll = made !== null && made.of === given && made.typed === typed ? made.roll : given
  const latest = useRef(roll)
  latest.current = roll
  const typedNow = useRef(typed)
  typedNow.current = typed
  const line = useRef<Promise<unknown>>(Promise.resolve())

  async function nudged(piece: string, target: (at: { x: number; y: number }) => Step): Promise<boolean> {
    if (design === null) return false
    const from = nestedRoll(latest.current)
    const at = from.placements.find((one) => one.piece === piece)
    if (at === undefined) return false
    const input = ofCloth(inputOf(assessment, design), from.cloth)
    const key = `${numberOf(assessment.pattern)} ${JSON.stringify(input.rolls)} ${from.roll} ${input.pieces[0]?.cloth.weave === 'film' ? turns(from) : ''}`
    const result = await nestWork().nudge(key, input, from, { piece, ...target(at) })
    if (!result.ok) {
      setSaid(result.issues[0]!.message)
      return false
    }
    const { placement, reached } = result.value
    const moved = Math.hypot(placement.x - at.x, placement.y - at.y) > 1e-7 || placement.rotation !== at.rotation
    const next = withMoved(latest.current, result.value.roll)
    latest.current = next
    setMade({ of: given, roll: next, typed: typedNow.current })
    setSaid(moved ? `${piece} moved${reached ? '' : ', as far as there is room'}.` : `${piece} has no room there.`)
    return moved
  }

  const keep = (gesture: string): void => {
    const rolls = assessment.nest.rolls.map((one) => (one === given ? latest.current : one))
    const intent = keepNest(placementsIn(rolls))
    const entered = enter(intent, gesture)
    if (entered.ok) setMade({ of: given, roll: latest.current, typed: JSON.stringify(intent.payload.value) })
    else setSaid(entered.issues[0]?.message ?? 'The plan did not take it.')
  }

  return {
    roll,
    said,
    move: (piece: string, { x, y, quarters }: Step): void => {
      line.current = line.current.then(async () => {
        if (await nudged(piece, (at) => ({ x: at.x + x, y: at.y + y, quarters }))) keep(`nudge ${piece}`)
      })
    },
    drag: (piece: string): Hand => {
      const start = nestedRoll(latest.current).placements.find((one) => one.piece === piece)
      let newest: readonly [number, number] | null = null
      let changed = false
      const run = async (): Promise<void> => {
        if (newest === null || start === undefined) return
        const [x, y] = newest
        newest = null
        changed = (await nudged(piece, () => ({ x: start.x + x, y: start.y + y, quarters: 0 }))) || changed
      }
      return {
        to: (x, y) => {
          const waits = newest !== null
          newest = [x, y]
          if (!waits) line.current = line.current.then(run)
        },
        end: () => {
          line.current = line.current.then(() => {
            if (changed) keep(`drag ${piece} ${Date.now()}`)
          })
        },
      }
    },
  }
}

const numbers = new WeakMap<object, number>()
let count = 0
/** Tells one set of pieces from another. */
function numberOf(one: object): number {
  const known = numbers.get(one) ?? ++count
  numbers.set(one, known)
  return known
}

/** Film keeps the turns it lies at: another set of them is another set of shapes. */
const turns = ({ placements }: NestedRoll): string =>
  [...new Set(placements.map(({ rotation }) => rotation.toFixed(6)))].sort().join()

const withMoved = (roll: NestRoll, { usedLength, density, waste, placements }: NestedRoll): NestRoll => ({
  ...roll,
  ...{ usedLength_m: usedLength, density, waste_m2: waste, offcuts: [] },
  placements: placements.map(({ piece, x, y, rotation }) => ({
    ...{ piece, x_m: x, y_m: y, rotation_deg: (rotation * 180) / Math.PI },
  })),
})
