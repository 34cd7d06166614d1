/**
 * The patterns of a fin can: section, one shape a ply, every piece, what covers what, and which rules the schedule breaks.
 *
 * Each ply is developed at its own mid-surface: the thickness of all earlier plies and half its own out from the bare
 * surface, one value a ply, as if every earlier ply lay under it everywhere.
 */

import type { BaySection } from '../bond/section.ts'
import { rootLength } from '../geometry/fin-outline.ts'
import { area, type Bounds, bounds, type Polygon } from '../geometry/polygon.ts'
import { shiftedOutline } from '../geometry/polygon-shift.ts'
import type { Checked, Issue } from '../issue.ts'
import { type BareBay, bareBay } from './bare-bay.ts'
import { type BayGeometry, bayGeometry } from './bay-geometry.ts'
import { type Cover, plyCovers } from './covers.ts'
import { inputIssues, noOutlineIssue, splitIssue, tightFilletIssue, tightFilletRule } from './faults.ts'
import { type LabelPlace, labelPlace } from './label.ts'
import { landingMarks } from './landing.ts'
import { type PlyMark, plyMarks } from './marks.ts'
import { type Ends, type PlyOutlines, plyOutlines } from './outlines.ts'
import { type Piece, piecesOf } from './pieces.ts'
import { brokenRules } from './rules.ts'
import { patchRules } from './rules-patch.ts'
import {
  buildUps,
  comesOff,
  type PatternInput,
  type PlyCoverKind,
  type PlyRole,
  type ScheduledPly,
} from './schedule.ts'
import { isBias, widthKept } from './trellis.ts'
import { type TubeLines, tubeLines } from './tube-lines.ts'

/** The section at the root's forward end, for drawing; lengths in m, angles in rad. */
export interface SectionShape {
  readonly tubeRadius: number
  readonly coreThickness: number
  readonly finCount: number
  readonly span: number
  readonly rootLength: number
  readonly filletRadius: number
  readonly filletHeight: number
  readonly filletArc: number
  /** Between the fin's mid-plane and the fillet's foot on the body, seen from the axis. */
  readonly filletFoot: number
  readonly width: number
  readonly aftTubeRadius: number
  readonly aftFilletRadius: number
  readonly cant: number
  readonly stations: BaySection['stations']
}

/** One ply's piece, the same in every bay. Bay axes, seen from outside, counter-clockwise. */
export interface PlyShape {
  readonly ply: string
  /** From 1 at the core outward, of `of`. */
  readonly sequence: number
  readonly of: number
  readonly role: PlyRole
  readonly cloth: string
  readonly clothName: string
  readonly angle: number
  /** The cut line. */
  readonly outline: Polygon
  readonly netOutline: Polygon
  readonly cover: PlyCoverKind
  /** Of the net line on the body, X. */
  readonly bodyEnds: Ends
  readonly area: number
  readonly netArea: number
  /** Across the bay: at the net line and as cut. */
  readonly width: number
  readonly cutWidth: number
  /** Along the body: at the net line and as cut. */
  readonly length: number
  readonly cutLength: number
  /** Distance of the ply's mid-surface from the bare surface. */
  readonly buildUp: number
  /** Part of the cut width that allows for shear. */
  readonly biasAllowance: number
  /** Dry, as cut. */
  readonly mass: number
  readonly marks: readonly PlyMark[]
  readonly label: LabelPlace
}

export interface Patterns {
  readonly section: SectionShape
  readonly shapes: readonly PlyShape[]
  readonly pieces: readonly Piece[]
  readonly covers: readonly Cover[]
  /** Rules the schedule breaks. */
  readonly rules: readonly Issue[]
  readonly geometry: BayGeometry
  readonly bay: BareBay
  /** What marks out the bare body. */
  readonly tube: TubeLines
}

/** The patterns, or every reason why they cannot be made. */
export function patterns(input: PatternInput): Checked<Patterns> {
  const refused = inputIssues(input)
  if (refused.length > 0) return { ok: false, issues: refused }
  const { fins, plies, layup, cans } = input
  const geometry = bayGeometry(input)
  if (!geometry.ok) return geometry
  const { section, leastRadius, mapAt } = geometry.value
  const drafted = plies.map((ply, index) => drafts(input, geometry.value, ply, index))
  const issues = drafted.flatMap((draft) => ('issues' in draft ? draft.issues : []))
  if (issues.length > 0) return { ok: false, issues }
  const made = drafted.flatMap((draft) => ('issues' in draft ? [] : [draft]))
  const shapes = made.map((draft) => shapeOf(input, draft, made))
  const value: Patterns = {
    section: sectionShape(section, input),
    shapes,
    pieces: piecesOf({ shapes, bays: fins.count, cans, mirrored: layup.mirrorAlternateBays }),
    covers: plyCovers(plies).filter(({ ply }) => plies.some(({ id, cover }) => id === ply && cover === 'bay')),
    rules: [
      ...brokenRules({
        plies,
        layup,
        fins,
        filletTop: mapAt(0).greatestTop,
        reach: plies.map((ply) => faceReach(input, ply)),
      }),
      ...tightFilletRule(plies, leastRadius),
      ...patchRules(plies),
    ],
    geometry: geometry.value,
    bay: bareBay({ geometry: geometry.value, outline: fins.outline, reach: reachOf(shapes) }),
    tube: tubeLines({ geometry: geometry.value, shapes, input }),
  }
  return { ok: true, value, warnings: [] }
}

/** A little beyond all that the plies cover along the body. */
const reachOf = (shapes: readonly PlyShape[]): Ends => ({
  forward: Math.min(...shapes.map(({ netOutline }) => bounds(netOutline).left)) - 6e-3,
  aft: Math.max(...shapes.map(({ netOutline }) => bounds(netOutline).right)) + 6e-3,
})

interface Draft {
  readonly ply: ScheduledPly
  readonly index: number
  readonly geometry: BayGeometry
  readonly z: number
  readonly outlines: PlyOutlines
}

function drafts(
  input: PatternInput,
  geometry: BayGeometry,
  ply: ScheduledPly,
  index: number,
): Draft | { readonly issues: readonly Issue[] } {
  const { fins, plies, layup } = input
  const z = buildUps(plies)[index]!
  if (!(geometry.leastRadius - z > 0)) return { issues: [tightFilletIssue(ply, index, { r: geometry.leastRadius, z })] }
  const outlines = plyOutlines({ ...outlineInput(input, geometry, z), ply, biasShear: layup.biasShear })
  if ('none' in outlines) return { issues: [noOutlineIssue(ply, index, outlines.none, { fins, layup })] }
  if (outlines.lost > 0) return { issues: [splitIssue(ply, index, outlines.lost)] }
  return { ply, index, geometry, z, outlines }
}

function outlineInput({ tube, fins, layup }: PatternInput, { mapAt }: BayGeometry, z: number) {
  return {
    outline: fins.outline,
    edges: fins.edges,
    coreThickness: fins.core.thickness,
    map: mapAt(z),
    z,
    overrun: overrunOnCan(tube, layup.overrun),
  }
}

/** The lay-up ends where the can does, if that is sooner. */
const overrunOnCan = ({ ahead, behind }: PatternInput['tube'], { forward, aft }: Ends): Ends => ({
  forward: Math.min(forward, ahead ?? forward),
  aft: Math.min(aft, behind ?? aft),
})

function shapeOf(input: PatternInput, draft: Draft, all: readonly Draft[]): PlyShape {
  const { ply, index, z, outlines, geometry } = draft
  const { net, cut } = outlines
  const map = geometry.mapAt(z)
  const label = labelPlace(net, cut, labelLine(ply, map.inFillet(1, bounds(net).left, 0)[1], bounds(net)))
  const netBounds = bounds(net)
  const cutBounds = bounds(cut)
  const cutWidth = cutBounds.top - cutBounds.bottom
  const outlineArea = area(cut)
  const { x0, x1, R, R1 } = geometry.shape
  const root = { forward: x0, aft: x1 }
  const bareRadius = (a: number): number => R - ((R - R1) * (a - x0)) / (x1 - x0)
  return {
    ply: ply.id,
    sequence: index + 1,
    of: input.plies.length,
    role: ply.role,
    cloth: ply.cloth.id,
    clothName: ply.cloth.name,
    angle: ply.angle,
    outline: cut,
    netOutline: net,
    cover: ply.cover,
    bodyEnds: outlines.bodyEnds,
    area: outlineArea,
    netArea: area(net),
    width: netBounds.top - netBounds.bottom,
    cutWidth,
    length: netBounds.right - netBounds.left,
    cutLength: cutBounds.right - cutBounds.left,
    buildUp: z,
    biasAllowance: cutWidth * (1 - widthKept(ply.angle, input.layup.biasShear)),
    mass: ply.dryArealMass * outlineArea,
    marks: [
      ...plyMarks({
        outline: input.fins.outline,
        edges: input.fins.edges,
        coreThickness: input.fins.core.thickness,
        map,
        z,
        ply,
        outlines,
        neighbours: neighboursOf(input, draft, all),
        angle: ply.angle,
        bias: isBias(ply.angle),
        label,
      }),
      ...landingMarks({ cover: ply.cover, bodyEnds: outlines.bodyEnds, root, radius: bareRadius }, map),
    ],
    label,
  }
}

/** Where a label stands across the bay: on its middle, on a patch in the middle of the patch's face. */
function labelLine({ cover }: ScheduledPly, top: number, { top: tip, bottom }: Bounds): number {
  if (cover === 'bay') return 0
  return cover === 'next' ? (top + tip) / 2 : (bottom - top) / 2
}

/** The plies just beneath and above, peel ply apart, drawn on this ply's development. */
function neighboursOf(input: PatternInput, { index, geometry, z }: Draft, all: readonly Draft[]) {
  const laid = all.filter(({ ply }) => !comesOff(ply.role))
  const beneath = laid.filter((other) => other.index < index).at(-1)
  const above = laid.find((other) => other.index > index)
  return [beneath, above].flatMap((other) => {
    if (other === undefined) return []
    const made = plyOutlines({ ...outlineInput(input, geometry, z), ply: other.ply, biasShear: 0 })
    return 'none' in made ? [] : [{ id: other.ply.id, net: made.net, beneath: other === beneath }]
  })
}

/** Height of the outermost point of a ply on the fin's face. */
function faceReach({ fins }: PatternInput, { stepBack }: ScheduledPly): number {
  const parts = shiftedOutline(fins.outline, stepBack)
  return parts.length === 0 ? 0 : Math.max(...parts.map((part) => bounds(part).top))
}

function sectionShape(section: BaySection, { tube, fins }: PatternInput): SectionShape {
  const { R, h, N, span, r, filletHeight, phi, theta, width, stations } = section
  return {
    tubeRadius: R,
    coreThickness: 2 * h,
    finCount: N,
    span,
    rootLength: rootLength(fins.outline),
    filletRadius: r,
    filletHeight,
    filletArc: phi,
    filletFoot: theta,
    width,
    aftTubeRadius: tube.aftRadius,
    aftFilletRadius: fins.fillet.radiusAft,
    cant: fins.cant,
    stations,
  }
}
