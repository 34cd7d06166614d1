/** The warp in words; a film has none and may be laid any way round, so 'any'. */
import type { PieceShape } from '@finwright/core/assess/assessment.ts'
import type { Figures } from '../layout/figures.ts'

export const warpWords = (role: PieceShape['role'], degrees: number, figures: Figures): string =>
  role === 'film' ? 'any' : figures.ply(degrees)
