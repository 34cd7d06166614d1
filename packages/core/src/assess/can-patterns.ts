/** Patterns and nesting of a can, mapped to the assessment's keys. */

import type { Checked } from '../issue.ts'
import { type NestResult, nestPieces, usualGap } from '../nest/nest.ts'
import { type Patterns, type PlyShape, patterns } from '../pattern/patterns.ts'
import type { ScheduledPly } from '../pattern/schedule.ts'
import type { NestSection, PatternSection, PieceShape } from './assessment.ts'
import type { CanDesign, PlyDesign } from './design.ts'
import type { SkinPly } from './skins.ts'

/** Fibre share of a dry peel ply as it lies: half solid, common practice, no source. Moves nothing but its own width. */
const peelPlySolid = 0.5

export function canPatterns(design: CanDesign, skins: readonly SkinPly[]): Checked<Patterns> {
  const plies = design.plies.map((ply) => scheduled(ply, skins))
  return patterns({ ...design, plies })
}

export function canNest({ plies, stock }: CanDesign, { pieces }: Patterns): Checked<NestResult> {
  const cloths = new Map(plies.map(({ cloth }) => [cloth.id, cloth]))
  return nestPieces({
    pieces: pieces.map(({ id, cloth, outline, angle }) => ({ id, outline, angle, cloth: cloths.get(cloth)! })),
    rolls: stock.rolls,
    gap: usualGap,
  })
}

function scheduled(ply: PlyDesign, skins: readonly SkinPly[]): ScheduledPly {
  const dryArealMass = ply.cloth.arealMass.value
  const cured = skins.find(({ design }) => design.id === ply.id)?.cured
  const thickness = cured?.t ?? dryArealMass / (ply.cloth.fibre.density.value * peelPlySolid)
  return { ...ply, thickness, dryArealMass }
}

export function patternSection({ section, shapes, pieces, covers, rules }: Patterns): PatternSection {
  return {
    section: {
      tubeRadius_m: section.tubeRadius,
      coreThickness_m: section.coreThickness,
      finCount: section.finCount,
      span_m: section.span,
      rootLength_m: section.rootLength,
      filletRadius_m: section.filletRadius,
      filletHeight_m: section.filletHeight,
      filletArc_deg: degrees(section.filletArc),
      filletFoot_deg: degrees(section.filletFoot),
      width_m: section.width,
      stations_m: section.stations,
    },
    shapes: shapes.map(pieceShape),
    pieces: pieces.map(({ id, can, bay, ply, role, cloth, angle, outline, netOutline, area, mass }) => ({
      ...{ id, can, bay, ply, role, cloth, angle_deg: degrees(angle) },
      ...{ outline_m: outline, netOutline_m: netOutline, area_m2: area, mass_kg: mass },
    })),
    covers: covers.map(({ ply, covers: covered, by }) => ({
      ply,
      covers: covered,
      leading_m: by.leading,
      trailing_m: by.trailing,
      tip_m: by.tip,
      bodyForward_m: by.bodyForward,
      bodyAft_m: by.bodyAft,
    })),
    rules,
  }
}

function pieceShape(shape: PlyShape): PieceShape {
  return {
    ply: shape.ply,
    sequence: shape.sequence,
    of: shape.of,
    role: shape.role,
    cloth: shape.cloth,
    clothName: shape.clothName,
    angle_deg: degrees(shape.angle),
    outline_m: shape.outline,
    netOutline_m: shape.netOutline,
    area_m2: shape.area,
    netArea_m2: shape.netArea,
    width_m: shape.width,
    cutWidth_m: shape.cutWidth,
    length_m: shape.length,
    cutLength_m: shape.cutLength,
    buildUp_m: shape.buildUp,
    biasAllowance_m: shape.biasAllowance,
    mass_kg: shape.mass,
    marks: shape.marks.map(({ kind, points, label }) => ({ kind, points_m: points, label })),
    label_m: shape.label,
  }
}

export function nestSection({ rolls, buy }: NestResult): NestSection {
  return {
    rolls: rolls.map((roll) => ({
      roll: roll.roll,
      cloth: roll.cloth,
      clothName: roll.clothName,
      width_m: roll.width,
      selvedge_m: roll.selvedge,
      availableLength_m: roll.availableLength,
      usedLength_m: roll.usedLength,
      density: roll.density,
      waste_m2: roll.waste,
      placements: roll.placements.map(({ piece, x, y, rotation }) => ({
        piece,
        x_m: x,
        y_m: y,
        rotation_deg: degrees(rotation),
      })),
    })),
    buy: buy.map(({ cloth, clothName, width, length, reason }) => ({
      cloth,
      clothName,
      width_m: width,
      length_m: length,
      reason,
    })),
  }
}

const degrees = (angle: number): number => (angle * 180) / Math.PI
