/**
 * Flutter of the fin as its can holds it, softened by the heat of the flight, against the conservative envelope.
 *
 * Of the ways in which the root may be held (soft, likely, stiff) the one with the least ratio at the greatest dynamic pressure is
 * used, cold; the others stand beside the answer at the instant where it is least.
 */
import type { AirPoint } from '../flutter/air-points.ts'
import { pointAt } from '../flutter/air-points.ts'
import { envelopeBoundary } from '../flutter/envelope-boundary.ts'
import { type ModalSystem, ownModes, softeningFactors, softeningModes } from '../flutter/modal-system.ts'
import type { PlateModel } from '../plate/assemble.ts'
import { modeNamer } from '../plate/mode-kind.ts'
import { plateModes } from '../plate/modes.ts'
import type { NodalField } from '../plate/nodal-field.ts'
import { quadraticMesh } from '../plate/quadratic-mesh.ts'
import { neighbourModes, type ShapedModes } from '../plate/ritz.ts'
import type { FlutterSection } from './assessment.ts'
import type { CanDesign } from './design.ts'
import { type EnvelopeAnswer, envelopeAnswer } from './envelope-section.ts'
import type { KeptAir } from './fin-air.ts'
import { type FinPlate, finPlate } from './fin-plate.ts'
import { type FinRoot, finRoot } from './fin-root.ts'
import type { Flown } from './flown.ts'
import { flutterDrivers } from './flutter-drivers.ts'
import { flutterModes, type HeldFins, type Hold, heldFins } from './held-fin.ts'
import { curedPlies } from './skins.ts'
import type { Steps } from './steps.ts'
import { finEnvelope } from './surface-methods.ts'

export interface FinFlutterInput {
  readonly plate: FinPlate
  readonly root: FinRoot
  readonly fins: HeldFins
  readonly air: KeptAir
  readonly flight: Flown
  /** What is left of the resin's modulus at a time of the flight: the cure in force, and the other one. */
  readonly resinFactor: (time: number) => number
  readonly otherResinFactor: (time: number) => number
}

export interface FinFlutter {
  readonly answer: EnvelopeAnswer
  readonly hold: Hold
}

export function* finFlutter(design: CanDesign, input: FinFlutterInput): Steps<FinFlutter> {
  const hold = yield* worstHold(design, input)
  yield { parts: {}, next: 'Flutter along the flight' }
  const { modes, shapes, namer } = softening(input, hold)
  const answer = envelopeAnswer({
    envelope: envelopeOn(input, shapes).envelope,
    modes,
    structuralDamping: design.loads.structuralDamping,
    requiredRatio: design.loads.speedRatio,
    flight: input.flight,
    nameOf: (system, mode) => namer(shapeOf(system, shapes, mode)),
  })
  return { answer, hold }
}

const envelopeOn = ({ plate, air }: Pick<FinFlutterInput, 'plate' | 'air'>, shapes: readonly NodalField[]) =>
  finEnvelope(
    {
      nodes: quadraticMesh(plate.mesh),
      shapes: shapes.map(({ w }) => w),
      thicknessAt: (x, y) => plate.at(x, y).laminate.h,
    },
    { air },
  )

/** Below this loss the fin counts as cold throughout. */
const hardlySoft = 0.98

function softening({ fins, flight, resinFactor }: FinFlutterInput, hold: Hold) {
  const { model: coldModel } = fins.fin(hold)
  const cold = fins.modes(hold)
  const namer = named(coldModel)
  const least = flight.history === null ? 1 : Math.min(...flight.history.time.map(resinFactor))
  if (least > hardlySoft) return { modes: ownModes(cold.omega), shapes: cold.shapes, namer }
  const states = softeningFactors(least).map((f) => ({ f, model: fins.fin(hold, f).model }))
  const soft = softeningModes({ states, cold })
  const modes = ({ time }: AirPoint): ModalSystem => soft.at(time === null ? 1 : resinFactor(time))
  return { modes, shapes: soft.shapes, namer }
}

const named = (model: PlateModel) => {
  const namer = modeNamer(model)
  const known = new WeakMap<NodalField, string>()
  return (shape: NodalField): string => {
    const name = known.get(shape) ?? namer(shape).name
    known.set(shape, name)
    return name
  }
}

/** A mode of a system as a field of the plate; only the deflection is combined, which is all that a name needs. */
function shapeOf({ transform, omegas }: ModalSystem, shapes: readonly NodalField[], mode: number): NodalField {
  if (transform === null) return shapes[mode]
  const n = omegas.length
  const w = new Float64Array(shapes[0].w.length)
  shapes.forEach((shape, i) => {
    const share = transform[i * n + mode]
    for (let node = 0; node < w.length; node++) w[node] += share * shape.w[node]
  })
  return { ...shapes[0], w }
}

/** Greatest dynamic pressure of a flight, or the state that has it. */
function probePoint({ history, states }: Flown): AirPoint | null {
  if (history !== null) return pointAt(history, history.maximumDynamicPressure.time)
  const pressure = ({ mach, density, soundSpeed }: (typeof states)[number]): number =>
    density * (mach * soundSpeed) ** 2
  const worst = states.reduce<(typeof states)[number] | null>(
    (a, b) => (a !== null && pressure(a) > pressure(b) ? a : b),
    null,
  )
  return worst === null ? null : { ...worst, speed: worst.mach * worst.soundSpeed, time: null, altitude: null }
}

function* worstHold(design: CanDesign, input: FinFlutterInput): Steps<Hold> {
  const probe = probePoint(input.flight)
  if (input.root.hold === null || probe === null) return input.root.hold === null ? 'clamped' : 'likely'
  let worst: { readonly hold: Hold; readonly ratio: number } | null = null
  for (const hold of ['likely', 'soft', 'stiff'] as const) {
    yield { parts: {}, next: `Flutter with the ${words[hold]}` }
    const found = ratioAt(design, input, { modes: input.fins.nearModes(hold), point: probe })
    const ratio = found ?? Number.POSITIVE_INFINITY
    if (worst === null || ratio < worst.ratio) worst = { hold, ratio }
  }
  return worst?.hold ?? 'likely'
}

interface OneCase {
  readonly modes: ShapedModes
  readonly point: AirPoint
}

/** The envelope's ratio at one point with one structure; null where not determined. */
function ratioAt(
  design: CanDesign,
  input: Pick<FinFlutterInput, 'plate' | 'air'>,
  { modes, point }: OneCase,
): number | null {
  const { envelope } = envelopeOn(input, modes.shapes)
  const { structuralDamping } = design.loads
  const found = envelopeBoundary({ envelope, points: [point], modes: ownModes(modes.omega), structuralDamping })
  return found.margin.determined?.speedRatio ?? null
}

export type FlutterAsides = Pick<FlutterSection, 'beside' | 'drivers'>

/** What stands beside the answer: the same instant under other assumptions, and what changes the margin most. */
export function* flutterAsides(
  design: CanDesign,
  input: FinFlutterInput,
  { answer, hold }: FinFlutter,
): Steps<FlutterAsides> {
  const { least } = answer
  if (least === null) return { beside: [], drivers: [] }
  const point = least.at
  const resin = point.time === null ? 1 : input.resinFactor(point.time)
  const beside: FlutterSection['beside'][number][] = []
  for (const { assumption, hold: other, resin: warm } of cases(input, hold, resin)) {
    yield { parts: {}, next: `The margin with the ${assumption}` }
    const speedRatio = ratioAt(design, input, { modes: input.fins.nearModes(other, warm), point })
    beside.push({ assumption, speedRatio })
  }
  const drivers = yield* flutterDrivers(design, {
    ratio: least.ratio,
    ratioOf: ({ design: changed, otherCure }) => {
      const plate = finPlate(changed, curedPlies(changed), { opposite: input.plate.opposite })
      const root = finRoot(changed, plate).value
      const fins = heldFins(changed, plate, root)
      const warm = otherCure && point.time !== null ? input.otherResinFactor(point.time) : resin
      const { model } = fins.fin(root.hold === null ? 'clamped' : hold, warm)
      return ratioAt(changed, { plate, air: input.air }, { modes: modesNear(input.fins, hold, model), point })
    },
  })
  return { beside, drivers }
}

/** Of a changed fin: from the modes of the plan's own where both have the same unknowns. */
function modesNear(fins: HeldFins, hold: Hold, model: PlateModel): ShapedModes {
  const known = fins.fin(hold).model
  const alike = known.layout.unknown === model.layout.unknown
  return alike ? neighbourModes({ model: known, modes: fins.modes(hold) }, model, 2) : plateModes(model, flutterModes)
}

const words: { readonly [hold in Hold]: string } = {
  soft: 'root held softly',
  likely: 'root held as is likely',
  stiff: 'root held stiffly',
  clamped: 'root clamped, no fillets',
}

function cases({ root }: FinFlutterInput, hold: Hold, resin: number) {
  const holds = (['soft', 'likely', 'stiff', 'clamped'] as const).filter(
    (each) => root.hold !== null || each === 'clamped',
  )
  const others = holds.filter((each) => each !== hold).map((each) => ({ assumption: words[each], hold: each, resin }))
  return resin > hardlySoft ? others : [{ assumption: `cold resin, ${words[hold]}`, hold, resin: 1 }, ...others]
}

export const holdInWords = (hold: Hold): string => words[hold]
