/** Patterns of a can, mapped to the assessment's keys. */

import { finSpan } from '../geometry/fin-outline.ts'
import type { Checked } from '../issue.ts'
import { clothExpansion } from '../laminate/expansion.ts'
import { sheetLayer } from '../laminate/layer.ts'
import { sheetExpansion } from '../material/expansion.ts'
import type { BareBay } from '../pattern/bare-bay.ts'
import { type Patterns, type PlyShape, patterns } from '../pattern/patterns.ts'
import { allowanceRules, allowances, type PlyAllowance } from '../pattern/rules-allowance.ts'
import { type Balance, type BalanceInput, finBalance } from '../pattern/rules-balance.ts'
import { pieceNameRule } from '../pattern/rules-numbering.ts'
import type { PatternInput, ScheduledPly } from '../pattern/schedule.ts'
import type { TubeLines, TubePlace } from '../pattern/tube-lines.ts'
import type { BayFigures, PatternSection, PieceShape, TubeFigures } from './assessment.ts'
import type { CanDesign, PlyDesign } from './design.ts'
import type { ShearAssessed } from './shear-section.ts'
import { bayPlies, type SkinPly } from './skins.ts'

/** Fibre share of a dry peel ply as it lies: half solid, common practice, no source; a film is solid. Moves nothing but its own width. */
const peelPlySolid = 0.5

export interface CanPatterns extends Patterns {
  readonly balance: Balance
  /** One a shape, in the same order. */
  readonly allowances: readonly PlyAllowance[]
}

export const patternInput = (design: CanDesign, skins: readonly SkinPly[]): PatternInput => ({
  ...design,
  plies: design.plies.map((ply) => scheduled(ply, skins)),
})

export function canPatterns(design: CanDesign, skins: readonly SkinPly[]): Checked<CanPatterns> {
  const input = patternInput(design, skins)
  const { plies } = input
  const made = patterns(input)
  if (!made.ok) return made
  const { balance, issues } = finBalance(
    balanceInput(
      design,
      skins.filter(({ design: { cover } }) => cover === 'bay'),
    ),
  )
  const { shapes, pieces, section } = made.value
  const narrowing = section.filletArc + section.filletFoot - Math.PI / section.finCount
  const allowed = { shapes, plies, biasShear: design.layup.biasShear, narrowing }
  const found = allowances(allowed)
  const rules = [...made.value.rules, ...pieceNameRule(pieces), ...issues, ...allowanceRules(allowed, found)]
  return { ...made, value: { ...made.value, balance, allowances: found, rules } }
}

function balanceInput(design: CanDesign, skins: readonly SkinPly[]): BalanceInput {
  const { fins, layup, resin, mixing, shop } = design
  const { material, thickness, grain } = fins.core
  const { along, across } = sheetExpansion(material)
  const free = mixing.postCure ? resin.glassTransitionPostCured : resin.glassTransition
  const recipe = { resin, resinPerCloth: layup.resinPerCloth, voidFraction: layup.voidFraction }
  return {
    finCount: fins.count,
    span: finSpan(fins.outline),
    core: {
      layer: sheetLayer(material, { theta: grain, t: thickness, name: 'core' }),
      expansion: { alpha1: along.value, alpha2: across.value },
    },
    plies: bayPlies(skins).map((ply, i) => {
      const { cloth, stepBack } = skins[i]!.design
      return {
        ...ply,
        stepBack,
        index: design.plies.findIndex(({ id }) => id === ply.id),
        expansion: clothExpansion({ cloth, ...recipe }, ply.ply.fibreVolumeFraction),
      }
    }),
    mirrorAlternateBays: layup.mirrorAlternateBays,
    cooling: Math.min(0, shop.temperature - free.value),
  }
}

function scheduled(ply: PlyDesign, skins: readonly SkinPly[]): ScheduledPly {
  const dryArealMass = ply.cloth.arealMass.value
  const cured = skins.find(({ design }) => design.id === ply.id)?.cured
  const solid = ply.cloth.weave === 'film' ? 1 : peelPlySolid
  const thickness = cured?.t ?? dryArealMass / (ply.cloth.fibre.density.value * solid)
  return { ...ply, thickness, dryArealMass }
}

export function patternSection(
  { section, bay, tube, shapes, pieces, covers, rules, balance, allowances }: CanPatterns,
  { shear, relief }: Pick<ShearAssessed, 'shear' | 'relief'>,
): PatternSection {
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
      aftTubeRadius_m: section.aftTubeRadius,
      aftFilletRadius_m: section.aftFilletRadius,
      cant_deg: degrees(section.cant),
      stations_m: section.stations,
    },
    bay: bayFigures(bay),
    tube: tubeFigures(tube),
    shapes: shapes.map(pieceShape),
    pieces: pieces.map(({ id, can, bay, ply, role, cloth, angle, outline, netOutline, area, mass }) => ({
      ...{ id, can, bay, ply, role, cloth, angle_deg: degrees(angle) },
      ...{ outline_m: outline, netOutline_m: netOutline, area_m2: area, mass_kg: mass },
    })),
    covers: covers.map(({ ply, covers: covered, by }) => ({
      least_m: allowances.find((one) => one.ply === ply)?.covers.find((other) => other.ply === covered)?.least ?? null,
      ply,
      covers: covered,
      leading_m: by.leading,
      trailing_m: by.trailing,
      tip_m: by.tip,
      bodyForward_m: by.bodyForward,
      bodyAft_m: by.bodyAft,
    })),
    rules,
    allowances: allowances.map(({ ply, left, short, bareAtShear }) => ({
      ply,
      left_m: left,
      short_m: short,
      bareAtShear_deg: bareAtShear === null ? null : degrees(bareAtShear),
    })),
    balance: {
      cooling_K: balance.cooling,
      zones: balance.zones.map(({ plies, coupling, tipTwist, tipBow }) => ({
        plies,
        ...coupling,
        tipTwist_deg: degrees(tipTwist),
        tipBow_m: tipBow,
      })),
    },
    shear,
    relief,
  }
}

const bayFigures = ({ straight, width, feet, tops, rootEnds, core, ends }: BareBay): BayFigures => ({
  straight,
  width_m: width,
  feet_m: feet,
  tops_m: tops,
  rootEnds_m: rootEnds,
  core_m: core,
  ends: ends.map(({ station, filletRadius, filletArc, parts, at }) => ({
    station_m: station,
    filletRadius_m: filletRadius,
    filletArc_deg: degrees(filletArc),
    previousFillet_m: parts.previousFillet,
    body_m: parts.body,
    nextFillet_m: parts.nextFillet,
    at_m: at,
  })),
})

const onTube = (places: readonly TubePlace[]): TubeFigures['ticks'][number] =>
  places.map(([a, angle]) => [a, degrees(angle)] as const)

function tubeFigures({
  radius,
  kappa,
  finCount,
  root,
  canEnds,
  runOut,
  fin,
  ends,
  stops,
  ticks,
}: TubeLines): TubeFigures {
  return {
    radius_m: radius,
    narrowing_deg: degrees(kappa),
    finCount,
    root_m: root,
    canEnds_m: canEnds,
    runOut_m: runOut,
    fin: {
      middle: onTube(fin.middle),
      nextFace: onTube(fin.nextFace),
      previousFace: onTube(fin.previousFace),
      nextFoot: onTube(fin.nextFoot),
      previousFoot: onTube(fin.previousFoot),
    },
    ends: ends.map(({ ply, side, a }) => ({
      ply,
      face: side === null ? null : side === 1 ? 'next' : 'previous',
      at_m: a,
    })),
    stops: stops.map(({ ply, points }) => ({ ply, points: onTube(points) })),
    ticks: ticks.map(onTube),
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
    cover: shape.cover,
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
    marks: shape.marks.map(({ kind, points, label }) => ({
      kind,
      points_m: points,
      label,
    })),
    label_m: shape.label,
  }
}

const degrees = (angle: number): number => (angle * 180) / Math.PI
