/** The few numbers that every edit is judged by, as they stand and as they stood before the last change. */
import type { AssessmentParts } from '@finwright/core/assess/steps.ts'
import type { Answers, PartName } from '@finwright/plan/protocol/work.ts'
import { type Figures, hertz, plain, ratio } from '@finwright/sheets/layout/figures.ts'

export interface Margin {
  readonly id: string
  readonly label: string
  readonly part: PartName
  /** Derivation that opens on it. */
  readonly why: string
  readonly read: (parts: Read, figures: Figures) => Reading | null
}

export interface Reading {
  readonly text: string
  /** Said when it is not enough; null where enough or where nothing is asked for. */
  readonly fault: string | null
  /** What is asked for, in few words. */
  readonly asked?: string
}

/** Sections by name, those that are known. */
export type Read = { readonly [P in PartName]?: NonNullable<AssessmentParts[P]> | undefined }

export const margins: readonly Margin[] = [
  {
    ...{ id: 'flutter', label: 'Flutter, × flight speed', part: 'flutter', why: 'flutter.ratio' },
    read: ({ flutter }) => {
      if (flutter === undefined) return null
      const { speedRatio, verdict, requiredRatio } = flutter.margin
      const asked = `${ratio(requiredRatio)} asked`
      if (speedRatio === null) return { text: 'not determined', fault: 'No pass', asked }
      return { text: ratio(speedRatio), fault: verdict === 'holds' ? null : 'Does not hold', asked }
    },
  },
  {
    ...{ id: 'strength', label: 'Strength, × worst load', part: 'strength', why: 'strength.index' },
    read: ({ strength }) => {
      if (strength === undefined) return null
      const { failureIndex, ply } = strength
      if (failureIndex === null) return { text: 'not determined', fault: 'No pass' }
      const asked = ply === null ? 'first failure' : `${ply} first`
      return { text: plain(1 / failureIndex, 1), fault: failureIndex > 1 ? 'Fails' : null, asked }
    },
  },
  {
    ...{ id: 'joint', label: 'Root joint, × worst load', part: 'bond', why: 'bond.margin' },
    read: ({ bond }) => {
      if (bond === undefined) return null
      if (bond.margin === null) return { text: 'not determined', fault: 'No pass' }
      const asked = bond.joint === null ? '' : bond.joint.worst.mode
      return { text: plain(bond.margin + 1, 2), fault: bond.margin < 0 ? 'Too weak' : null, asked }
    },
  },
  {
    ...{ id: 'frequency', label: 'First mode', part: 'structure', why: 'structure.first' },
    read: ({ structure }) => {
      if (structure === undefined) return null
      const held = structure.root?.modes_Hz[0]
      const clamped = structure.modes[0]?.frequency_Hz
      return { text: hertz(held ?? clamped), fault: null, asked: held === undefined ? 'clamped' : 'on its can' }
    },
  },
  {
    ...{ id: 'mass', label: 'One fin', part: 'fin', why: 'fin.mass' },
    read: ({ fin }, figures) =>
      fin === undefined ? null : { text: figures.grams(fin.mass_kg), fault: null, asked: 'both skins' },
  },
  {
    ...{ id: 'thickness', label: 'Thickness at the root', part: 'fin', why: 'fin.thickness' },
    read: ({ fin }, figures) =>
      fin === undefined
        ? null
        : {
            text: figures.length(fin.thickness_m.root, 1e-5),
            fault: null,
            asked: `tip ${figures.length(fin.thickness_m.tip, 1e-5)}`,
          },
  },
  {
    ...{ id: 'spare', label: 'Working time to spare', part: 'resin', why: 'resin.spare' },
    read: ({ resin }) => {
      if (resin === undefined) return null
      if (resin.batches.length === 0) return { text: '–', fault: null }
      const spare = Math.min(...resin.batches.map(({ spare_min }) => spare_min))
      return { text: `${plain(spare, 0)} min`, fault: spare < 0 ? 'Too late' : null, asked: 'tightest batch' }
    },
  },
]

export const readOf = (parts: Answers['parts']): Read =>
  Object.fromEntries(Object.entries(parts).map(([name, part]) => [name, part.value]))
