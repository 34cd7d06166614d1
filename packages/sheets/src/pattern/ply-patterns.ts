/** One true-scale picture a distinct ply shape, with the pieces that are cut by it. */
import type { Assessment, PatternPiece } from '@finwright/core/assess/assessment.ts'
import type { Figures } from '../layout/figures.ts'
import type { Paper } from '../layout/paper.ts'
import { filmWords } from '../sheets/film-words.ts'
import { gridOf, seamsOf } from './grid.ts'
import type { Picture } from './picture.ts'
import { piecePicture } from './piece-picture.ts'
import { squarePlaces } from './square-place.ts'

/** Words keep clear of the joins of the paper's tiles; null for a picture in one piece. */
export function plyPatterns({ pattern }: Assessment, figures: Figures, paper: Paper | null): Picture[] {
  return pattern.shapes.map((shape) => {
    const pieces = pattern.pieces.filter(({ ply }) => ply === shape.ply)
    const words = {
      title: `${shape.ply} · ${shape.sequence} of ${shape.of}`,
      lines: [
        `${anglesOf(pieces, figures)} · ${shape.clothName}`,
        ...(shape.cover === 'bay' ? [] : [patchWords(shape.cover)]),
        ...(shape.role === 'film' ? [filmWords(pattern, shape.ply)] : []),
        `${figures.length(shape.cutWidth_m)} × ${figures.length(shape.cutLength_m)} as cut`,
        `${pieces.length} pieces: ${usedBy(pieces)}`,
        `${figures.area(shape.area_m2)} · ${figures.grams(shape.mass_kg)} dry`,
        ...mirroredCuts(pieces, pattern.relief, figures),
      ],
      use: [
        usedBy(pieces),
        ...(shape.cover === 'bay' ? [] : [patchWords(shape.cover)]),
        anglesOf(pieces, figures),
        shape.clothName,
      ].join(' · '),
      pullBack: `pull back to ${figures.length(shape.width_m)} × ${figures.length(shape.length_m)}`,
      cloth: `${lettersOf(pieces).join('/')}-bay-${shape.ply}`,
    }
    const relief = pattern.relief.filter(({ ply }) => ply === shape.ply)
    return piecePicture(shape, words, relief, (frame, lines) => {
      if (paper === null) return null
      const grid = gridOf(frame, paper)
      return { seams: seamsOf(grid), squares: squarePlaces(grid, lines, []) }
    })
  })
}

/** Seen from outside with the nose up, the next fin is on the right. */
const patchWords = (cover: 'next' | 'previous'): string =>
  `patch, ${cover === 'next' ? 'right' : 'left'} fin of the bay`

/** `A, B · bays 1–4`; pieces whose bays differ between cans are named one by one. */
export function usedBy(pieces: readonly PatternPiece[]): string {
  const letters = lettersOf(pieces)
  const baysOf = (letter: string): string => ranges(pieces.filter(({ can }) => can === letter).map(({ bay }) => bay))
  const all = letters.map(baysOf)
  if (letters.length === 0) return 'no piece'
  if (new Set(all).size === 1) return `${letters.join(', ')} · ${all[0]}`
  return letters.map((letter, i) => `${letter} ${all[i]}`).join(', ')
}

/** `+45°`, or `+30° (bays 1, 3), −30° (bays 2, 4)` where alternate bays are mirrored. */
export function anglesOf(pieces: readonly PatternPiece[], figures: Figures): string {
  if (pieces[0]?.role === 'film') return 'any way round'
  const angles = [...new Set(pieces.map(({ angle_deg }) => angle_deg))]
  if (angles.length === 1) return figures.ply(angles[0])
  return angles
    .map((angle) => {
      const bays = pieces.filter(({ angle_deg }) => angle_deg === angle).map(({ bay }) => bay)
      return `${figures.ply(angle)} (${ranges(bays)})`
    })
    .join(', ')
}

/** A mirrored bay's weave turns the other way, and what relieves it lies across the centre line. */
function mirroredCuts(
  pieces: readonly PatternPiece[],
  relief: Assessment['pattern']['relief'],
  figures: Figures,
): string[] {
  const [first, ...rest] = [...new Set(pieces.map(({ angle_deg }) => angle_deg))]
  if (first === undefined || rest.length === 0 || !relief.some(({ ply }) => ply === pieces[0]!.ply)) return []
  return [`slits as drawn for ${figures.ply(first)}; for ${figures.ply(rest[0]!)} turn the pattern over`]
}

const lettersOf = (pieces: readonly PatternPiece[]): string[] => [...new Set(pieces.map(({ can }) => can))]

/** `bay 2`, `bays 1–4`, `bays 1, 3`. */
export function ranges(bays: readonly number[]): string {
  const sorted = [...new Set(bays)].sort((a, b) => a - b)
  const runs: [number, number][] = []
  for (const bay of sorted) {
    const last = runs.at(-1)
    if (last !== undefined && bay === last[1] + 1) last[1] = bay
    else runs.push([bay, bay])
  }
  const words = runs.map(([a, b]) => (a === b ? `${a}` : b === a + 1 ? `${a}, ${b}` : `${a}–${b}`)).join(', ')
  return `${sorted.length === 1 ? 'bay' : 'bays'} ${words}`
}
