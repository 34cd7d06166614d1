/** Correction of a printer by its measured check square, as the sheets apply it: every page is drawn scaled per axis. */
import type { CanDesign } from '@finwright/core/assess/design.ts'
import type { Checked } from '@finwright/core/issue.ts'
import { type PrintCorrection, printCorrection } from '@finwright/core/pattern/printing.ts'
import { group, type Page } from './drawing/drawing.ts'

/** One a machine; null while its square was not measured. */
export interface Corrections {
  readonly printer: PrintCorrection | null
  /** The roll PDF's. */
  readonly roll: PrintCorrection | null
  /** The plotter's or cutter's, for SVG and DXF. */
  readonly cutter: PrintCorrection | null
}

/** The issues of every machine whose square says that it is to be set right and asked again. */
export function correctionFor({ printing }: Pick<CanDesign, 'printing'>): Checked<Corrections> {
  const none: Checked<null> = { ok: true, value: null, warnings: [] }
  const { measured, roll: rolled, cutter: cut } = printing
  const made = [
    measured === null ? none : printCorrection(measured, { path: 'printing.checkSquare' }),
    rolled === null ? none : printCorrection(rolled, { path: 'printing.rollSquare' }),
    cut === null ? none : printCorrection(cut, { path: 'printing.cutterSquare', cutter: true }),
  ]
  const issues = made.flatMap((one) => (one.ok ? [] : one.issues))
  if (issues.length > 0) return { ok: false, issues }
  const [printer, roll, cutter] = made.map((one) => (one.ok ? one.value : null))
  return { ok: true, value: { printer: printer!, roll: roll!, cutter: cutter! }, warnings: [] }
}

export const correctionWords = (correction: PrintCorrection | null, machine = 'printer'): string =>
  correction === null
    ? ''
    : `corrected for this ${machine}: × ${correction.across.toFixed(4)} across, × ${correction.along.toFixed(4)} along`

/** The page scaled about its middle, so that it comes out true on that printer. */
export function corrected(page: Page, correction: PrintCorrection | null): Page {
  if (correction === null) return page
  const { across, along } = correction
  const move = [(page.width * (1 - across)) / 2, (page.height * (1 - along)) / 2] as const
  return { ...page, items: [group(page.items, { scale: [across, along], move })] }
}
