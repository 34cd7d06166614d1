/** What must hold between the fields of a study. */
import type { Point, StudyDesign } from '@finwright/core/assess/design.ts'
import { area, contains } from '@finwright/core/geometry/polygon.ts'
import { selfCrossing } from '@finwright/core/geometry/polygon-crossing.ts'
import { allKnown, type Loose, type Report } from '../resolve/loose.ts'
import type { StudyPlan } from '../schema/study.ts'

export function checkStudy(design: Loose<StudyDesign>, plan: Loose<StudyPlan>, report: Report): void {
  checkOutline(design, report)
  checkSupports(design, report)
  checkStations(design, report)
  checkFrequencies(design, plan, report)
  checkLoad(design, report)
}

const leastAreaShare = 1e-6

function checkOutline({ outline }: Loose<StudyDesign>, report: Report): void {
  const points = outline as readonly Point[] | undefined
  if (points === undefined) return
  const path = 'study.outline'
  const crossing = selfCrossing(points)
  if (crossing !== null) {
    const { first, second } = crossing
    const message = `The outline crosses itself: its side ${first + 1} meets its side ${second + 1}; it must be a simple shape.`
    report({
      code: 'outline/self-crossing',
      path,
      value: [first + 1, second + 1],
      message,
      hint: 'Put the points in order round the plate, and do not repeat the first at the end.',
    })
    return
  }
  const extent = Math.max(...points.map(([x, y]) => Math.hypot(x - points[0]![0], y - points[0]![1])))
  if (area(points) > leastAreaShare * extent ** 2) return
  report({
    code: 'outline/no-area',
    path,
    value: area(points),
    message: `The outline encloses ${area(points)} m2; it must have an area.`,
    hint: 'Check the points.',
  })
}

function checkSupports({ outline, supports }: Loose<StudyDesign>, report: Report): void {
  const path = 'study.supports'
  if (outline === undefined || supports === undefined) return
  if (supports.length !== outline.length) {
    const message = `There are ${supports.length} supports for ${outline.length} sides; there must be one a side, the first from point 1 to point 2.`
    report({ code: 'study/support-count', path, value: supports.length, message, hint: 'Add or remove supports.' })
    return
  }
  const held = supports.includes('clamped') || supports.filter((one) => one === 'simple').length >= 2
  if (held || supports.includes(undefined)) return
  const message = 'The plate is not held: at least one side must be clamped or two simply supported.'
  report({ code: 'study/unsupported', path, value: supports, message, hint: 'Write "clamped" for the root.' })
}

function checkStations({ plate }: Loose<StudyDesign>, report: Report): void {
  if (plate?.kind !== 'sheet' || plate.thickness === undefined || plate.thickness.kind === 'constant') return
  const key = plate.thickness.kind === 'absolute' ? 'stations' : 'shares'
  const path = `study.plate.thickness.${key}`
  const fraction = allKnown(plate.thickness.fraction)
  const thickness = allKnown(plate.thickness.thickness)
  if (fraction !== undefined) {
    const rises = fraction.every((x, i) => i === 0 || x > fraction[i - 1]!)
    if (!rises || fraction[0] !== 0 || fraction.at(-1) !== 1) {
      const message = `The chordwise places are ${fraction.join(', ')}; they must rise from 0 at the forward edge to 1 at the aft edge.`
      report({
        code: 'study/stations',
        path,
        value: fraction,
        message,
        hint: 'Give the first row at 0, the last at 1.',
      })
    }
  }
  if (thickness?.every((t) => t === 0)) {
    report({
      code: 'study/no-thickness',
      path,
      value: 0,
      message: 'The thickness is zero all along the chord; it must be above zero somewhere.',
      hint: 'Check the second column.',
    })
  }
}

function checkFrequencies(
  { imposedFrequencies, modeCount }: Loose<StudyDesign>,
  plan: Loose<StudyPlan>,
  report: Report,
): void {
  const path = 'study.imposedFrequencies'
  const f = imposedFrequencies === null ? undefined : allKnown(imposedFrequencies)
  if (f === undefined) return
  const falls = f.findIndex((value, i) => i > 0 && value < f[i - 1]!)
  if (falls > 0) {
    const written = plan.study?.imposedFrequencies?.[falls]
    report({
      code: 'study/frequencies-order',
      path: `${path}[${falls}]`,
      value: written,
      message: `The imposed frequency ${written} is below the one before; they must rise, as the computed ones do.`,
      hint: 'Sort them.',
    })
  }
  if (modeCount === undefined || f.length <= modeCount) return
  report({
    code: 'study/frequencies-count',
    path,
    value: f.length,
    message: `There are ${f.length} imposed frequencies for ${modeCount} modes; there may be at most as many as modes.`,
    hint: "Raise 'modes' or remove some.",
  })
}

function checkLoad({ outline, pointLoad }: Loose<StudyDesign>, report: Report): void {
  const at = allKnown(pointLoad?.at) as Point | undefined
  const points = outline as readonly Point[] | undefined
  if (at === undefined || points === undefined) return
  const extent = Math.max(...points.map(([x, y]) => Math.hypot(x - points[0]![0], y - points[0]![1])))
  if (contains(points, at, 1e-9 * extent)) return
  report({
    code: 'study/load-outside',
    path: 'study.pointLoad.at',
    value: at,
    message: `The point load stands at ${at[0]} m, ${at[1]} m, outside the plate; it must stand on it.`,
    hint: 'Check the point and its units.',
  })
}
