/**
 * What changes the flutter margin most: the ratio at the instant where it is least, with one input changed at a time.
 *
 * The changes are of a size that a builder makes or a hand lay-up scatters by: common practice, no source. The instant, its air and the
 * resin's warmth stay those of the plan, but for the cure, whose other glass transition is taken.
 */
import type { FlutterSection } from './assessment.ts'
import type { CanDesign, PlyDesign } from './design.ts'
import type { Steps } from './steps.ts'

export type Driver = FlutterSection['drivers'][number]

export interface Variation {
  readonly input: string
  readonly change: string
  readonly design: CanDesign
  /** The cure that the plan does not have. */
  readonly otherCure: boolean
}

export interface DriverInput {
  readonly ratio: number
  /** Null where it cannot be computed. */
  readonly ratioOf: (variation: Variation) => number | null
}

/** Strongest first; changes of less than half a per cent are left out. */
export function* flutterDrivers(design: CanDesign, { ratio, ratioOf }: DriverInput): Steps<readonly Driver[]> {
  const found: Driver[] = []
  for (const variation of variations(design)) {
    const { input, change } = variation
    yield { parts: {}, next: `The margin with ${input} ${change}` }
    const speedRatio = ratioOf(variation)
    if (speedRatio !== null) found.push({ input, change, speedRatio })
  }
  return found
    .filter(({ speedRatio }) => Math.abs(speedRatio / ratio - 1) > 0.005)
    .sort((a, b) => Math.abs(b.speedRatio - ratio) - Math.abs(a.speedRatio - ratio))
}

function variations(design: CanDesign): readonly Variation[] {
  const { fins, tube, layup, mixing } = design
  const same = { otherCure: false }
  const thicker = oneMorePly(design)
  return [
    { ...same, input: 'core thickness', change: '+10 %', design: withCore(design, 1.1) },
    ...(thicker === null
      ? []
      : [{ ...same, input: 'plies', change: `one more like ${thicker.like} under it`, design: thicker.design }]),
    { ...same, input: 'cloth stiffness', change: '−10 %', design: withCloth(design, 0.9) },
    {
      ...{ ...same, input: 'resin left in the cloth', change: '+20 %' },
      design: { ...design, layup: { ...layup, resinPerCloth: 1.2 * layup.resinPerCloth } },
    },
    {
      ...{ ...same, input: 'tube wall', change: '+25 %' },
      design: { ...design, tube: { ...tube, wall: Math.min(1.25 * tube.wall, 0.9 * tube.outerRadius) } },
    },
    {
      ...{ ...same, input: 'fillet radius', change: '−20 %' },
      design: { ...design, fins: { ...fins, fillet: { ...fins.fillet, radius: 0.8 * fins.fillet.radius } } },
    },
    { input: 'cure', change: mixing.postCure ? 'no post-cure' : 'post-cured', design, otherCure: true },
  ]
}

/** Bevels keep their lands; a square edge is as thick as the core. */
function withCore(design: CanDesign, times: number): CanDesign {
  const { fins } = design
  const thickness = times * fins.core.thickness
  const edge = (name: 'leading' | 'tip' | 'trailing') =>
    fins.edges[name].kind === 'square' ? { ...fins.edges[name], land: thickness } : fins.edges[name]
  const edges = { leading: edge('leading'), tip: edge('tip'), trailing: edge('trailing') }
  return { ...design, fins: { ...fins, core: { ...fins.core, thickness }, edges } }
}

function withCloth(design: CanDesign, times: number): CanDesign {
  const scaled = (ply: PlyDesign): PlyDesign => {
    const { crimpFactor, fibre } = ply.cloth
    const softer = {
      ...fibre,
      E1: { ...fibre.E1, value: times * fibre.E1.value },
      E2: { ...fibre.E2, value: times * fibre.E2.value },
      G12: { ...fibre.G12, value: times * fibre.G12.value },
    }
    return { ...ply, cloth: { ...ply.cloth, crimpFactor, fibre: softer } }
  }
  return { ...design, plies: design.plies.map(scaled) }
}

/** The structural ply nearest the core, which is mostly the smallest, is left; the outermost is doubled. */
function oneMorePly(design: CanDesign): { readonly design: CanDesign; readonly like: string } | null {
  const at = design.plies.findLastIndex(({ role }) => role === 'structural')
  if (at < 0) return null
  const ply = design.plies[at]
  return { like: ply.id, design: { ...design, plies: design.plies.toSpliced(at, 0, { ...ply, id: `${ply.id} twin` }) } }
}
