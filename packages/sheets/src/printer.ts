/** Correction of a printer by its measured check square, as the sheets apply it: every page is drawn scaled per axis. */
import type { CanDesign } from '@finwright/core/assess/design.ts'
import type { Checked } from '@finwright/core/issue.ts'
import { type PrintCorrection, printCorrection } from '@finwright/core/pattern/printing.ts'
import { group, type Page } from './drawing/drawing.ts'

/** Null while no square was measured; the issues when the print is to be made again. */
export function correctionFor({ printing }: Pick<CanDesign, 'printing'>): Checked<PrintCorrection | null> {
  return printing.measured === null ? { ok: true, value: null, warnings: [] } : printCorrection(printing.measured)
}

export const correctionWords = (correction: PrintCorrection | null): string =>
  correction === null
    ? ''
    : `corrected for this printer: × ${correction.across.toFixed(4)} across, × ${correction.along.toFixed(4)} along`

/** The page scaled about its middle, so that it comes out true on that printer. */
export function corrected(page: Page, correction: PrintCorrection | null): Page {
  if (correction === null) return page
  const { across, along } = correction
  const move = [(page.width * (1 - across)) / 2, (page.height * (1 - along)) / 2] as const
  return { ...page, items: [group(page.items, { scale: [across, along], move })] }
}
