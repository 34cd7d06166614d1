/**
 * A study assessed: a bare plate in an air stream. Textbook and wind-tunnel cases run through the same code as a fin.
 *
 * The local chord of a plate whose thickness varies is measured along the flow, from the outline's first crossing to its last.
 */

import { requiredSpeedRatio } from '../flutter/boundary.ts'
import { ownModes } from '../flutter/modal-system.ts'
import { meshOutline } from '../geometry/outline-mesh.ts'
import { area as polygonArea } from '../geometry/polygon.ts'
import type { Checked, Issue } from '../issue.ts'
import { type Laminate, laminate } from '../laminate/laminate.ts'
import { sheetLayer } from '../laminate/layer.ts'
import { assemblePlate, type PlateModel } from '../plate/assemble.ts'
import { recommendedMeshSize } from '../plate/mesh-size.ts'
import { modeNamer } from '../plate/mode-kind.ts'
import { plateModes } from '../plate/modes.ts'
import type { PlateSection, SectionPoint } from '../plate/section.ts'
import type { Assessment, FinSection, FlutterSection } from './assessment.ts'
import type { StudyDesign } from './design.ts'
import { envelopeAnswer } from './envelope-section.ts'
import { keptAir } from './fin-air.ts'
import { plateSection } from './fin-plate.ts'
import { matrixRows } from './fin-section.ts'
import { type Flown, type Section, statesOnly } from './flown.ts'
import { airPoints, panelFlutter } from './flutter-section.ts'
import { methodSources } from './method-sources.data.ts'
import { notComputed } from './not-computed.ts'
import { structureSection } from './structure-section.ts'
import { type StudyFin, studyFin } from './study-fin.ts'
import { studyThickness } from './study-thickness.ts'
import { finEnvelope, type OnModes, type Stream } from './surface-methods.ts'

export function assessStudy(design: StudyDesign): Checked<Assessment> {
  const { outline, supports, air, pointLoad } = design
  const laminateAt = laminateReader(design)
  const sectionAt = ({ x, y }: SectionPoint): PlateSection => plateSection(laminateAt(x, y))
  const model = assemblePlate({
    mesh: meshOutline({ outline, size: recommendedMeshSize(outline) }),
    supports,
    sectionAt,
  })
  const modes = plateModes(model, design.modeCount)
  const load = pointLoad === null ? null : { ...pointLoad, rootSegment: supports.indexOf('clamped') }
  const structure = structureSection({ model, modes, load, outline, sectionAt })
  const flutter = studyFlutter(design, { model, modes, laminateAt })
  const warnings = [...structure.warnings, ...flutter.warnings, ...notComputed.studyHasNoCan]
  const value: Assessment = {
    format: 'finwright/assessment',
    version: 1,
    kind: 'study',
    name: design.name,
    note: design.note,
    flight: statesOnly(air?.states ?? []),
    fin: platePart(design, model, laminateAt),
    structure: structure.value,
    flutter: flutter.value,
    ...notComputed.noCan,
    sources: methodSources.filter(({ section }) => ['fin', 'structure', 'flutter'].includes(section)),
    warnings,
  }
  return { ok: true, value, warnings }
}

type LaminateAt = (x: number, y: number) => Laminate

/** Thickness is taken to the nearest of so many steps of the greatest. */
const thicknessSteps = 500

function laminateReader({ plate, outline, air }: StudyDesign): LaminateAt {
  if (plate.kind === 'laminate') {
    const whole = laminate(
      plate.plies.map(({ material, angle, thickness }, i) =>
        sheetLayer(material, { theta: angle, t: thickness, name: `layer ${i + 1}` }),
      ),
    )
    return () => whole
  }
  const { at, greatest } = studyThickness(plate.thickness, { outline, flowDirection: air?.flowDirection ?? 0 })
  const step = greatest / thicknessSteps
  const known = new Map<number, Laminate>()
  return (x, y) => {
    const steps = Math.max(1, Math.round(at(x, y) / step))
    const found = known.get(steps)
    if (found !== undefined) return found
    const made = laminate([sheetLayer(plate.material, { theta: plate.axis, t: steps * step, name: 'plate' })])
    known.set(steps, made)
    return made
  }
}

function platePart({ outline }: StudyDesign, model: PlateModel, laminateAt: LaminateAt): FinSection {
  const [x, y] = [0, 1].map((k) => outline.reduce((sum, point) => sum + point[k], 0) / outline.length)
  const { h, A, B, D, inertia, layers } = laminateAt(x, y)
  return {
    area_m2: polygonArea(outline),
    mass_kg: model.mass,
    thickness_m: { root: h, tip: h },
    laminates: [
      {
        region: 'middle of the plate',
        plies: layers.length,
        thickness_m: h,
        bendingStiffness_Nm: matrixRows(D),
        couplingStiffness_N: matrixRows(B),
        extensionalStiffness_N_m: matrixRows(A),
        arealMass_kg_m2: inertia.m0,
      },
    ],
    plies: [],
  }
}

const noFlutter: FlutterSection = {
  boundary: [],
  divergence: [],
  margin: {
    speedRatio: null,
    verdict: 'not determined',
    at: null,
    requiredRatio: requiredSpeedRatio,
    kind: null,
    mode: null,
  },
  beside: [],
  drivers: [],
  history: null,
  curves: null,
  covers: null,
  screening: null,
}

interface Solved {
  readonly model: PlateModel
  readonly modes: ReturnType<typeof plateModes>
  readonly laminateAt: LaminateAt
}

function studyFlutter(design: StudyDesign, { model, modes, laminateAt }: Solved) {
  const { air, imposedFrequencies, structuralDamping } = design
  if (air === null) return { value: noFlutter, warnings: [] }
  const imposed = imposedFrequencies?.map((f) => 2 * Math.PI * f)
  const omegas = imposed ?? modes.omega
  const stream: Stream = { ...air, order: air.pistonOrder }
  const onModes = {
    nodes: model.layout.nodes,
    shapes: modes.shapes.slice(0, omegas.length).map(({ w }) => w),
    thicknessAt: (x: number, y: number) => laminateAt(x, y).h,
  }
  const flight = { history: null, states: air.states }
  const fin = studyFin(design)
  const result =
    fin === null
      ? panelFlutter({ modes: onModes, omegas, structuralDamping, points: airPoints(flight), stream })
      : finInStream({ fin, onModes, omegas, stream, flight, structuralDamping, namer: modeNamer(model), modes })
  const warnings = imposed === undefined ? result.warnings : [imposedWarning(imposed.length), ...result.warnings]
  return { value: result.value, warnings }
}

interface InStream {
  readonly fin: StudyFin
  readonly onModes: OnModes
  readonly omegas: readonly number[]
  readonly stream: Stream
  readonly flight: Flown
  readonly structuralDamping: number
  readonly namer: ReturnType<typeof modeNamer>
  readonly modes: ReturnType<typeof plateModes>
}

/** More than a fin in a builder's hand has: a study is compared with a test, and may take its time. */
const studyBoxes = 240

function finInStream(input: InStream): Section<FlutterSection> {
  const { fin, onModes, omegas, stream, flight, structuralDamping, namer, modes } = input
  const { value, warnings } = envelopeAnswer({
    envelope: finEnvelope(onModes, { air: keptAir(fin.outline, studyBoxes), axes: fin.axes }, stream).envelope,
    modes: ownModes(omegas),
    ...{ structuralDamping, requiredRatio: requiredSpeedRatio, flight },
    nameOf: (_, mode) => namer(modes.shapes[mode]).name,
  })
  return { value: { ...value, beside: [], drivers: [], screening: null }, warnings }
}

const imposedWarning = (count: number): Issue => ({
  code: 'study/frequencies-imposed',
  path: 'structure.modes',
  value: count,
  message: `Flutter is computed with the ${count} frequencies that the plan imposes, on the computed mode shapes; the modes listed are the computed ones.`,
  hint: 'Leave imposedFrequencies out to compute flutter with the plate as it is modelled.',
})
