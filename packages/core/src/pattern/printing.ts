/**
 * Correction of a printer, roll printer or cutter by its check square.
 *
 * A square of 100 mm is printed and measured across and along the feed; patterns are then drawn at 100 mm over the measured
 * length, per axis. A print that differs from itself by more than 0.5 % between the axes, or from the truth by more than
 * 2 %, has been scaled by a setting and is to be printed again: correcting it would trust a setting that may change. Both
 * limits are ours, not a standard; a good print stays within 0.5 mm on 100 mm.
 */
import { millimetres } from '../geometry/dimension-text.ts'
import type { Checked, Issue } from '../issue.ts'

export const checkSquare = 0.1
export const allowedAnisotropy = 0.005
export const allowedScaleError = 0.02

export interface PrintCorrection {
  /** To multiply drawn lengths with. */
  readonly across: number
  readonly along: number
}

export interface MeasuredSquare {
  readonly across: number
  readonly along: number
}

/** `path` is the plan's field, for the issues. The axes of a cutter have a motor each, and may differ by what they like. */
export function printCorrection(
  measured: MeasuredSquare,
  { path, cutter = false }: { readonly path: string; readonly cutter?: boolean },
): Checked<PrintCorrection> {
  const { across, along } = measured
  const issues = [...unusable(path, 'across', across), ...unusable(path, 'along', along)]
  if (issues.length > 0) return { ok: false, issues }
  const skew = Math.abs(across - along) / ((across + along) / 2)
  const sizes = `${millimetres(across)} across and ${millimetres(along)} along the feed`
  if (skew > allowedAnisotropy && !cutter)
    issues.push({
      code: 'printing/anisotropic',
      path,
      value: measured,
      message: `The check square measures ${sizes}; the two differ by ${percent(skew)}, and at most ${percent(allowedAnisotropy)} is allowed.`,
      hint: 'Print again with scaling off: choose "actual size" or 100 %, not "fit", "shrink" or "borderless", and measure again.',
    })
  const error = Math.max(Math.abs(across / checkSquare - 1), Math.abs(along / checkSquare - 1))
  if (error > allowedScaleError && issues.length === 0)
    issues.push({
      code: 'printing/scaled',
      path,
      value: measured,
      message: `The check square measures ${sizes} in place of 100.0 mm; that is ${percent(error)} off, and at most ${percent(allowedScaleError)} is corrected.`,
      hint: cutter
        ? 'Set the steps per millimetre of each axis on the machine, cut the square again and measure it.'
        : 'The driver scales the page. Print again with scaling off: "actual size" or 100 %, not "fit", and measure again.',
    })
  if (issues.length > 0) return { ok: false, issues }
  return { ok: true, value: { across: checkSquare / across, along: checkSquare / along }, warnings: [] }
}

const percent = (share: number): string => `${(share * 100).toFixed(1)} %`

function unusable(path: string, axis: 'across' | 'along', length: number): Issue[] {
  if (length > 0.5 * checkSquare && length < 2 * checkSquare) return []
  return [
    {
      code: 'printing/not-the-square',
      path: `${path}.${axis}`,
      value: length,
      message: `The check square measures ${Number.isFinite(length) ? millimetres(length) : length} ${axis} the feed; it must lie between 50 and 200 mm to be the square of 100 mm.`,
      hint: 'Measure the side of the printed square, not the page, and write its unit.',
    },
  ]
}
