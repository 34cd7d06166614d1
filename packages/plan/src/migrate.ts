/**
 * Older plans brought to the present version, step by step: each step turns a plan of one version into the next, as plain
 * data. What a step does not know it leaves alone, so that the validator speaks of it.
 */
export const currentVersion = 1

type Plan = Readonly<Record<string, unknown>>

/** `steps[v]` takes a plan of version v to version v + 1. */
const steps: readonly ((plan: Plan) => Plan)[] = [fromDraft]

export function migrated(plan: Plan, version: number): Plan {
  return steps.slice(version).reduce((older, step) => step(older), plan)
}

/**
 * Version 0, the draft: the trapezoid stood in `fins` itself, `fabric` was the cloth, a single `step` was meant for the
 * tip, and the mix was one text such as `100:28.4 by mass`.
 */
function fromDraft(plan: Plan): Plan {
  const { fins, plies, resin, ...rest } = plan
  return {
    ...rest,
    ...(isObject(fins) ? { fins: draftFins(fins) } : { ...(fins === undefined ? {} : { fins }) }),
    ...(Array.isArray(plies) ? { plies: plies.map(draftPly) } : { ...(plies === undefined ? {} : { plies }) }),
    ...(isObject(resin) ? { resin: draftResin(resin) } : { ...(resin === undefined ? {} : { resin }) }),
    version: 1,
  }
}

function draftFins({ rootChord, tipChord, span, sweep, ...fins }: Plan): Plan {
  if (rootChord === undefined) return fins
  return { ...fins, outline: { kind: 'trapezoid', root: rootChord, tip: tipChord, span, tipOffset: sweep } }
}

function draftPly(ply: unknown): unknown {
  if (!isObject(ply)) return ply
  const { fabric, step, ...rest } = ply
  return {
    ...(fabric === undefined ? {} : { cloth: fabric }),
    ...rest,
    ...(step === undefined ? {} : { stepBack: { tip: step } }),
  }
}

function draftResin({ mix, ...resin }: Plan): Plan {
  const match = typeof mix === 'string' ? /^(.+?) by (mass|volume)$/.exec(mix) : null
  if (match === null) return mix === undefined ? resin : { ...resin, mix }
  return { ...resin, ratio: { by: match[2], value: match[1] } }
}

const isObject = (value: unknown): value is Plan => typeof value === 'object' && value !== null && !Array.isArray(value)
