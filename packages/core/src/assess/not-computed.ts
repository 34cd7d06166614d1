/** What this version does not compute: null leaves with the reason. */
import type { Issue } from '../issue.ts'
import type { Assessment, RollSection } from './assessment.ts'
import { noStrength } from './strength-section.ts'

const rollSection: RollSection = { history: null, maximumRollRate_deg_s: null, tolerance: { cant_deg: null } }

const roll: readonly Issue[] = [
  {
    code: 'roll/not-computed',
    path: 'roll',
    value: null,
    message: 'Roll rate and cant tolerance are not computed in this version.',
    hint: 'Measure every fin with the tube rolled exactly half a turn between two readings, and keep the readings.',
  },
]

const studyHasNoCan: readonly Issue[] = [
  {
    code: 'study/no-can',
    path: '',
    value: null,
    message: 'A study is a bare plate: it has no flight history, strength, bond, roll, patterns, cloth or resin.',
    hint: 'Write a plan with tube, fins and plies for those.',
  },
]

const noCan: Pick<Assessment, 'strength' | 'bond' | 'roll' | 'pattern' | 'nest' | 'resin'> = {
  strength: noStrength,
  bond: { fillet: null, margin: null, joint: null },
  roll: rollSection,
  pattern: {
    section: null,
    bay: null,
    tube: null,
    shapes: [],
    pieces: [],
    covers: [],
    rules: [],
    balance: null,
    allowances: [],
    shear: [],
    relief: [],
  },
  nest: { rolls: [], buy: [], left: [], searchBudget: 0, kept: false },
  resin: {
    cloth_kg: null,
    resin_kg: null,
    hardener_kg: null,
    batches: [],
    perPly: [],
    losses: null,
    workingTime_min: null,
    workingTimeBand_min: null,
    smallestBatch_kg: null,
    ratio: null,
    kit: null,
  },
}

export const notComputed = { roll, rollSection, studyHasNoCan, noCan }
