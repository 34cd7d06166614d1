/**
 * The patterns of a fin can: section, one shape a ply, every piece, what covers what, and which rules the schedule breaks.
 *
 * Each ply is developed at its own mid-surface: the thickness of all earlier plies and half its own out from the bare
 * surface, one value a ply, as if every earlier ply lay under it everywhere.
 */
import { type BaySection, baySection } from '../bond/section.ts'
import { finSpan, rootLength } from '../geometry/fin-outline.ts'
import { area, bounds, type Polygon } from '../geometry/polygon.ts'
import { shiftedOutline } from '../geometry/polygon-shift.ts'
import type { Checked, Issue } from '../issue.ts'
import { type Cover, plyCovers } from './covers.ts'
import { development } from './development.ts'
import { inputIssues, noOutlineIssue, splitIssue, tightFilletIssue, tightFilletRule } from './faults.ts'
import { type LabelPlace, labelPlace } from './label.ts'
import { type PlyMark, plyMarks } from './marks.ts'
import { type PlyOutlines, plyOutlines } from './outlines.ts'
import { type Piece, piecesOf } from './pieces.ts'
import { brokenRules } from './rules.ts'
import { buildUps, type PatternInput, type PlyRole, type ScheduledPly } from './schedule.ts'
import { isBias, widthKept } from './trellis.ts'

/** The section for drawing; lengths in m, angles in rad. */
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
}

/** The patterns, or every reason why they cannot be made. */
export function patterns(input: PatternInput): Checked<Patterns> {
  const refused = inputIssues(input)
  if (refused.length > 0) return { ok: false, issues: refused }
  const { tube, fins, plies, layup, cans } = input
  const section = baySection({
    tubeRadius: tube.outerRadius,
    coreThickness: fins.core.thickness,
    finCount: fins.count,
    span: finSpan(fins.outline),
    filletRadius: fins.fillet.radius,
  })
  if (!section.ok) return section
  const drafted = plies.map((ply, index) => drafts(input, section.value, ply, index))
  const issues = drafted.flatMap((draft) => ('issues' in draft ? draft.issues : []))
  if (issues.length > 0) return { ok: false, issues }
  const made = drafted.flatMap((draft) => ('issues' in draft ? [] : [draft]))
  const shapes = made.map((draft) => shapeOf(input, draft, made))
  const value: Patterns = {
    section: sectionShape(section.value, rootLength(fins.outline)),
    shapes,
    pieces: piecesOf({ shapes, bays: fins.count, cans, mirrored: layup.mirrorAlternateBays }),
    covers: plyCovers(plies),
    rules: [
      ...brokenRules({
        plies,
        layup,
        fins,
        filletTop: section.value.xc - section.value.R,
        reach: plies.map((ply) => faceReach(input, ply)),
      }),
      ...tightFilletRule(plies, section.value),
    ],
  }
  return { ok: true, value, warnings: [] }
}

interface Draft {
  readonly ply: ScheduledPly
  readonly index: number
  readonly section: BaySection
  readonly z: number
  readonly outlines: PlyOutlines
}

function drafts(
  { fins, plies, layup }: PatternInput,
  section: BaySection,
  ply: ScheduledPly,
  index: number,
): Draft | { readonly issues: readonly Issue[] } {
  const z = buildUps(plies)[index]!
  if (!(section.r - z > 0)) return { issues: [tightFilletIssue(ply, index, { r: section.r, z })] }
  const outlines = plyOutlines({
    outline: fins.outline,
    dev: development(section, z),
    ply,
    overrun: layup.overrun,
    biasShear: layup.biasShear,
  })
  if ('none' in outlines) return { issues: [noOutlineIssue(ply, index, outlines.none, { fins, layup })] }
  if (outlines.lost > 0) return { issues: [splitIssue(ply, index, outlines.lost)] }
  return { ply, index, section, z, outlines }
}

function shapeOf(input: PatternInput, draft: Draft, all: readonly Draft[]): PlyShape {
  const { ply, index, z, outlines, section } = draft
  const { net, cut } = outlines
  const label = labelPlace(net, cut)
  const netBounds = bounds(net)
  const cutBounds = bounds(cut)
  const cutWidth = cutBounds.top - cutBounds.bottom
  const outlineArea = area(cut)
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
    area: outlineArea,
    netArea: area(net),
    width: netBounds.top - netBounds.bottom,
    cutWidth,
    length: netBounds.right - netBounds.left,
    cutLength: cutBounds.right - cutBounds.left,
    buildUp: z,
    biasAllowance: cutWidth * (1 - widthKept(ply.angle, input.layup.biasShear)),
    mass: ply.dryArealMass * outlineArea,
    marks: plyMarks({
      outline: input.fins.outline,
      edges: input.fins.edges,
      dev: development(section, z),
      outlines,
      neighbours: neighboursOf(input, draft, all),
      angle: ply.angle,
      bias: isBias(ply.angle),
      label,
    }),
    label,
  }
}

/** The plies just beneath and above, peel ply apart, drawn on this ply's development. */
function neighboursOf({ fins, layup }: PatternInput, { index, section, z }: Draft, all: readonly Draft[]) {
  const laid = all.filter(({ ply }) => ply.role !== 'peel')
  const beneath = laid.filter((other) => other.index < index).at(-1)
  const above = laid.find((other) => other.index > index)
  return [beneath, above].flatMap((other) => {
    if (other === undefined) return []
    const made = plyOutlines({
      outline: fins.outline,
      dev: development(section, z),
      ply: other.ply,
      overrun: layup.overrun,
      biasShear: 0,
    })
    return 'none' in made ? [] : [{ id: other.ply.id, net: made.net, beneath: other === beneath }]
  })
}

/** Height of the outermost point of a ply on the fin's face. */
function faceReach({ fins }: PatternInput, { stepBack }: ScheduledPly): number {
  const parts = shiftedOutline(fins.outline, stepBack)
  return parts.length === 0 ? 0 : Math.max(...parts.map((part) => bounds(part).top))
}

function sectionShape(section: BaySection, root: number): SectionShape {
  const { R, h, N, span, r, filletHeight, phi, theta, width, stations } = section
  return {
    tubeRadius: R,
    coreThickness: 2 * h,
    finCount: N,
    span,
    rootLength: root,
    filletRadius: r,
    filletHeight,
    filletArc: phi,
    filletFoot: theta,
    width,
    stations,
  }
}
